namespace JumpAnalytics.Tests.Monitoring;

public sealed class MissChartsTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new();

    private static MadeMissions Made(string purpose) => new(SeedStream.For(11, purpose));

    /// <summary>
    /// Missions without change, of sticks of 2 to 8 with a heavy tail, against 2,000 missions of the same kind: 10,000 missions at a run
    /// length of 40 give some 250 signals of each chart. Signals come nearly as a Poisson process, standard deviation of the count 6 %; the
    /// bounds lie 25 % off, more than three of these beside the 5 % that was found for many more missions (see the long test).
    /// </summary>
    [Fact]
    public void Charts_without_change_run_as_long_as_they_say()
    {
        var made = Made("no change");
        var charts = MissCharts.Of(made.Missions(10_000), made.Missions(2000), _options, new ChartOptions { InControlRunLength = 40 });
        Assert.Equal(4, charts.Made.Count);
        Assert.All(charts.Made, c => Assert.InRange((double)c.Missions / c.Signals.Count / c.InControlRunLength, 0.75, 1.25));
    }

    /// <summary>
    /// The same for heavier and lighter tails and more or less that missions share: 10 references, 50,000 missions, some 500 signals of
    /// each chart at a run length of 100, standard deviation 4.5 %; 15 % is asked for.
    /// </summary>
    [Theory]
    [InlineData(0.0, 8)]
    [InlineData(0.08, 8)]
    [InlineData(0.08, 2)]
    [InlineData(0.2, 8)]
    [InlineData(0.08, 16)]
    [Trait("Category", "Long")]
    public void Charts_without_change_run_as_long_as_they_say_under_other_misses(double tail, double shared)
    {
        var (missions, signals) = (new int[4], new double[4]);
        for (var r = 0; r < 10; r++)
        {
            var made = new MadeMissions(SeedStream.For(r, $"{tail} {shared}")) { Tail = tail, Shared = shared };
            var charts = MissCharts.Of(made.Missions(5000), made.Missions(3000), _options, new ChartOptions { InControlRunLength = 100 });
            for (var k = 0; k < 4; k++)
            {
                var chart = charts.All[k].Value!;
                missions[k] += chart.Missions;
                signals[k] += chart.Signals.Count * chart.InControlRunLength / 100;
            }
        }
        var runs = string.Join(", ", missions.Zip(signals, (m, s) => $"{m / s:0.0}"));
        output.WriteLine($"tail {tail}, shared {shared}: run lengths {runs} for 100");
        Assert.All(missions.Zip(signals, (m, s) => m / s), r => Assert.True(r is > 85 and < 115, runs));
    }

    /// <summary>
    /// Forty sound missions, then a shift of 16 m: about one and a half standard deviations of a mission's mean, found by a run
    /// length of about six missions.
    /// </summary>
    [Theory]
    [InlineData(16, 0, "long")]
    [InlineData(-16, 0, "short")]
    [InlineData(0, 16, "right")]
    [InlineData(0, -16, "left")]
    [InlineData(14, -14, "long and left")]
    public void A_planted_shift_is_found_with_its_direction_and_start(double along, double across, string direction)
    {
        var made = Made("planted");
        var reference = made.Missions(400);
        var sound = made.Missions(40);
        var shifted = made.Missions(25, along: along, across: across);
        var chart = MissCharts.Of([.. sound, .. shifted], reference, _options).Chart(ChartKind.MeanMissAverage).Value!;
        var signal = chart.Signals.First(s => s.At.Number > 40);
        Assert.Equal(direction, signal.Direction);
        Assert.InRange(signal.At.Number, 41, 56);
        Assert.InRange(signal.At.Number - signal.MissionsSinceStart + 1, 36, 46);
        Assert.DoesNotContain(chart.Signals, s => s.At.Number <= 40);
    }

    [Fact]
    public void Wider_misses_are_found_by_distance_and_hits()
    {
        var made = Made("wider");
        var charts = MissCharts.Of([.. made.Missions(30), .. made.Missions(30, factor: 2)], made.Missions(400), _options);
        foreach (var kind in new[] { ChartKind.DistanceAverage, ChartKind.DistanceSums })
            Assert.Equal("wider", charts.Chart(kind).Value!.Signals[0].Direction);
        Assert.Equal("fewer hits", charts.Chart(ChartKind.HitSums).Value!.Signals[0].Direction);
        Assert.Contains("times the reference's", charts.Chart(ChartKind.DistanceSums).Value!.Signals[0].Size, StringComparison.Ordinal);
        Assert.Contains("no verdict", charts.Reading, StringComparison.Ordinal);

        var tighter = MissCharts.Of(made.Missions(40, factor: 0.5), made.Missions(400), _options);
        Assert.Equal("tighter", tighter.Chart(ChartKind.DistanceAverage).Value!.Signals[0].Direction);
        Assert.Equal("more hits", tighter.Chart(ChartKind.HitSums).Value!.Signals[0].Direction);
    }

    /// <summary>
    /// Harder winds alone: misses 1.5 times as large in the stronger band, all of them flown there. Winds are allowed for, so that no more
    /// signals come than by chance: 300 missions, four charts, fewer than 1 each on the mean.
    /// </summary>
    [Fact]
    public void Harder_winds_are_no_change()
    {
        var made = Made("winds");
        var strong = made.Missions(800).Where(l => l.Drop.WindSpeed > 5).ToList();
        var charts = MissCharts.Of(strong, made.Missions(800), _options);
        Assert.All(charts.Made, c => Assert.InRange(c.Signals.Count, 0, 4));
    }

    [Fact]
    public void Charts_start_anew_at_another_base_canopy_and_season_and_say_why()
    {
        var made = Made("anew");
        Landing[] missions =
        [
            .. made.Missions(8, canopy: "round", at: "A"), .. made.Missions(8, canopy: "ram-air", at: "A"),
            .. made.Missions(4, canopy: "ram-air", at: "B"), .. made.Missions(3, canopy: "ram-air", at: "B", season: "2032"),
        ];
        var reference = made.Missions(60);
        var charts = MissCharts.Of(missions, reference, _options);
        Assert.Equal(["canopy ram-air after round", "base B after A"], charts.Restarts.Select(r => r.Reason));
        Assert.All(charts.Made, c => Assert.Equal(2, c.Restarts.Count));
        Assert.Equal(3, MissCharts.Of(missions, reference, _options, new ChartOptions { RestartEachSeason = true }).Restarts.Count);

        // Mixed canopies, mission by mission, are charted through.
        var mixed = Enumerable.Range(0, 20).SelectMany(i => made.Mission(canopy: i % 2 == 0 ? "round" : "ram-air")).ToList();
        Assert.Empty(MissCharts.Of(mixed, reference, _options).Restarts);
    }

    [Fact]
    public void Thin_records_say_so()
    {
        var made = Made("thin");
        var (few, many) = (made.Missions(5), made.Missions(60));
        var charts = MissCharts.Of(many, few, _options);
        Assert.Empty(charts.Made);
        Assert.Equal("No chart of these missions can be made: the reference has 5 missions with a landing, and 20 are wanted.",
            charts.Reading);
        Assert.All(MissCharts.Of([], many, _options).All, c => Assert.Equal("no mission to chart", c.Reason));
        Assert.Contains("at least 5", MissCharts.Of(made.Missions(3), many, _options).Chart(ChartKind.HitSums).Reason!,
            StringComparison.Ordinal);

        // A short reference errs more: false signals and far statistics are likelier, and a long one brings them nearer to the limit's.
        var (shortOne, longOne) = (MissCharts.Of(many, made.Missions(30), _options).Chart(ChartKind.DistanceAverage).Value!,
            MissCharts.Of(many, made.Missions(600), _options).Chart(ChartKind.DistanceAverage).Value!);
        var exact = EwmaRunLength.TwoSided(0.1, EwmaRunLength.LimitFor(370, 0.1)).ProbabilityWithin(60);
        Assert.InRange(shortOne.ChanceOfFalseSignal, 1.5 * exact, 4 * exact);
        Assert.InRange(longOne.ChanceOfFalseSignal, 1.01 * exact, 1.15 * exact);

        Assert.Throws<ArgumentOutOfRangeException>(() => new ChartOptions { InControlRunLength = 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChartOptions { Weight = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChartOptions { OddsRatio = 1 });
    }

    [Fact]
    public void Own_first_missions_serve_as_a_reference()
    {
        var made = Made("own");
        var missions = made.Missions(60);
        var charts = MissCharts.Of(missions, [], _options,
            new ChartOptions { Against = ChartReference.OwnFirstMissions, OwnMissions = 30 });
        var chart = charts.Chart(ChartKind.MeanMissAverage).Value!;
        Assert.Equal((30, 30), (chart.ReferenceMissions, chart.Missions));
        Assert.Equal(missions.Select(l => l.Drop.Mission).Distinct().Skip(30), chart.Points.Select(p => p.Mission));
    }

    [Fact]
    public void Landings_beyond_a_distance_count_for_distances_and_hits_but_have_no_vector()
    {
        var made = Made("beyond");
        var missions = made.Missions(20);
        Landing[] beyond = [.. missions.Select((l, i) => i % 4 == 0 ? Tests.Made.Beyond(l.Drop, 200) : l)];
        var charts = MissCharts.Of(beyond, made.Missions(100), _options);
        var (distance, plane) = (charts.Chart(ChartKind.DistanceAverage).Value!, charts.Chart(ChartKind.MeanMissAverage).Value!);
        Assert.Equal(beyond.Length, distance.Landings);
        Assert.Equal(beyond.Count(l => !l.IsCensored), plane.Landings);
        Assert.Contains(distance.Signals, s => s.Direction == "wider");
    }

    [Fact]
    public void The_same_records_give_the_same_charts_in_any_order()
    {
        var made = Made("order");
        var (missions, reference) = (made.Missions(20, spotter: "a"), made.Missions(30, spotter: "b"));
        var one = SpotterCharts.Of([.. missions, .. reference], _options).ToString();
        var other = SpotterCharts.Of([.. missions, .. reference], _options).ToString();
        Assert.Equal(one, other);
        var (first, second) = (MissCharts.Of(missions, reference, _options), MissCharts.Of([.. missions.Reverse()], reference, _options));
        Assert.Equal(first.Made[0].Points.Select(p => p.Mission), second.Made[0].Points.Select(p => p.Mission));
        foreach (var (p, q) in first.Made[0].Points.Zip(second.Made[0].Points)) Close.Absolute(p.Upper, q.Upper, 1e-12);
    }
}
