namespace JumpAnalytics.Tests;

public sealed class ScaleMixtureTests
{
    private static readonly BivariateNormal _core = new(5, -2, 100, 64, 20);

    private static PlaneSample Drawn(IPlaneModel model, int count, int seed)
    {
        var random = SeedStream.For(seed, "mixture");
        return PlaneSample.Of(Enumerable.Range(0, count).Select(_ => model.Draw(random)));
    }

    /// <summary>By hand: density of two normals at the centre and at one standard deviation along.</summary>
    [Fact]
    public void Its_density_is_that_of_two_normals()
    {
        var model = new ScaleMixture(new BivariateNormal(1, 2, 9, 9, 0), 0.25, 2);
        Close.Relative((0.75 / 9 + 0.25 / 36) / (2 * Math.PI), Math.Exp(model.LogDensity(new(1, 2))!.Value), 1e-13);
        Close.Relative((0.75 / 9 * Math.Exp(-0.5) + 0.25 / 36 * Math.Exp(-0.125)) / (2 * Math.PI),
            Math.Exp(model.LogDensity(new(4, 2))!.Value), 1e-13);
    }

    /// <summary>
    /// Odds by hand: the share's, times the ratio of the densities of each miss of the mission, here (exp(−q/8)/4) / exp(−q/2).
    /// </summary>
    [Fact]
    public void A_mission_of_far_misses_was_probably_a_bad_day()
    {
        var model = new ScaleMixture(new BivariateNormal(0, 0, 9, 9, 0), 0.2, 2);
        Close.Absolute(0.2, model.WideProbability([]), 1e-15);
        var odds = 0.25 * Math.Pow(Math.Exp(9 * 0.375) / 4, 2); // two misses of nine metres: q = 9
        Close.Relative(odds / (1 + odds), model.WideProbability([new(9, 0), new(0, -9)]), 1e-12);
        Assert.InRange(model.WideProbability([.. Enumerable.Repeat(new PlaneVector(2, 1), 8)]), 0, 1e-3);
        Assert.Equal(1, model.WideProbability([new(1e6, 0)]));
    }

    /// <summary>
    /// From far-off starts of another search none of 12 samples of 60 landings has a higher summit that is accepted
    /// than the six starts reach.
    /// </summary>
    [Fact]
    public void No_start_of_a_wider_search_leads_higher()
    {
        for (var seed = 0; seed < 12; seed++)
        {
            var sample = Drawn(new ScaleMixture(_core, 0.25, 2.5), 60, seed);
            if (ScaleMixture.FitTo(sample).Value is not { } fit) continue;
            foreach (var share in (double[])[0.03, 0.4, 0.8])
            {
                foreach (var widening in (double[])[1.5, 4, 10])
                {
                    var top = Climbed(sample, share, widening);
                    if (top is { } other) Assert.True(other.LogLikelihood <= fit.LogLikelihood!.Value + 1e-9,
                        $"seed {seed}: {other} above {fit.LogLikelihood}");
                }
            }
        }
    }

    /// <summary>
    /// The algorithm of expectation and maximisation, written out for this model: slow, never downhill, and free of derivatives.
    /// </summary>
    private static (double LogLikelihood, double Share, double Widening)? Climbed(PlaneSample sample, double share, double widening)
    {
        var (core, n) = (BivariateNormal.FitTo(sample.Placed).Value!, sample.Placed.Count);
        var last = double.NegativeInfinity;
        for (var step = 0; step < 400; step++)
        {
            var model = new ScaleMixture(core, share, widening);
            var sum = sample.Placed.Sum(m => model.LogDensity(m)!.Value);
            if (sum - last < 1e-8) return n * (1 - share) < 4 ? null : (sum, share, widening);
            last = sum;
            var wide = sample.Placed.Select(m => model.WideProbability([m])).ToArray();
            share = wide.Average();
            var weights = wide.Select(p => 1 - p + p / (widening * widening)).ToArray();
            var (m1, m2) = (Mean(m => m.Along), Mean(m => m.Across));
            var (v1, v2, c) = (Spread(m => (m.Along - m1) * (m.Along - m1)), Spread(m => (m.Across - m2) * (m.Across - m2)),
                Spread(m => (m.Along - m1) * (m.Across - m2)));
            if (!(v1 * v2 - c * c > 1e-6) || share is < 1e-9 or > 1 - 1e-9) return null;
            core = new BivariateNormal(m1, m2, v1, v2, c);
            widening = Math.Sqrt(sample.Placed.Zip(wide, (m, p) => p * core.SquaredDistance(m)).Sum() / (2 * wide.Sum()));
            if (!(widening > 1)) return null;

            double Mean(Func<PlaneVector, double> of) => sample.Placed.Zip(weights, (m, w) => w * of(m)).Sum() / weights.Sum();
            double Spread(Func<PlaneVector, double> of) => sample.Placed.Zip(weights, (m, w) => w * of(m)).Sum() / n;
        }
        return null; // on a ridge, or slow
    }

    [Fact]
    public void One_spread_is_not_taken_for_two()
    {
        // Evenly filled ellipse: lighter in the tail than a normal.
        var even = PlaneSample.Of(Enumerable.Range(0, 200).Select(i => new PlaneVector(10 * Math.Sqrt((i + 0.5) / 200) * Math.Cos(2.4 * i),
            30 * Math.Sqrt((i + 0.5) / 200) * Math.Sin(2.4 * i))));
        Assert.Equal("no second, wider spread can be told from the first: the likelihood is highest where there is but one",
            ScaleMixture.FitTo(even).Reason);
    }

    [Fact]
    public void A_wide_part_of_one_landing_is_called_a_guess()
    {
        var sample = PlaneSample.Of([.. Drawn(_core, 80, 3).Placed, new(120, -90)]);
        var fit = ScaleMixture.FitTo(sample).Value!;
        Assert.InRange(fit.Model.WideShare * 81, 0.5, 2);
        Assert.StartsWith("the wide kind is a guess: ", Assert.Single(fit.Warnings), StringComparison.Ordinal);
    }

    [Fact]
    public void Impossible_arguments_are_named()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScaleMixture(_core, 0, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScaleMixture(_core, 0.2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScaleMixture(_core, 0.2, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScaleMixture(new BivariateNormal(0, 0, 1, 0, 0), 0.2, 2));
        Assert.Equal("11 points with a known place; a mixture of two spreads "
            + "needs 12", ScaleMixture.FitTo(PlaneSample.Of(Drawn(_core, 11, 1).Placed)).Reason);
    }
}
