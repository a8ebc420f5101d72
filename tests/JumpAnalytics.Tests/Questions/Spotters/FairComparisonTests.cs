using System.Globalization;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

public sealed class FairComparisonTests
{
    private static readonly AccuracyOptions _options = new();

    private static FairComparison Compare(IReadOnlyList<Landing> landings, FairComparisonSettings? settings = null) =>
        FairComparison.Of(landings, _options, settings);

    /// <summary>Landings of one flight: so many hits, then misses.</summary>
    private static IEnumerable<Landing> Flight(string? spotter, string mission, int hits, int landings, string terrain = "timber",
        double wind = 1, double radius = 30)
    {
        var drop = Made.Drop(mission, mission, terrain: terrain, windSpeed: wind, targetRadius: radius) with { Spotter = spotter };
        return Enumerable.Range(0, landings).Select(i => Made.Landing(drop, i < hits ? 5 : 200, 0));
    }

    private static List<Landing> Flights(string? spotter, int missions, Func<int, int> hits, int landings = 4,
        string terrain = "timber", double wind = 1) =>
        [.. Enumerable.Range(0, missions)
            .SelectMany(m => Flight(spotter, $"{spotter}{terrain}{wind}-{m}", hits(m), landings, terrain, wind))];

    /// <summary>
    /// The formulas by dense matrices in R 4.2.2 (tests/reference/shrinking/fair_comparison.R), on 150 invented missions
    /// dealt to five spotters in turn.
    /// </summary>
    [Fact]
    public void Differences_are_those_of_the_dense_formulas()
    {
        var counts = ReferenceFiles.Rows("pooling/counts.csv").ToList();
        var missions = counts.Select(c => c["mission"]).Distinct().ToList();
        var bands = new Dictionary<string, double> { ["0-5"] = 1, ["5-10"] = 3, ["10-15"] = 5.5, ["15+"] = 8 };
        var landings = counts.SelectMany(c => Flight($"S{missions.IndexOf(c["mission"]) % 5 + 1}",
            c["mission"], int.Parse(c["hits"], CultureInfo.InvariantCulture), int.Parse(c["landings"], CultureInfo.InvariantCulture),
            c["terrain"], bands[c["band"]])).ToList();
        var made = Compare(landings);
        Assert.Equal(landings.Count, made.Spotters.Sum(s => s.Landings));
        foreach (var row in ReferenceFiles.Rows("shrinking/fair_comparison.csv"))
        {
            var spotter = made.Spotters.SingleOrDefault(s => s.Spotter == "S" + row["spotter"]);
            var actual = row["what"] switch
            {
                "Q" => made.Spread.Value!.Q,
                "expected" => spotter!.ExpectedHits!.Value,
                "low" => spotter!.Difference.Value!.Range!.Value.Low,
                "high" => spotter!.Difference.Value!.Range!.Value.High,
                "dispersion" => spotter!.Dispersion,
                _ => spotter!.P!.Value,
            };
            Close.Relative(double.Parse(row["value"], CultureInfo.InvariantCulture), actual, 1e-8, $"{row["what"]} {row["spotter"]}");
        }
    }

    [Fact]
    public void Rows_stand_in_order_of_code_whatever_the_rates_and_the_order_of_the_records()
    {
        List<Landing> landings =
            [.. Flights("b", 20, m => m % 4), .. Flights("a", 20, m => 4 - m % 2), .. Flights("c", 20, m => 2 + m % 3)];
        var made = Compare(landings);
        Assert.Equal(["a", "b", "c"], made.Spotters.Select(s => s.Spotter));
        landings.Reverse();
        Assert.Equal(made.ToString(), Compare(landings).ToString());
        Assert.Contains("Spotters are listed in order of code. Two neighbours", made.Reading);
        Assert.Contains("rates no person", made.Reading);
    }

    /// <summary>
    /// What is expected of a spotter comes from the others: turning a spotter's misses to hits hardly moves it, and moves
    /// what is expected of the others.
    /// </summary>
    [Fact]
    public void A_spotter_does_not_set_their_own_standard()
    {
        var landings = new MadeBase().Fly(3);
        var (before, after) = (Compare(landings), Compare([.. landings.Select(l =>
            l.Drop.Spotter == "S5" && l.MissDistance > 30 && l.Drop.Mission.EndsWith('3') ? l with { MissDistance = 5 } : l)]));
        Assert.True(after.Spotters[4].Hits > before.Spotters[4].Hits);
        Close.Absolute(before.Spotters[4].Expected.Value!.Value, after.Spotters[4].Expected.Value!.Value, 0.002);
        Assert.True(after.Spotters.Where(s => s.Spotter != "S5").Average(s => s.Expected.Value!.Value)
            > before.Spotters.Where(s => s.Spotter != "S5").Average(s => s.Expected.Value!.Value) + 0.002);
    }

