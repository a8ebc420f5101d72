namespace JumpAnalytics.Tests;

/// <summary>Secondary figures of the spotters' room against values from outside, and sentences against counts by hand.</summary>
public sealed class SpotterNumbersTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200, Units = ReportUnits.Of("m", "mps") };

    /// <summary>
    /// R 4.2.2: lm on the landings, on those without each mission, and on one unit of error for each mission in turn; pt and qt with
    /// fractional degrees of freedom.
    /// </summary>
    [Fact]
    public void A_slope_has_the_freedom_of_the_missions_that_carry_it()
    {
        IReadOnlyList<(double, double)>[] missions = [[(100, 3), (100, 7)], [(150, 9)], [(200, 6), (220, 12)],
            [(260, 15), (260, 11), (260, 13)], [(300, 20)], [(700, 30), (700, 41)]];
        var slope = DriftSlope.Of(missions, 0.95).Value!;
        Close.Relative(0.051162313968267, slope.Share.Value, 1e-10);
        Close.Relative(1.0377910683098, slope.Freedom, 1e-9);
        Close.Relative(0.085862452235291, slope.PValue, 1e-7);
        Close.Relative(-0.035389259168109, slope.Share.Range!.Value.Low, 1e-7);
        Close.Relative(0.13771388710464, slope.Share.Range.Value.High, 1e-7);
        Assert.Equal((100, 700, 6, 11), (slope.ShortestDrift, slope.LongestDrift, slope.Missions, slope.Landings));
    }

    /// <summary>R 4.2.2, integrate and plogis; the rule of 400 equal shares is off by less than 0.002.</summary>
    [Theory]
    [InlineData(0.84, 0.3, 0.04102943358048)]
    [InlineData(0.84, 1, 0.14583157069067)]
    [InlineData(0.6, 3, 0.36578099960711)]
    public void The_spread_of_rates_is_that_of_normal_log_odds(double rate, double sd, double expected)
    {
        Close.Absolute(expected, FairComparison.RateSd(rate, sd), 0.002);
        Assert.InRange(FairComparison.RateSd(rate, 1000 * sd), 0.3, 0.5);
        Close.Absolute(0, FairComparison.RateSd(rate, 0), 1e-12);
    }

    /// <summary>R 4.2.2 (plogis, qt): the least m whose half width is no more than asked for.</summary>
    [Fact]
    public void Missions_needed_for_a_difference_are_counted_by_R()
    {
        FairComparisonDifference Of(double levelVariance) => new([1, 1.5, 2], [20, 12, 8], 30, 1.4, levelVariance, 29);
        Assert.Equal(30, Of(0.02).MissionsFor(0.1, 10, 0.95));
        Assert.Equal(75, Of(0.02).MissionsFor(0.06, 10, 0.9));
        Assert.Null(Of(0.2).MissionsFor(0.02, 10, 0.95));
    }

    /// <summary>
    /// The pulls as documented: log-odds with standard deviations 2 (bands and terrains), 0.5 (cells) and 3 (log of the radius), none on
    /// the level.
    /// </summary>
    [Fact]
    public void Pulls_are_those_documented()
    {
        List<Landing> landings = [];
        foreach (var (wind, band) in new[] { (1.0, "a"), (3.5, "b") })
        {
            foreach (var terrain in new[] { "meadow", "ridge" })
            {
                foreach (var radius in new[] { 20.0, 30 })
                    landings.Add(Made.Landing(Made.Drop(band + terrain + radius, band + terrain + radius, terrain: terrain, windSpeed: wind,
                        targetRadius: radius) with { Spotter = "S" }, 5, 0));
            }
        }
        var bands = new AccuracyOptions().Bands;
        Assert.Equal((double[])[0, 0.25, 0.25, 0.25, 0.25, 4, 4, 4, 4, 1 / 9.0], FairComparisonCounts.Of(landings, bands, true).Pulls);
        Assert.Equal((double[])[0, 0.25, 0.25, 0.25, 0.25, 4, 4, 4, 4], FairComparisonCounts.Of(landings, bands, false).Pulls);
        var alike = landings.Where(l => l.Drop.TargetRadius == 20 && l.Drop.Terrain == "ridge").ToList();
        Assert.Equal((double[])[0, 0.25, 0.25], FairComparisonCounts.Of(alike, bands, true).Pulls);
        var radii = FairComparisonCounts.Of(landings, bands, true).Rows.Select(r => r.Conditions[^1].Value).Distinct().Order().ToList();
        Close.Relative(Math.Log(1.5) / 2, radii[^1], 1e-12);
        Close.Relative(-Math.Log(1.5) / 2, radii[0], 1e-12);
    }

    /// <summary>
    /// A base whose counts are known: 20 missions of 4 landings each, 32, 60 and 72 hits of 80. The reading says what a count of its own
    /// table says, and "beyond chance" is the p after all looks.
    /// </summary>
    [Fact]
    public void The_comparisons_words_are_its_numbers()
    {
        List<Landing> landings = [];
        foreach (var (spotter, hits) in new[] { ("a", 8), ("b", 15), ("c", 18) })
        {
            for (var m = 0; m < 20; m++)
            {
                var drop = Made.Drop($"{spotter}{m}", $"{spotter}{m}") with { Spotter = spotter };
                for (var j = 0; j < 4; j++) landings.Add(Made.Landing(drop, (m + 5 * j) % 20 < hits ? 5 : 200, 0));
            }
        }
        var made = FairComparison.Of(landings, _options);
        Assert.Equal((int[])[32, 60, 72], made.Spotters.Select(s => s.Hits));
        Assert.StartsWith("3 spotters with 10 missions or more, 60 missions and 240 landings in all", made.Reading);
        var off = made.Spotters.Count(s => !s.Difference.Value!.Range!.Value.Contains(0));
        Assert.Contains($"{off} of 3 intervals at 95 % leave out zero; if no spotter differed, about 0.2 would by chance.", made.Reading);
        Assert.Equal(made.Spotters.Where(s => s.PAdjusted <= 0.05), made.Off);
        Assert.Contains("a", made.Off.Select(s => s.Spotter));
        foreach (var s in made.Off)
            Assert.Contains($"{s.Spotter} {Rounding.Points(s.Difference.Value!)} points, 20 missions and 80 landings", made.Sentence);
        Assert.Contains($"the other {3 - made.Off.Count} of 3 spotters do not", made.Sentence);
        Assert.Contains("after 3 looks (Holm, 5 % level)", made.Sentence);
        Assert.DoesNotContain("100 %", made.Reading);
        Assert.DoesNotContain("can't put them", made.Reading + made.Sentence);
        var sd = made.Spread.Value!.SdPoints;
        Assert.True(sd.Range!.Value.High <= 0.5 && sd.Range.Value.Low <= sd.Value && sd.Value <= sd.Range.Value.High);

        // With other looks beside it: what was a finding among three need not be one among many.
        var others = Enumerable.Range(0, 1_000_000).Select(i => new Look($"{i}", "x", 1));
        var many = made.HeldTogether(new Looks([.. made.LooksTaken, .. others]));
        Assert.Equal(made.Spotters.Select(s => (double?)Math.Min(1, s.P!.Value * 1_000_003)).Min(), many.Spotters.Min(s => s.PAdjusted));
        Assert.Contains("After 1,000,003 looks", many.Reading);
    }

    /// <summary>One mission 300 m long: it is named without its spotter, who is not the cause by that.</summary>
    [Fact]
    public void A_mission_that_drives_a_figure_is_named_without_a_spotter()
    {
        var landings = Enumerable.Range(0, 30).SelectMany(m =>
        {
            var drop = Made.Drop($"m{m}", $"m{m}") with { Spotter = "S77" };
            return Enumerable.Range(0, 3).Select(j =>
                Made.Landing(drop, 5 * Math.Sin(7 * m + j), 5 * Math.Cos(5 * m + 2 * j) + (m == 4 ? 300 : 0)));
        }).ToList();
        var reading = SpotterInfluence.Of(landings, _options).Reading;
        Assert.Contains("mission m4 of 2031-07-14 (mean miss downwind)", reading);
        Assert.DoesNotContain("S77", reading);
    }

    /// <summary>
    /// Spread of misses by hand: standard deviations with n − 1; quantiles of distances of type 8 (Hyndman and Fan 1996), which for 40
    /// landings lie at 20.5 and 36.633 in order.
    /// </summary>
    [Fact]
    public void Scatter_is_counted_by_hand()
    {
        var missions = Enumerable.Range(0, 10).Select(m => (IReadOnlyList<Landing>)[.. Enumerable.Range(0, 4).Select(j =>
            Made.Landing(Made.Drop($"d{m}", $"m{m}"), 3 * Math.Sin(5 * m + j), 7 * Math.Cos(3 * m + 2 * j)))]).ToList();
        var spread = MissSpread.Of(missions, new AccuracyOptions { Replicates = 200 }, "a test");
        var all = missions.SelectMany(m => m).ToList();
        Close.Relative(Sd([.. all.Select(l => l.MissDownwind!.Value.Along)]), spread.SdDownwind.Value!.Value, 1e-9);
        Close.Relative(Sd([.. all.Select(l => l.MissDownwind!.Value.Across)]), spread.SdRight.Value!.Value, 1e-9);
        double[] sorted = [.. all.Select(l => l.MissDistance!.Value).Order()];
        Close.Relative((sorted[19] + sorted[20]) / 2, spread.Median.Value!.Value, 1e-9);
        var h = (40 + 1 / 3.0) * 0.9 + 1 / 3.0 - 36;
        Close.Relative(sorted[35] + h * (sorted[36] - sorted[35]), spread.R90.Value!.Value, 1e-9);

        static double Sd(double[] x) => Math.Sqrt(x.Sum(v => (v - x.Average()) * (v - x.Average())) / (x.Length - 1));
    }
}
