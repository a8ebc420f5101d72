namespace JumpAnalytics.Tests.Monitoring;

/// <summary>The statistics of the charts against printed examples.</summary>
public sealed class ChartRulesTests
{
    private static IReadOnlyList<ChartPoint> Along(ChartRule rule, IEnumerable<(double First, double Second)> values) =>
        ChartWalk.Along([.. values.Select((v, i) => new ChartValue(new MissionInTime($"m{i}",
            new NodaTime.LocalDateTime(2031, 1, 1, 0, 0).PlusDays(i), []), 1, v.First, v.Second, false))], rule).Points;

    private static (string, string) Nothing(IReadOnlyList<ChartValue> changed, bool above) => (above ? "up" : "down", "");

    /// <summary>
    /// NIST/SEMATECH e-Handbook 6.3.2.4: weight 0.3, target 50, sd 2.0539; printed with two decimals, the last value and
    /// the limits computed in full.
    /// </summary>
    [Fact]
    public void Moving_average_of_the_handbook()
    {
        double[] x = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3,
            47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        double[] printed = [50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05,
            49.38, 49.92, 50.73, 51.23, 51.94, 51.99];
        const double sd = 2.0539;
        var rule = ChartRules.Average(0.3, 3, Nothing);
        var points = Along(rule, x.Select(v => ((v - 50) / sd, 0.0)));
        foreach (var (expected, point) in printed.Zip(points)) Close.Absolute(expected, 50 + sd * point.Upper, 0.0051);
        Close.Absolute(51.988243, 50 + sd * points[^1].Upper, 1e-6);
        Close.Absolute(52.58843174, 50 + sd * rule.Upper, 1e-8);
        Close.Absolute(47.41156826, 50 + sd * rule.Lower!.Value, 1e-8);
        Assert.All(points, p => Assert.Null(p.Direction));
    }

    /// <summary>
    /// Lowry and others (1992), ten points of correlation ½, weight 0.1, covariance of the average after many points; computed from
    /// the definition, four decimals.
    /// </summary>
    [Fact]
    public void Moving_average_of_vectors()
    {
        (double, double)[] x = [(-1.19, .59), (.12, .90), (-1.69, .40), (.30, .46), (.89, -.75), (.82, .98), (-.30, 2.28),
            (.63, 1.75), (1.56, 1.58), (1.46, 3.05)];
        double[] expected = [.6248, 1.0926, 3.4524, 2.9952, .7113, .9185, 4.3660, 6.7819, 8.1973, 15.1154];
        // The points in axes without correlation.
        var points = Along(ChartRules.Plane(0.1, 100, Nothing), x.Select(p => (p.Item1, (p.Item2 - 0.5 * p.Item1) / Math.Sqrt(0.75))));
        foreach (var (value, point) in expected.Zip(points)) Close.Absolute(value, point.Upper, 5.1e-5);
    }

    /// <summary>
    /// By hand: k ½, h 2. Sums up 0.7, 1.4, 2.1 (signal), then anew; the change began with the first mission after the last zero.
    /// </summary>
    [Fact]
    public void Sums_signal_and_start_anew()
    {
        var values = new[] { -0.2, 1.2, 1.2, 1.2, 0.9, -3 };
        var rule = ChartRules.Sums(0.5, 2, Nothing);
        var (points, signals) = ChartWalk.Along([.. values.Select((v, i) => new ChartValue(
            new MissionInTime($"m{i}", new NodaTime.LocalDateTime(2031, 1, 1, 0, 0).PlusDays(i), []), 2, v, 0, false))], rule);
        double[] upper = [0, 0.7, 1.4, 2.1, 0.4, 0], lower = [0, 0, 0, 0, 0, -2.5];
        foreach (var (p, i) in points.Select((p, i) => (p, i))) Close.Absolute(upper[i], p.Upper, 1e-12);
        foreach (var (p, i) in points.Select((p, i) => (p, i))) Close.Absolute(lower[i], p.Lower!.Value, 1e-12);
        Assert.Equal(["up", "down"], signals.Select(s => s.Direction));
        Assert.Equal(("m1", 3, 6), (signals[0].ProbableStart, signals[0].MissionsSinceStart, signals[0].LandingsSinceStart));
        Assert.Equal(("m5", 1, 2), (signals[1].ProbableStart, signals[1].MissionsSinceStart, signals[1].LandingsSinceStart));
    }

    /// <summary>By hand: two missions at 0 and three at (2, 0): 3·2² is more than 5·1.2².</summary>
    [Fact]
    public void Likeliest_start_of_a_shift()
    {
        var since = new[] { 0.0, 0, 2, 2, 2 }
            .Select((v, i) => (new ChartValue(new MissionInTime($"m{i}", default, []), 1, v, 0, false), (0.0, 0.0))).ToList();
        Assert.Equal(2, ChartWalk.LikeliestShift(since));
    }

    /// <summary>Two stretches of a chart with a signal in 1 of 10 missions: 1 − 0.9⁵ of all five.</summary>
    [Fact]
    public void Chance_of_a_false_signal_counts_restarts()
    {
        ChartValue[] values = [.. Enumerable.Range(0, 5).Select(i => new ChartValue(new MissionInTime("m", default, []), 1, 0, 0, i == 2))];
        Close.Absolute(1 - Math.Pow(0.9, 5), ChartWalk.ChanceOfSignal(values, RunLengthLaw.Geometric(0.1)), 1e-14);

        // A law with memory: restarts make it less.
        var law = CusumRunLength.TwoSided(0.5, 2);
        Close.Absolute(1 - (1 - law.ProbabilityWithin(2)) * (1 - law.ProbabilityWithin(3)), ChartWalk.ChanceOfSignal(values, law), 1e-14);
        Assert.True(ChartWalk.ChanceOfSignal(values, law) < law.ProbabilityWithin(5));
    }
}