    /// <summary>
    /// One condition and a great many landings of another spotter: expected is the other's rate, and the interval Wilson's on landings
    /// over dispersion, less that rate.
    /// </summary>
    [Fact]
    public void With_one_condition_and_a_sure_standard_the_interval_is_Wilsons()
    {
        var made = Compare([.. Flights("a", 25, m => m % 4 + 1), .. Flights("b", 8_000, m => m % 4 + 1)]);
        var a = made.Spotters[0];
        Close.Absolute(0.625, a.Expected.Value!.Value, 1e-4); // the pull on the other spotter is spread over 32,000 landings
        var t = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 25 - 1 + 20, 0.975);
        var wilson = ClusteredProportion.Wilson(a.Counted.Value!.Rate.Value, 100 / a.Dispersion, t);
        Close.Absolute(wilson.Low - a.Expected.Value.Value, a.Difference.Value!.Range!.Value.Low, 2e-4);
        Close.Absolute(wilson.High - a.Expected.Value.Value, a.Difference.Value.Range.Value.High, 2e-4);
    }

    [Fact]
    public void A_spotter_without_a_miss_has_an_interval_and_it_ends_at_what_is_possible()
    {
        var made = Compare([.. Flights("a", 12, _ => 4), .. Flights("b", 30, m => 2 + m % 3), .. Flights("c", 30, m => 3 + m % 2)]);
        var a = made.Spotters[0];
        var range = a.Difference.Value!.Range!.Value;
        Close.Absolute(1 - a.Expected.Value!.Value, range.High, 1e-12);
        Assert.InRange(range.Low, -0.2, a.Difference.Value.Value);
        Assert.True(a.Shrunken.Value!.Value < a.Difference.Value.Value);
        Assert.InRange(a.Shrunken.Value.Value, 0, 0.2);
        foreach (var s in made.Spotters) Assert.InRange(s.Expected.Value!.Value + s.Difference.Value!.Range!.Value.Low, 0, 1);
    }

    [Fact]
    public void A_few_missions_say_what_it_would_take()
    {
        var made = Compare([.. Flights("a", 4, _ => 3), .. Flights("b", 30, m => 2 + m % 3), .. Flights("c", 30, m => 3 + m % 2),
            .. Flights(null, 3, _ => 2), .. Flights(" ", 2, _ => 2)]);
        Assert.False(made.Spotters[0].Difference.Success);
        Assert.Matches("^4 missions; a difference is given from 10 on; about [0-9]+ would give it to within ten points$",
            made.Spotters[0].Note);
        Assert.InRange(made.Spotters[0].MissionsForTenPoints!.Value, 10, 60);
        Assert.Null(made.Spotters[0].P);
        Assert.Equal(20, made.WithoutSpotter);
        Assert.Contains("20 landings without a spotter recorded left out.", made.Points);
        Assert.StartsWith("2 spotters with 10 missions or more, 60 missions and 240 landings in all", made.Reading);
    }

    [Fact]
    public void What_can_not_be_compared_says_why()
    {
        Assert.Equal("Spotters can't be compared: no landing has a spotter recorded.", Compare([]).Reading);
        Assert.Equal("a single spotter; there is nobody to compare with", Compare(Flights("a", 20, _ => 3)).Spread.Reason);
        Assert.Equal("every landing is a hit", Compare([.. Flights("a", 20, _ => 4), .. Flights("b", 20, _ => 4)]).Spread.Reason);
        Assert.Equal("no landing is a hit",
            Compare([.. Flights("a", 20, _ => 0), .. Flights("b", 20, _ => 0)]).Spotters[1].Difference.Reason);
        Assert.StartsWith("No spotter has 10 missions or more", Compare([.. Flights("a", 2, _ => 3), .. Flights("b", 2, _ => 4)]).Reading);
        Assert.Throws<ArgumentOutOfRangeException>(() => new FairComparisonSettings { FewestMissions = 2 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new FairComparisonSettings { NamedDifference = 1.5 });
    }

    /// <summary>
    /// Spotters that flew apart, where only pulls tie the conditions together: nothing breaks, and the expectation
    /// owns that it hardly knows.
    /// </summary>
    [Fact]
    public void Spotters_without_a_common_condition_get_a_wide_expectation()
    {
        var apart = Compare([.. Flights("a", 30, m => 3 + m % 2, terrain: "meadow"),
            .. Flights("b", 30, m => 2 + m % 2, terrain: "ridge", wind: 4)]);
        Assert.All(apart.Spotters, s => Assert.Equal(1, s.OnlyHere));
        Assert.All(apart.Spotters, s => Assert.True(s.Difference.Value!.Range!.Value.Contains(0)));
        Assert.All(apart.Spotters, s => Assert.True(s.Expected.Value!.Range!.Value is var r && r.High - r.Low > 0.3));
        Assert.Contains("no other spotter flew", apart.Spotters[0].Note);
    }

    /// <summary>Holm by hand: the smallest p times the looks, the next times one less, never falling.</summary>
    [Fact]
    public void Looks_are_allowed_for()
    {
        var made = Compare(new MadeBase { Planted = -0.12 }.Fly(11));
        var ordered = made.Spotters.OrderBy(s => s.P).ToList();
        var so = 0.0;
        for (var i = 0; i < 8; i++)
            Close.Relative(so = Math.Max(so, Math.Min(1, ordered[i].P!.Value * (8 - i))), ordered[i].PAdjusted!.Value, 1e-12);
    }

    [Fact]
    public void The_probability_of_a_larger_difference_falls_with_the_difference_named()
    {
        var landings = new MadeBase { Planted = -0.12 }.Fly(11);
        var by = new[] { 0.0001, 0.02, 0.05, 0.1, 0.2, 0.9 }.Select(d =>
            Compare(landings, new FairComparisonSettings { NamedDifference = d }).Spotters[4].ProbabilityLarger!.Value).ToList();
        Assert.Equal(by.OrderDescending(), by);
        Assert.InRange(by[0], 0.95, 1);
        Assert.InRange(by[^1], 0, 1e-6);
    }

    /// <summary>A larger circle is easier to hit: the spotter who was given small ones is not behind once that counts.</summary>
    [Fact]
    public void Target_radii_count_among_the_conditions()
    {
        var random = SeedStream.For(5, "radii");
        var landings = new List<Landing>();
        for (var m = 0; m < 240; m++)
        {
            var drop = Made.Drop($"m{m}", $"m{m}",
                targetRadius: random.NextDouble() < (m % 2 == 0 ? 0.8 : 0.2) ? 25 : 40) with { Spotter = m % 2 == 0 ? "a" : "b" };
            for (var j = 0; j < 4; j++) landings.Add(Made.Landing(drop, 25 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1),
                25 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1)));
        }
        var (with, without) = (Compare(landings), Compare(landings, new FairComparisonSettings { UseTargetRadius = false }));
        Assert.True(without.Spotters[0].Difference.Value!.Range!.Value.High < 0);
        Assert.True(with.Spotters[0].Difference.Value!.Range!.Value.Contains(0));
    }

    [Fact]
    public void Funnel_limits_are_those_of_independent_landings_and_widen_with_the_spread()
    {
        var made = Compare(new MadeBase { Planted = -0.12 }.Fly(11));
        var half = 1.959963985 * Math.Sqrt(made.OverallRate * (1 - made.OverallRate) / 100);
        Close.Relative(half, made.FunnelLimits(100, 0.95).High, 1e-8);
        Close.Relative(-half, made.FunnelLimits(100, 0.95).Low, 1e-8);
        Assert.True(made.FunnelLimits(100, 0.95, withSpread: true).High > half);
        Assert.All(made.Spotters, s => Assert.True(s.EffectiveLandings < s.Landings * 1.6));
        Assert.Throws<ArgumentOutOfRangeException>(() => made.FunnelLimits(0, 0.95));
        Assert.Throws<ArgumentOutOfRangeException>(() => made.FunnelLimits(10, 1));
    }

    /// <summary>
    /// The demo: S04's interval lies below zero and no other's misses it. In further seasons (FairComparisonCoverageTests, Long)
    /// the first holds in most and one of the seven others is off by chance in about one in three. The season is fixed, so a test
    /// that passed goes on passing.
    /// </summary>
    [Fact]
    public void The_demo_shows_its_planted_spotter_and_no_other()
    {
        var made = Compare(DemoLog.Log.Landings);
        Assert.Equal(JumpAnalytics.Demo.Planted.Spotters, made.Spotters.Select(s => s.Spotter));
        Assert.Equal([JumpAnalytics.Demo.Planted.BiasedSpotter],
            made.Spotters.Where(s => !s.Difference.Value!.Range!.Value.Contains(0)).Select(s => s.Spotter));
        var planted = made.Spotters[3];
        Assert.True(planted.Difference.Value!.Range!.Value.Contains(-0.09) && planted.Difference.Value.Range.Value.High < 0);
        Assert.True(planted.PAdjusted < 0.05);
        Assert.True(planted.Shrunken.Value!.Value > planted.Difference.Value.Value);
        Assert.Equal((327, 1483), (made.Spotters.Sum(s => s.Missions), made.Spotters.Sum(s => s.Landings)));
        Assert.True(made.Spread.Value!.Sd.Range!.Value.Low > 0);
    }
}
