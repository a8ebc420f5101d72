namespace JumpAnalytics.Tests;

public sealed class TwoLevelModelTests
{
    private const LikelihoodKind Reml = LikelihoodKind.Restricted;
    private const LikelihoodKind Ml = LikelihoodKind.Full;

    // reference/mixed-models: the dense likelihood maximised in R 4.2.2; its own search ends within 2e-9, its
    // second derivatives within 1e-7.
    [Theory]
    [InlineData(Reml, false)]
    [InlineData(Ml, false)]
    [InlineData(Reml, true)]
    [InlineData(Ml, true)]
    public void Every_figure_agrees_with_the_dense_likelihood_maximised_in_R(LikelihoodKind kind, bool withSpotters)
    {
        var figures = LevelRecords.Figures(withSpotters ? "misses with spotters" : "misses", kind, "dense");
        var (sample, spotters) = LevelRecords.Misses();
        var model = Model(sample, kind, withSpotters ? spotters : null);
        var compared = 0;
        Level("within", model.Within);
        Level("between", model.Between);
        if (model.BetweenRaters is { } level) Level("spotter", level);
        Check("bias downwind", model.Bias.Along, 1e-9);
        Check("bias right", model.Bias.Across, 1e-9);
        Check("se bias downwind", Math.Sqrt(model.BiasErrors.VarianceAlong), 1e-9);
        Check("se bias right", Math.Sqrt(model.BiasErrors.VarianceAcross), 1e-9);
        Check("logLik", model.LogLikelihood, 1e-12);
        foreach (var m in new[] { 1, 3, 12 })
            Effect($"mission {m}", model.ClusterEffects[m - 1].Effect, model.ClusterEffects[m - 1].Errors);
        foreach (var effect in model.RaterEffects) Effect("spotter " + effect.Rater[1..], effect.Effect, effect.Errors);
        Assert.Equal(figures.Count, compared);
        Assert.Equal(withSpotters ? 55 : 29, compared);
        Assert.Equal((24, 95), (model.Clusters, model.Points));
        Assert.Empty(model.Warnings);

        void Level(string name, LevelCovariance found)
        {
            Check(name + " downwind", found.Value.VarianceAlong, 2e-8);
            Check(name + " right", found.Value.VarianceAcross, 2e-8);
            Check(name + " cross", found.Value.Covariance, 2e-8);
            Check($"se {name} downwind", found.StandardErrors!.VarianceAlong, 1e-6);
            Check($"se {name} right", found.StandardErrors.VarianceAcross, 1e-6);
            Check($"se {name} cross", found.StandardErrors.Covariance, 1e-6);
        }

        void Effect(string name, PlaneVector effect, PlaneCovariance errors)
        {
            Check(name + " downwind", effect.Along, 2e-8);
            Check(name + " right", effect.Across, 2e-8);
            Check($"se {name} downwind", Math.Sqrt(errors.VarianceAlong), 2e-8);
            Check($"se {name} right", Math.Sqrt(errors.VarianceAcross), 2e-8);
        }

        void Check(string quantity, double found, double tolerance)
        {
            Close.Relative(figures[quantity], found, tolerance, quantity);
            compared++;
        }
    }

    // nlme 3.1-162, which stops within 1e-5.
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void Covariances_agree_with_nlme(LikelihoodKind kind)
    {
        var figures = LevelRecords.Figures("misses", kind, "nlme");
        var model = Model(LevelRecords.Misses().Sample, kind);
        Close.Relative(figures["between downwind"], model.Between.Value.VarianceAlong, 2e-5);
        Close.Relative(figures["between right"], model.Between.Value.VarianceAcross, 2e-5);
        Close.Relative(figures["between cross"], model.Between.Value.Covariance, 2e-5);
        Close.Relative(figures["within downwind"], model.Within.Value.VarianceAlong, 2e-5);
        Close.Relative(figures["within right"], model.Within.Value.VarianceAcross, 2e-5);
        Close.Relative(figures["within cross"], model.Within.Value.Covariance, 2e-5);
        Close.Relative(figures["logLik"], model.LogLikelihood, 1e-11);
    }

