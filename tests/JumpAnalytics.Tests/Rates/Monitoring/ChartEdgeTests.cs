namespace JumpAnalytics.Tests.Monitoring;

/// <summary>Charts at the ends of their settings, and what they say of what they found.</summary>
public sealed class ChartEdgeTests
{
    private static readonly AccuracyOptions _options = new();

    /// <summary>Every setting gives charts, or a reason; nothing throws, and each chance is one.</summary>
    [Theory]
    [InlineData(0.02, 0.1, 1.1, 10)]
    [InlineData(1, 3, 20, 10)]
    [InlineData(0.02, 3, 20, 100_000)]
    [InlineData(1, 0.1, 20, 100_000)]
    [InlineData(0.1, 0.5, 2, 2000)]
    [InlineData(0.1, 3, 2, 372)]
    public void Every_setting_gives_charts_or_a_reason(double weight, double k, double odds, double run)
    {
        var made = new MadeMissions(SeedStream.For(2, "ends"));
        var settings = new ChartOptions { Weight = weight, ReferenceValue = k, OddsRatio = odds, InControlRunLength = run };
        var charts = MissCharts.Of(made.Missions(12), made.Missions(40), _options, settings);
        Assert.All(charts.Made, c =>
        {
            Assert.InRange(c.InControlRunLength, 0.999 * run, RunLengthLaw.Longest);
            Assert.InRange(c.ChanceOfFalseSignal, 0, 1);
            Assert.InRange(c.PValue, 0, 1);
            Assert.Equal(c.Signals.Count > 0, c.PValue <= c.ChanceOfFalseSignal);
        });
        Assert.Equal(k == 3 && run < 370, charts.Chart(ChartKind.DistanceSums).Reason?.Contains("smaller reference value") ?? false);
        Assert.NotEqual("", charts.ToString());
    }

    [Fact]
    public void Settings_out_of_range_are_refused_and_the_ends_are_not()
    {
        foreach (var wrong in new Func<ChartOptions>[]
        {
            () => new() { InControlRunLength = 9.9 }, () => new() { InControlRunLength = 100_001 }, () => new() { Weight = 0.019 },
            () => new() { Weight = 1.01 }, () => new() { ReferenceValue = 0.09 }, () => new() { ReferenceValue = 3.01 },
            () => new() { OddsRatio = 1.09 }, () => new() { OddsRatio = 20.1 }, () => new() { OwnMissions = 9 },
            () => new() { FewestReferenceMissions = 9 }, () => new() { ChangeoverMissions = 1 },
        }) Assert.Throws<ArgumentOutOfRangeException>(wrong);
        var least = new ChartOptions { InControlRunLength = 10, Weight = 0.02, ReferenceValue = 0.1, OddsRatio = 1.1, OwnMissions = 10,
            FewestReferenceMissions = 10, ChangeoverMissions = 2 };
        Assert.Equal((10, 0.02, 0.1, 1.1, 10, 10, 2), (least.InControlRunLength, least.Weight, least.ReferenceValue, least.OddsRatio,
            least.OwnMissions, least.FewestReferenceMissions, least.ChangeoverMissions));
        var usual = new ChartOptions();
        Assert.Equal((370, 0.1, 0.5, 2, 20, 20, 6), (usual.InControlRunLength, usual.Weight, usual.ReferenceValue, usual.OddsRatio,
            usual.OwnMissions, usual.FewestReferenceMissions, usual.ChangeoverMissions));
    }

    /// <summary>So many missions of a reference are enough, and one fewer is not.</summary>
    [Fact]
    public void The_fewest_missions_are_enough()
    {
        var made = new MadeMissions(SeedStream.For(3, "fewest"));
        var (missions, reference) = (made.Missions(5), made.Missions(20));
        Assert.Equal(4, MissCharts.Of(missions, reference, _options).Made.Count);
        var short1 = reference.Where(l => l.Drop.Mission != reference[0].Drop.Mission).ToList();
        Assert.All(MissCharts.Of(missions, short1, _options).All, c => Assert.Contains("19 missions", c.Reason!, StringComparison.Ordinal));
        var four = missions.Where(l => l.Drop.Mission != missions[0].Drop.Mission).ToList();
        Assert.Equal("4 missions with a hit or a miss, and the run length of a chart of hits needs the mix of at least 5",
            MissCharts.Of(four, reference, _options).Chart(ChartKind.HitSums).Reason);
    }

    /// <summary>
    /// What a signal says, counted again: mean over the missions of their mean misses, in yards, with t on missions − 1; hits by hand.
    /// </summary>
    [Fact]
    public void A_signal_says_what_its_missions_hold()
    {
        var made = new MadeMissions(SeedStream.For(5, "said"));
        var reference = made.Missions(300);
        var missions = made.Missions(20, along: 30, across: -30);
        var charts = MissCharts.Of(missions, reference, _options);
        var signal = charts.Chart(ChartKind.MeanMissAverage).Value!.Signals[0];
        var since = Since(missions, signal);
        double[] along = [.. since.Select(m => m.Average(l => l.MissDownwind!.Value.Along) / 0.9144)];
        var mean = along.Average();
        var half = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, along.Length - 1, 0.975)
            * Math.Sqrt(along.Sum(a => (a - mean) * (a - mean)) / (along.Length - 1) / along.Length);
        var down = Rounding.Number(Estimate.Of(mean, new Interval(mean - half, mean + half)), signed: true);
        Assert.StartsWith($"mean miss of the missions {down} yd downwind and −", signal.Size, StringComparison.Ordinal);
        Assert.Equal("long and left", signal.Direction);

