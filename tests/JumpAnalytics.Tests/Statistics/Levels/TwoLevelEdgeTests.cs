namespace JumpAnalytics.Tests;

/// <summary>Estimates on the edge of what they can be, and landings that no model can be fitted to.</summary>
public sealed class TwoLevelEdgeTests
{
    private static readonly LikelihoodKind[] _kinds = [LikelihoodKind.Restricted, LikelihoodKind.Full];

    /// <summary>
    /// Missions whose means agree better than their landings do, as the eight schools of Rubin (1981) do: exactly
    /// nothing lies between them.
    /// </summary>
    [Fact]
    public void Missions_that_differ_less_than_their_landings_have_no_covariance()
    {
        var misses = MadeMisses.Draw(2, Enumerable.Repeat(4, 12), new MadeMisses(new(5, 1), new(0, 0, 0), new(200, 100, 30)));
        // Each mission drawn towards the whole: the mean square between is far below the one within.
        var near = misses.GroupBy(r => r.Cluster).SelectMany(g => g.Select(r => r with
        {
            Place = new(r.Place!.Value.Along - 0.9 * g.Average(x => x.Place!.Value.Along),
                r.Place.Value.Across - 0.9 * g.Average(x => x.Place!.Value.Across)),
        })).ToList();
        foreach (var kind in _kinds)
        {
            var model = TwoLevelModelTests.Model(PlaneSample.Of(near), kind);
            Assert.Equal(0, model.Between.Rank);
            Assert.Equal(new PlaneCovariance(0, 0, 0), model.Between.Value);
            Assert.Null(model.Between.StandardErrors);
            Assert.Contains("edge", model.Between.WhyNoErrors, StringComparison.Ordinal);
            Assert.NotNull(model.Within.StandardErrors);
            Assert.Contains(model.Warnings, w => w.Contains("clusters differ no more than their points do", StringComparison.Ordinal));
            Assert.Equal(0, model.Forecast.Overall.Share.Value);
            Assert.Null(model.Forecast.Overall.StandardError);
            Assert.Equal(0, model.Forecast.Overall.Share.Range!.Value.Low);
            Assert.InRange(model.Forecast.Overall.Share.Range.Value.High, 0.05, 0.5);
            Assert.All(model.ClusterEffects, e => Assert.Equal(default, e.Effect));

            // What is left is one normal: covariance with divisor N − 1, or N.
            var plain = BivariateNormal.FitTo([.. near.Select(r => r.Place!.Value)]).Value!;
            var part = kind == LikelihoodKind.Restricted ? 1 : 47.0 / 48;
            TwoLevelModelTests.Same(new(part * plain.VarianceAlong, part * plain.VarianceAcross, part * plain.Covariance),
                model.Within.Value, 1e-10);
            // Standard error of a variance from n − 1 degrees of freedom.
            Close.Relative(model.Within.Value.VarianceAlong * Math.Sqrt(2 / (kind == LikelihoodKind.Restricted ? 47.0 : 48)),
                model.Within.StandardErrors.VarianceAlong, 1e-6);
        }
    }

    /// <summary>In how many directions missions differ is no matter of the unit, nor of how many missions there are.</summary>
    [Theory]
    [InlineData(1e-5, 12)]
    [InlineData(1e5, 12)]
    [InlineData(1e-5, 150)]
    [InlineData(1e5, 150)]
    public void Ranks_do_not_change_with_the_unit(double scale, int missions)
    {
        foreach (var between in new[] { 0.0, 300 })
        {
            var drawn = MadeMisses.Draw(6, Enumerable.Repeat(4, missions),
                new MadeMisses(new(5, 1), new(between, between, 0), new(200, 100, 30)));
            var model = TwoLevelModelTests.Model(PlaneSample.Of(drawn), LikelihoodKind.Restricted);
            var scaled = TwoLevelModelTests.Model(PlaneSample.Of(drawn.Select(r => r with
            {
                Place = new(scale * r.Place!.Value.Along, scale * r.Place.Value.Across),
            })), LikelihoodKind.Restricted);
            Assert.Equal(model.Between.Rank, scaled.Between.Rank);
            if (between > 0) Assert.Equal(2, model.Between.Rank);
            TwoLevelModelTests.Same(scale * scale * model.Between.Value, scaled.Between.Value, 1e-4);
        }
    }