    /// <summary>
    /// With n landings in each of M missions the restricted estimates are MSW and (MSB − MSW)/n, and the full ones have (M − 1)/M of MSB.
    /// </summary>
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void An_even_design_has_the_closed_form(LikelihoodKind kind)
    {
        const int M = 40, N = 4;
        var misses = MadeMisses.Draw(7, Enumerable.Repeat(N, M), MadeMisses.Typical);
        var mean = Mean(misses.Select(r => r.Place!.Value));
        PlaneCovariance between = new(0, 0, 0), within = new(0, 0, 0);
        foreach (var mission in misses.GroupBy(r => r.Cluster))
        {
            var own = Mean(mission.Select(r => r.Place!.Value));
            between = between + Square(own, mean, (double)N / (kind == Reml ? M - 1 : M));
            foreach (var r in mission) within = within + Square(r.Place!.Value, own, 1.0 / (M * (N - 1)));
        }
        var model = Model(PlaneSample.Of(misses), kind);
        Same(within, model.Within.Value, 1e-10);
        Same(new((between.VarianceAlong - within.VarianceAlong) / N, (between.VarianceAcross - within.VarianceAcross) / N,
            (between.Covariance - within.Covariance) / N),
            model.Between.Value, 1e-10);
        Same(new(between.VarianceAlong / (N * M), between.VarianceAcross / (N * M), between.Covariance / (N * M)), model.BiasErrors, 1e-10);
        Close.Relative(mean.Along, model.Bias.Along, 1e-12);
        Close.Relative(mean.Across, model.Bias.Across, 1e-12);
        if (kind == Ml) return;

        // The classical interval of the intra-class correlation: F on M − 1 and M(n − 1) degrees of freedom; qf of R 4.2.2.
        const double F975 = 1.62023705326, F025 = 0.576321855817;
        var ratio = between.VarianceAlong / within.VarianceAlong;
        var range = model.Forecast.Along.Share.Range!.Value;
        Close.Relative(Icc(ratio / F975), range.Low, 1e-7);
        Close.Relative(Icc(ratio / F025), range.High, 1e-7);

        // The bias: t on M − 1 degrees of freedom, qt(.975, 39).
        var half = 2.02269092003676 * Math.Sqrt(between.VarianceAlong / (N * M));
        Close.Relative(mean.Along + half, model.BiasAlong.Range!.Value.High, 1e-8);

        static double Icc(double f) => (f - 1) / (f - 1 + N);
        static PlaneCovariance Square(PlaneVector a, PlaneVector b, double weight) =>
            new(weight * (a.Along - b.Along) * (a.Along - b.Along), weight * (a.Across - b.Across) * (a.Across - b.Across),
                weight * (a.Along - b.Along) * (a.Across - b.Across));
        static PlaneVector Mean(IEnumerable<PlaneVector> v) => new(v.Average(m => m.Along), v.Average(m => m.Across));
    }

    /// <summary>Axes turned by any angle, and another unit: the same model, turned.</summary>
    [Fact]
    public void Turned_axes_turn_the_model()
    {
        var misses = MadeMisses.Draw(3, [1, 4, 2, 6, 3, 3, 5, 2, 8, 1, 4, 2], MadeMisses.Typical);
        var spotters = misses.Select(r => (r.Cluster.Length + r.Cluster[^1]) % 3 + "").ToArray();
        var (cos, sin) = (1852 * Math.Cos(0.7), 1852 * Math.Sin(0.7));
        var turned = misses.Select(r => r with { Place =
            new(cos * r.Place!.Value.Along - sin * r.Place.Value.Across, sin * r.Place.Value.Along + cos * r.Place.Value.Across) });
        var a = Model(PlaneSample.Of(misses), Reml, spotters);
        var b = Model(PlaneSample.Of(turned), Reml, spotters);
        Same(Turn(a.Between.Value), b.Between.Value, 1e-8);
        Same(Turn(a.Within.Value), b.Within.Value, 1e-8);
        Same(Turn(a.BetweenRaters!.Value), b.BetweenRaters!.Value, 1e-6);
        Close.Relative(cos * a.Bias.Along - sin * a.Bias.Across, b.Bias.Along, 1e-8);
        Close.Relative(a.LogLikelihood - 2 * (a.Points - 1) * Math.Log(1852), b.LogLikelihood, 1e-12);
        Close.Relative(a.Forecast.Overall.Share.Value, b.Forecast.Overall.Share.Value, 1e-8);
        Close.Relative(a.Forecast.Overall.Share.Range!.Value.High, b.Forecast.Overall.Share.Range!.Value.High, 1e-5);

        PlaneCovariance Turn(PlaneCovariance c) => new(
            cos * cos * c.VarianceAlong - 2 * cos * sin * c.Covariance + sin * sin * c.VarianceAcross,
            sin * sin * c.VarianceAlong + 2 * cos * sin * c.Covariance + cos * cos * c.VarianceAcross,
            cos * sin * (c.VarianceAlong - c.VarianceAcross) + (cos * cos - sin * sin) * c.Covariance);
    }