        var hits = MissCharts.Of(made.Missions(30, factor: 2.5), reference, _options).Chart(ChartKind.HitSums).Value!.Signals[0];
        Assert.Matches("^[0-9]+ hits of [0-9]+ landings, a rate of ", hits.Size);
        Assert.EndsWith(" %)", hits.Size, StringComparison.Ordinal);

        static List<List<Landing>> Since(IReadOnlyList<Landing> landings, ChartSignal signal)
        {
            var all = landings.GroupBy(l => l.Drop.Mission).Select(g => g.ToList()).ToList();
            return all.GetRange(signal.At.Number - signal.MissionsSinceStart, signal.MissionsSinceStart);
        }
    }

    /// <summary>Mean of 1, 2 and 6 with t on 2 degrees (qt(0.975, 2) = 4.30265272974946, R 4.2.2); a single mission has no range.</summary>
    [Fact]
    public void A_mean_of_missions_has_their_interval()
    {
        var mean = DistanceCharts.MeanOf([1, 2, 6], 0.95);
        Close.Relative(3, mean.Value, 1e-12);
        Close.Relative(3 + 4.30265272974946 * Math.Sqrt(7 / 3.0), mean.Range!.Value.High, 1e-9);
        Close.Relative(3 - 4.30265272974946 * Math.Sqrt(7 / 3.0), mean.Range!.Value.Low, 1e-9);
        Assert.Equal("a single mission", DistanceCharts.MeanOf([4], 0.95).WhyNoRange);
        Assert.NotNull(DistanceCharts.MeanOf([4, 5], 0.95).Range);
    }

    /// <summary>
    /// AICc by its definition (Hurvich and Tsai 1989, Biometrika 76:297-307): −2 ln L + 2k + 2k(k + 1)/(M − k − 1), M missions, k of 3 and
    /// 4 parameters; the logarithms of likelihood from the model of two levels.
    /// </summary>
    [Fact]
    public void Akaikes_criterion_counts_missions_and_parameters()
    {
        var random = SeedStream.For(7, "criterion");
        var readings = Enumerable.Range(1, 12).SelectMany(i =>
        {
            var (shared, _) = StandardNormal.Pair(random);
            return Enumerable.Range(0, 3)
                .Select(_ => (i, $"m{i}", 0.4 * shared + 0.5 * StandardNormal.Pair(random).First - 0.1 * Math.Log(i)));
        }).ToList();
        var fits = new LearningFitting(readings, 0.95).All().Value!;
        Assert.Equal(3, fits.Count);
        foreach (var (k, along) in new (int, Func<int, double>?)[] { (3, null), (4, i => Math.Log(i)) })
        {
            var model = TwoLevelAxisModel.FitTo([.. readings.Select(r => new AxisReading(r.Item2, r.Item3, null, along?.Invoke(r.i)))],
                LikelihoodKind.Full, 0.95, TradeNouns.Value).Value!;
            Close.Relative(-2 * model.LogLikelihood + 2 * k + 2.0 * k * (k + 1) / (12 - k - 1), fits[k - 3].Aicc, 1e-12);
        }
    }

    /// <summary>The p of a curve is below a level just when the interval at that level leaves out no change.</summary>
    [Fact]
    public void P_of_a_curve_agrees_with_its_interval()
    {
        var made = new MadeMissions(SeedStream.For(9, "p of a curve"));
        var reference = made.Missions(80);
        var missions = Enumerable.Range(1, 20).SelectMany(i => made.Mission(factor: 1.5 * Math.Pow(i, -0.1))).ToList();
        var p = LearningCurve.Of(missions, reference, _options).PValue!.Value;
        foreach (var (confidence, contains) in new[] { (1 - 1.05 * p, false), (1 - 0.95 * p, true) })
        {
            var curve = LearningCurve.Of(missions, reference, _options with { Confidence = confidence });
            Assert.Equal(contains, curve.Fits.Value![(int)LearningShape.PowerLaw].Factor.Range!.Value.Contains(1));
            Close.Relative(p, curve.PValue!.Value, 1e-6);
        }
    }

    /// <summary>p.adjust of R 4.2.2, "holm", of 0.01, 0.04, 0.03 and 0.005: 0.03, 0.06, 0.06, 0.02.</summary>
    [Fact]
    public void A_finding_is_one_among_all_looks()
    {
        var looks = new Looks([new("a", "x", 0.01), new("a", "y", 0.04), new("b", "x", 0.03), new("b", "y", 0.005)]);
        Assert.Equal(4, looks.Count);
        Close.Relative(0.03, looks.Of("a", "x")!.Value, 1e-12);
        Close.Relative(0.06, looks.Of("a", "y")!.Value, 1e-12);
        Assert.Null(looks.Of("c", "x"));
        Assert.True(looks.Found("a", "x", 0.95) && looks.Found("b", "y", 0.98));
        Assert.False(looks.Found("a", "y", 0.95) || looks.Found("c", "x", 0.5));
    }
}