    /// <summary>A forecast that errs in drift's length only, in whatever direction of the axes: rank one, found as such.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.6)]
    [InlineData(Math.PI / 2)]
    public void Missions_that_differ_along_a_line_have_a_singular_covariance(double angle)
    {
        var (c, s) = (Math.Cos(angle), Math.Sin(angle));
        var along = new PlaneCovariance(900 * c * c, 900 * s * s, 900 * c * s);
        // Across the line, missions are drawn towards the whole, so that the maximum lies on the edge.
        var misses = MadeMisses.Draw(4, Enumerable.Range(0, 30).Select(i => 2 + i % 4), new MadeMisses(new(0, 0), along, new(100, 100, 0)));
        var drawn = misses.GroupBy(r => r.Cluster).SelectMany(g =>
        {
            var across = 0.8 * g.Average(x => -s * x.Place!.Value.Along + c * x.Place!.Value.Across);
            return g.Select(r => r with { Place = new(r.Place!.Value.Along + s * across, r.Place.Value.Across - c * across) });
        }).ToList();
        foreach (var kind in _kinds)
        {
            var model = TwoLevelModelTests.Model(PlaneSample.Of(drawn), kind);
            Assert.Equal(1, model.Between.Rank);
            Assert.Null(model.Between.StandardErrors);
            var b = model.Between.Value;
            Close.Absolute(0, b.VarianceAlong * b.VarianceAcross - b.Covariance * b.Covariance, 1e-12 * b.Trace * b.Trace);
            Assert.InRange(b.Trace, 300, 2000);
            Assert.NotNull(model.Within.StandardErrors);
            Assert.Contains(model.Warnings, w => w.Contains("along one line only", StringComparison.Ordinal));
            Assert.Null(model.Forecast.Overall.StandardError);
            Assert.NotNull(model.Forecast.Overall.Share.Range);
            Assert.True(model.Marginal.ProbabilityWithin(50) is > 0.3 and < 1);

            // Nothing near it is likelier: the likelihood falls when any scatter is added between missions.
            var sums = LevelSums.Of(Data(drawn));
            var likelihood = new LevelLikelihood(sums, kind == LikelihoodKind.Restricted);
            MathNet.Numerics.LinearAlgebra.Matrix<double> Matrix(PlaneCovariance p) =>
                MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(2, 2,
                    [p.VarianceAlong, p.Covariance, p.Covariance, p.VarianceAcross]);
            Close.Relative(model.LogLikelihood, -likelihood.At(Matrix(model.Within.Value), Matrix(b), null)!.Deviance / 2, 1e-12);
            for (var turn = 0.0; turn < 3.1; turn += 0.2)
            {
                var (dc, ds) = (Math.Cos(turn), Math.Sin(turn));
                var more = b + 0.5 * PlaneCovariance.OfMultiples(dc, ds);
                Assert.True(-likelihood.At(Matrix(model.Within.Value), Matrix(more), null)!.Deviance / 2 < model.LogLikelihood);
            }
        }
    }

    [Fact]
    public void Spotters_on_the_edge_are_told()
    {
        var misses = MadeMisses.Draw(6, Enumerable.Repeat(4, 40), MadeMisses.Typical);
        var spotters = misses.Select(r => $"s{int.Parse(r.Cluster[1..], System.Globalization.CultureInfo.InvariantCulture) % 8}").ToArray();
        // Each spotter's landings drawn towards the whole.
        var drawn = misses.Zip(spotters).GroupBy(p => p.Second).SelectMany(g => g.Select(p => (p.First with
        {
            Place = new(p.First.Place!.Value.Along - 0.95 * g.Average(x => x.First.Place!.Value.Along),
                p.First.Place.Value.Across - 0.95 * g.Average(x => x.First.Place!.Value.Across)),
        }, p.Second))).ToList();
        var sample = PlaneSample.Of(drawn.Select(d => d.Item1));
        var model = TwoLevelModelTests.Model(sample, LikelihoodKind.Restricted, [.. drawn.Select(d => d.Second)]);
        Assert.Equal(0, model.BetweenRaters!.Rank);
        Assert.Equal(2, model.Between.Rank);
        Assert.Contains(model.Warnings, w => w.StartsWith("raters differ no more", StringComparison.Ordinal));
        Assert.All(model.RaterEffects, e => Assert.Equal((default, new PlaneCovariance(0, 0, 0)), (e.Effect, e.Errors)));
        Assert.Null(model.RaterShare!.Share.Range);
        Assert.NotNull(model.RaterShare.Share.WhyNoRange);

        // The same as without spotters.
        var without = TwoLevelModelTests.Model(sample);
        TwoLevelModelTests.Same(without.Between.Value, model.Between.Value, 1e-9);
        Close.Relative(without.LogLikelihood, model.LogLikelihood, 1e-12);
    }