    [Fact]
    public void Distributions_follow_from_the_parts()
    {
        var (sample, spotters) = LevelRecords.Misses();
        var model = Model(sample, Reml, spotters);
        var all = model.Between.Value + model.BetweenRaters!.Value + model.Within.Value;
        Assert.Equal(new BivariateNormal(model.Bias.Along, model.Bias.Across, all.VarianceAlong, all.VarianceAcross, all.Covariance),
            model.Marginal);
        var given = model.Given(new(3, -4));
        Assert.Equal((model.Bias.Along + 3, model.Bias.Across - 4), (given.MeanAlong, given.MeanAcross));
        Assert.Equal((model.Within.Value.VarianceAlong, model.Within.Value.Covariance), (given.VarianceAlong, given.Covariance));

        // The mean over what is shared of the conditional probability is the probability of the next landing: the trapezoid rule
        // over ±8 standard deviations, which for a smooth density has no error to speak of.
        var shared = model.Shared;
        var l11 = Math.Sqrt(shared.VarianceAlong);
        var l21 = shared.Covariance / l11;
        var l22 = Math.Sqrt(shared.VarianceAcross - l21 * l21);
        var (sum, weight) = (0.0, 0.0);
        for (var u = -8.0; u <= 8; u += 0.5)
        {
            for (var v = -8.0; v <= 8; v += 0.5)
            {
                var w = Math.Exp(-0.5 * (u * u + v * v));
                (sum, weight) = (sum + w * model.Given(new(l11 * u, l21 * u + l22 * v)).ProbabilityWithin(30), weight + w);
            }
        }
        Close.Absolute(model.Marginal.ProbabilityWithin(30), sum / weight, 1e-10);
    }

    [Fact]
    public void A_million_landings_take_seconds()
    {
        var data = MadeMisses.Draw(1, Enumerable.Range(0, 200_000).Select(i => 1 + i % 9), MadeMisses.Typical);
        var sample = PlaneSample.Of(data);
        var before = Environment.CpuUsage.TotalTime;
        var model = Model(sample, Reml);
        // One second of one core; the process does other tests beside it, and a busy machine does not count.
        Assert.InRange((Environment.CpuUsage.TotalTime - before).TotalSeconds, 0, 60);
        Assert.Equal((200_000, 999_993), (model.Clusters, model.Points));
        Assert.Equal(200_000, model.ClusterEffects.Count);
        MadeMisses.Typical.AssertNear(model, 5.5); // 8 numbers within 5.5 standard errors: error probability 3e-7, seed fixed
    }

    internal static TwoLevelModel Model(PlaneSample sample, LikelihoodKind kind = Reml, IReadOnlyList<string>? spotters = null)
    {
        var fit = TwoLevelModel.FitTo(sample, kind, spotters);
        Assert.Null(fit.Reason);
        return fit.Value!;
    }

    internal static void Same(PlaneCovariance expected, PlaneCovariance found, double tolerance)
    {
        var size = tolerance * expected.Trace;
        Close.Absolute(expected.VarianceAlong, found.VarianceAlong, size, "downwind");
        Close.Absolute(expected.VarianceAcross, found.VarianceAcross, size, "right");
        Close.Absolute(expected.Covariance, found.Covariance, size, "covariance");
    }
}
