namespace JumpAnalytics.Tests;

public sealed class SeasonDriftTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new();

    private static List<Landing> Seasons(params int[][] hits) => [.. from s in Enumerable.Range(0, hits.Length)
        from m in Enumerable.Range(0, hits[s].Length) from j in Enumerable.Range(0, 4)
        select Made.Landing(Made.Drop($"{s}-{m}", $"{s}-{m}", $"{2030 + s}"), j < hits[s][m] ? 10 : 50, 0)];

    private static SeasonDrift Drawn(double[] rates, int missions, Random random)
    {
        var landings = new List<Landing>();
        for (var s = 0; s < rates.Length; s++)
        {
            var (hits, sizes) = new SeasonSimulation([2, 3, 4, 5, 6, 7, 8], rates[s], 0.15).Draw(missions, random);
            for (var m = 0; m < missions; m++)
            {
                var drop = Made.Drop($"{s}-{m}", $"{s}-{m}", $"{2030 + s}");
                for (var j = 0; j < sizes[m]; j++) landings.Add(Made.Landing(drop, j < hits[m] ? 10 : 50, 0));
            }
        }
        return SeasonTrend.Of(landings, _options).Drift.Value!;
    }

    /// <summary>
    /// Three seasons of four missions of four: 4 4 3 3, 3 3 2 2 and 2 2 1 3 hits. By hand: rates 14, 10 and 8 of 16, 32 of 48 in all.
    /// Missions about their season: 4/3 (1 + 1 + 2) = 16/3 over 16 (7/64 + 15/64 + 16/64) = 9.5, so that the design effect is 1. Slope
    /// (8 − 14)/32 = −3/16; its error √(2/9 / 32) = 1/12; t −2.25 on 9 degrees, p 0.0510033 (pt of R 4.2.2). Spread: rma of metafor has the
    /// same method; variances 2/144 each, REML Σ(p − mean)²/2 − 2/144 = 0.022569.
    /// </summary>
    [Fact]
    public void Slope_and_spread_are_those_of_the_hand()
    {
        var drift = SeasonTrend.Of(Seasons([4, 4, 3, 3], [3, 3, 2, 2], [2, 2, 1, 3]), _options).Drift.Value!;
        Close.Absolute(-3 / 16.0, drift.Slope.Value, 1e-12, "slope");
        Close.Absolute(0.0510033, drift.TrendP, 1e-7, "p");
        Close.Absolute(2.262157 / 12, drift.Slope.Range!.Value.High + 3 / 16.0, 1e-6, "half width");
        Close.Absolute(Math.Sqrt(SpreadOf(14 / 16.0, 10 / 16.0, 8 / 16.0) - 2 / 144.0), drift.Spread.Value, 1e-6, "spread");
        Assert.Equal((3, 12, 48, "2030", "2032"), (drift.Seasons, drift.Missions, drift.Landings, drift.First, drift.Last));
        Assert.False(drift.IsDrifting);
        Assert.Contains("12 missions, 48 landings", drift.Sentence);

        static double SpreadOf(params double[] rates) => rates.Sum(r => (r - rates.Average()) * (r - rates.Average())) / (rates.Length - 1);
    }

    [Fact]
    public void Two_seasons_have_no_drift() => Assert.Equal("2 seasons; a drift is judged from 3 on",
        SeasonTrend.Of(Seasons([4, 3], [2, 3]), _options).Drift.Reason);

    [Fact]
    public void Hits_alone_have_no_drift() => Assert.Equal("landings are all hits or all misses",
        SeasonTrend.Of(Seasons([4, 4], [4, 4], [4, 4]), _options).Drift.Reason);

    /// <summary>
    /// Four seasons of 110 missions at 83, 76, 69 and 63 %: 40 of 40 with a warning that tells of a fall. At a power of 98 % fewer than 36
    /// come up with a chance below 1e-3.
    /// </summary>
    [Fact]
    public void A_slow_decline_is_found_and_stands_beside_the_rate_of_all()
    {
        var random = new Random(7);
        var found = Enumerable.Range(0, 40).Count(_ => Drawn([0.83, 0.76, 0.69, 0.63], 110, random).Warning
            ?.StartsWith("The landing rate falls over the seasons from 2030 to 2033, by −", StringComparison.Ordinal) == true);
        output.WriteLine($"a fall found in {found} of 40");
        Assert.InRange(found, 36, 40);
    }

    /// <summary>
    /// Steady seasons: 1,000 each of 3 and 4 seasons of 30 and 110 missions. The trend is below 0.05 in 7 % at most, and a warning comes in
    /// no more (5 % true: more than 70 of 1,000 with a chance of 2e-3).
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Steady_seasons_seldom_drift_and_the_next_one_lies_where_it_may()
    {
        var random = new Random(8);
        foreach (var (seasons, missions, sd) in new[] { (3, 30, 0.0), (4, 30, 0), (3, 110, 0), (4, 110, 0), (8, 60, 0), (4, 110, 0.05),
            (8, 60, 0.05) })
        {
            var (trend, warned, next) = (0, 0, 0);
            for (var i = 0; i < 1000; i++)
            {
                double[] rates = [.. Enumerable.Range(0, seasons + 1).Select(_ =>
                    Math.Clamp(0.8 + sd * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1), 0.02, 0.98))];
                var drift = Drawn(rates[..seasons], missions, random);
                if (drift.TrendP < 0.05) trend++;
                if (drift.IsDrifting) warned++;
                var (hits, sizes) = new SeasonSimulation([2, 3, 4, 5, 6, 7, 8], rates[seasons], 0.15).Draw(missions, random);
                if (drift.Next.Range!.Value.Contains((double)hits.Sum() / sizes.Sum())) next++;
            }
            output.WriteLine($"{seasons} seasons of {missions}, spread {sd}: trend {trend}, warned {warned}, next held {next} of 1000");
            if (sd == 0) Assert.InRange(trend, 20, 70);
            if (sd == 0) Assert.InRange(warned, 10, 70);
            Assert.InRange(next, 900, 1000);
        }
    }
}