    [Fact]
    public void Landings_that_can_not_tell_the_levels_apart_are_refused_with_the_reason()
    {
        PlaneVector[] four = [new(1, 2), new(-3, 5), new(4, 0), new(2, -6)];
        Refused("no point", []);
        Refused("a single cluster", Readings("a", four[..1]));
        Refused("a single cluster", Readings("a", four));
        Refused("a single point", Readings("a b", four[..2]));
        Refused("a single point", Readings("a b c d", four));
        Refused("1 comparison within a cluster; 2 are needed", Readings("a a b", four[..3]));
        Refused("do not differ", Readings("a a b b", [four[0], four[0], four[1], four[1]]));
        Refused("do not differ", Readings("a a b b", [four[0], four[0], four[0], four[0]]));
        Refused("along one line", Readings("a a a b b", [new(1, 2), new(2, 4), new(3, 6), new(-1, -2), new(5, 10)]));
        Refused("along one line", Readings("a a a b b", [new(1, 0), new(2, 0), new(3, 0), new(-1, 7), new(5, 7)]));
        Refused("no point", [new PlaneReading("a", null, 40), new PlaneReading("b", null, 60)]);

        static PlaneReading[] Readings(string missions, PlaneVector[] misses) =>
            [.. missions.Split(' ').Zip(misses, (m, v) => new PlaneReading(m, v))];

        static void Refused(string reason, PlaneReading[] readings)
        {
            foreach (var kind in _kinds)
            {
                var fit = TwoLevelModel.FitTo(PlaneSample.Of(readings), kind);
                Assert.False(fit.Success);
                Assert.Contains(reason, fit.Reason, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Spotters_that_can_not_be_told_from_missions_are_refused_with_the_reason()
    {
        var misses = MadeMisses.Draw(1, [3, 2, 4, 3], MadeMisses.Typical);
        var sample = PlaneSample.Of(misses);
        Refused("a single rater", _ => "x");
        Refused("each rater has a single cluster", i => misses[i].Cluster);
        Refused("each rater has a single point", i => $"{i}");
        var many = MadeMisses.Draw(1, Enumerable.Repeat(2, 400), MadeMisses.Typical);
        Assert.Contains("at most 300", TwoLevelModel.FitTo(PlaneSample.Of(many), raters: [.. many.Select((_, i) => $"{i % 399}")]).Reason,
            StringComparison.Ordinal);
        Assert.True(TwoLevelModel.FitTo(sample, raters: [.. misses.Select(r => r.Cluster is "m0" or "m1" ? "x" : "y")]).Success);
        Assert.Throws<ArgumentException>(() => TwoLevelModel.FitTo(sample, raters: ["x"]));
        Assert.Throws<ArgumentException>(() => TwoLevelModel.FitTo(sample, raters: [.. misses.Select(_ => (string)null!)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TwoLevelModel.FitTo(sample, confidence: 95));

        void Refused(string reason, Func<int, string> spotter)
        {
            var fit = TwoLevelModel.FitTo(sample, raters: [.. misses.Select((_, i) => spotter(i))]);
            Assert.Contains(reason, fit.Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_least_that_can_be_fitted_is_two_missions_and_four_landings()
    {
        var fit = TwoLevelModel.FitTo(PlaneSample.Of(
            (PlaneReading[])[new("a", new(1, 2)), new("a", new(4, -3)), new("a", new(0, 7)), new("b", new(30, 40))]));
        var model = fit.Value!;
        Assert.Equal((2, 4), (model.Clusters, model.Points));
        Assert.Equal(1, model.Between.Rank); // two missions lie on a line
        Assert.Contains("2 clusters say little", model.Warnings[0], StringComparison.Ordinal);
        AllFinite(model);
    }

    [Fact]
    public void Landings_known_only_as_beyond_are_left_out_and_counted()
    {
        var misses = MadeMisses.Draw(9, [2, 3, 4, 5, 2, 3, 1, 4, 2, 6, 3, 3], MadeMisses.Typical);
        var plain = TwoLevelModelTests.Model(PlaneSample.Of(misses));
        var model = TwoLevelModelTests.Model(
            PlaneSample.Of([.. misses.Take(5), new PlaneReading("m1", null, 200), .. misses.Skip(5), new PlaneReading("late", null, 90)]));
        Assert.Equal(plain.Between, model.Between);
        Assert.Equal((plain.Clusters, plain.Points, 2), (model.Clusters, model.Points, model.LeftOut));
        Assert.Equal("2 points known only as beyond a distance are left out: true points scatter more", Assert.Single(model.Warnings));

        // A mission that has no other landing: nothing is known of it.
        Assert.Equal(13, model.ClusterEffects.Count);
        var late = model.ClusterEffects[^1];
        Assert.Equal((0, default(PlaneVector)), (late.Points, late.Effect));
        TwoLevelModelTests.Same(model.Between.Value, late.Errors, 1e-15);
    }

    /// <summary>Small samples of every kind: a model whose numbers are all finite and whose covariances can be, or a reason.</summary>
    [Fact]
    public void Whatever_the_landings_there_is_a_model_of_finite_numbers_or_a_reason()
    {
        var (made, refused) = (0, 0);
        for (var seed = 0; seed < 120; seed++)
        {
            var random = SeedStream.For(seed, "small samples");
            var scatter = random.Next(3) switch { 0 => 0, 1 => 150, _ => 40_000 };
            var truth = new MadeMisses(new(3, 3), new(scatter, random.Next(2) * scatter, 0), new(100, 60, 20));
            var misses = MadeMisses.Draw(seed, Enumerable.Range(0, 2 + random.Next(7)).Select(_ => 1 + random.Next(4)).ToList(), truth);
            if (random.Next(4) == 0) misses = [.. misses.Select(r =>
                r with { Place = new(Math.Round(r.Place!.Value.Along / 20), Math.Round(r.Place.Value.Across / 20)) })];
            var spotters = random.Next(2) == 0 ? null : misses.Select(_ => $"s{random.Next(3)}").ToArray();
            var fit = TwoLevelModel.FitTo(PlaneSample.Of(misses), _kinds[random.Next(2)], spotters);
            if (fit.Success) (made, _) = (made + 1, AllFinite(fit.Value));
            else refused++;
        }
        Assert.InRange(made, 70, 119);
        Assert.Equal(120, made + refused);
    }

    private static bool AllFinite(TwoLevelModel model)
    {
        double[] numbers =
        [
            model.Bias.Along, model.Bias.Across, model.LogLikelihood, .. Numbers(model.BiasErrors),
            .. Numbers(model.Within.Value), .. Numbers(model.Between.Value),
            .. model.ClusterEffects.SelectMany(e => Numbers(e.Errors).Append(e.Effect.Along).Append(e.Effect.Across)),
            .. model.RaterEffects.SelectMany(e => Numbers(e.Errors).Append(e.Effect.Along).Append(e.Effect.Across)),
            .. new[] { model.Between, model.Within, model.BetweenRaters }
                .SelectMany(l => l?.StandardErrors is { } s ? new[] { s.VarianceAlong, s.VarianceAcross, s.Covariance } : []),
            .. new[] { model.Forecast.Along, model.Forecast.Right, model.Forecast.Overall }
                .SelectMany(s => new[] { s.Share.Value, s.StandardError ?? 0, s.Share.Range?.Low ?? 0, s.Share.Range?.High ?? 0 }),
        ];
        Assert.All(numbers, n => Assert.True(double.IsFinite(n)));
        foreach (var level in new[] { model.Between, model.BetweenRaters, model.Within })
        {
            if (level is null) continue;
            var (v1, v2, c) = (level.Value.VarianceAlong, level.Value.VarianceAcross, level.Value.Covariance);
            Assert.True(v1 * v2 - c * c >= -1e-9 * (v1 + v2) * (v1 + v2));
            Assert.Equal(level.Rank == 2, level.StandardErrors is not null);
        }
        foreach (var share in new[] { model.Forecast.Along, model.Forecast.Right, model.Forecast.Overall })
        {
            Assert.InRange(share.Share.Value, 0, 1);
            if (share.Share.Range is { } range) Assert.True(range.Low >= 0 && range.Low <= share.Share.Value + 1e-9
                && range.High >= share.Share.Value - 1e-9 && range.High <= 1);
        }
        return true;

        static double[] Numbers(PlaneCovariance c) => [c.VarianceAlong, c.VarianceAcross, c.Covariance];
    }

    private static LevelData Data(IReadOnlyList<PlaneReading> misses)
    {
        var (names, mission) = LevelData.Numbered(misses.Select(r => r.Cluster));
        return new([[.. misses.Select(r => r.Place!.Value.Along)], [.. misses.Select(r => r.Place!.Value.Across)]], mission, names.Count);
    }
}
