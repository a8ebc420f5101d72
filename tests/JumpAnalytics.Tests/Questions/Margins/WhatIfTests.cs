namespace JumpAnalytics.Tests;

public sealed class WhatIfTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    /// <summary>
    /// Missions m0, m1, … of two landings each: 20 m and 35 m long, target radius 30 m; wind m + 1 metres per second,
    /// streamers m + 1 minutes old.
    /// </summary>
    private static List<Landing> Season(int missions, Func<Drop, Drop>? change = null)
    {
        var landings = new List<Landing>();
        for (var m = 0; m < missions; m++)
        {
            var drop = Made.Drop($"d{m}", $"m{m}", windSpeed: m + 1) with { StreamerAge = 60.0 * (m + 1) };
            drop = change?.Invoke(drop) ?? drop;
            landings.Add(Made.Landing(drop, 0, 20, 1));
            landings.Add(Made.Landing(drop, 0, 35 + m, 2));
        }
        return landings;
    }

    private static WhatIfResult Ask(IReadOnlyList<Landing> landings, Scenario scenario, WhatIfModels? models = null) =>
        WhatIf.Of(landings, _options, [scenario], models).Results[0];

    [Fact]
    public void Another_radius_judges_the_same_landings_anew()
    {
        var result = Ask(Season(8), new Scenario { TargetRadius = 38 });
        Assert.Equal(0.5, result.AsFlown.Value!.Rate.Value);
        Assert.Equal((8 + 4) / 16.0, result.Rate.Value!.Rate.Value); // 35 to 38 m are inside: missions 0 to 3
        Assert.Equal(0.25, result.Change.Value!.Value, 12);
        Assert.Equal(1, result.MissionsFlown.Value);
        Assert.Equal(8, result.JudgedMissions);

        // Four of eight missions gain a hit, four don't: each moves the difference by 1/32 up or down, and four are touched.
        var half = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 3, 0.975) * Math.Sqrt(8.0 / 32 / 32 * 4 / 3);
        Assert.Equal(0.25 - half, result.Change.Value.Range!.Value.Low, 12);
        Assert.Equal(0.25 + half, result.Change.Value.Range!.Value.High, 12);
    }

    [Fact]
    public void A_landing_beyond_a_distance_is_a_miss_of_a_radius_up_to_it_and_undecided_above()
    {
        List<Landing> landings = [.. Season(4), Made.Beyond(Made.Drop("d9", "m9"), 40)];
        Assert.Equal(9, Ask(landings, new Scenario { TargetRadius = 40 }).Rate.Value!.Landings);
        Assert.Equal(8, Ask(landings, new Scenario { TargetRadius = 41 }).Rate.Value!.Landings);
    }

    [Fact]
    public void A_limit_leaves_out_passes_and_a_mission_is_flown_while_one_is_left()
    {
        var landings = Season(8);
        landings.Add(Made.Landing(Made.Drop("d7b", "m7", windSpeed: 2) with { StreamerAge = 60 }, 0, 10));
        var result = Ask(landings, new Scenario { WindLimit = 4 });
        Assert.Equal(5 / 8.0, result.MissionsFlown.Value);
        Assert.Equal(9 / 17.0, result.LandingsFlown.Value);
        Assert.Equal(5 / 9.0, result.Rate.Value!.Rate.Value);
        Assert.Equal(9 / 17.0, result.AsFlown.Value!.Rate.Value);
        Assert.Null(result.Note);

        var none = Ask(landings, new Scenario { WindLimit = 0.5 });
        Assert.Equal("no pass would be flown", none.Rate.Reason);
        Assert.Equal(0, none.MissionsFlown.Value);
        var untouched = Ask(landings, new Scenario { WindLimit = 100 }).Change.Value!;
        Assert.Equal(0, untouched.Value);
        Assert.Equal(1 - Math.Pow(0.05, 1 / 8.0), untouched.Range!.Value.High, 12);
    }

    [Fact]
    public void Passes_without_an_age_are_left_out_of_both_rates_and_counted()
    {
        var result = Ask(Season(8, d => d.Id is "d0" or "d1" ? d with { StreamerAge = null } : d), new Scenario { StreamerLimit = 5 * 60 });
        Assert.Equal((6, 12), (result.JudgedMissions, result.Judged));
        Assert.Equal(3 / 6.0, result.MissionsFlown.Value);
        Assert.Contains("4 landings without an age of the streamers left out", result.Note);
    }

    [Fact]
    public void New_streamers_draw_landings_towards_the_mean_miss_and_carry_the_uncertainty_of_the_model()
    {
        var landings = Season(8);
        var without = Ask(landings, new Scenario { FreshStreamers = 60 });
        Assert.Equal("no growth of the spread with the age of the streamers is known or shown", without.Change.Reason);

        var sure = new WhatIfModels { SpreadRatio = (from, to) => Estimate.Of(to / from, new Interval(to / from, to / from)) };
        var result = Ask(landings, new Scenario { FreshStreamers = 60 }, sure);
        // Mean miss 29.25 m. Mission m is drawn to 29.25 + (miss - 29.25)/(m + 1): the second landing of 35 + m m.
        var hits = Enumerable.Range(0, 8).Count(m => 29.25 + (35 + m - 29.25) / (m + 1) <= 30) + 8;
        Assert.Equal(hits, result.Rate.Value!.Hits);
        Assert.True(result.IsModelled);

        var unsure = new WhatIfModels { SpreadRatio = (from, to) => Estimate.Of(to / from, new Interval(0.01, 1)) };
        var wide = Ask(landings, new Scenario { FreshStreamers = 60 }, unsure).Change.Value!.Range!.Value;
        Assert.True(wide.High > result.Change.Value!.Range!.Value.High);
    }

    [Fact]
    public void Smaller_sticks_bring_each_exit_nearer_the_middle_of_its_part()
    {
        var drop = Made.Drop() with { RunHeading = Bearing.FromDegrees(0), GroundSpeed = 40, ExitSpacing = 1 };
        var stick = Enumerable.Range(1, 5).Select(order => Made.Landing(drop, 0, 0, order)).ToList();
        double?[] Moves(int largest) =>
            [.. stick.Select(l => ScenarioLandings.ExitMove(new Scenario { LargestStick = largest }, l, 5) / 40)];
        Assert.Equal([1, 1, 1, -1.5, -1.5], Moves(3)); // parts of 3 and 2
        Assert.Equal([1.5, 1.5, -0.5, -0.5, -2], Moves(2)); // 2, 2 and 1
        Assert.Equal([2, 1, 0, -1, -2], Moves(1));
        Assert.Equal([0, 0, 0, 0, 0], Moves(5));

        var passes = Enumerable.Range(0, 6).Select(m => drop with { Id = $"d{m}", Mission = $"m{m}" });
        List<Landing> landings =
            [.. passes.SelectMany((d, m) => Enumerable.Range(1, 3).Select(order => Made.Landing(d, m, 25 * (order - 2), order))),
                Made.Landing(drop, 0, 0)];
        var kept = new WhatIfModels { PassThrough = Estimate.Of(0.625, new Interval(0.625, 0.625)) }; // 25 m of 40 m a place
        var result = Ask(landings, new Scenario { LargestStick = 1, TargetRadius = 10 }, kept);
        Assert.Equal(18 + 1, result.Judged);
        Assert.Equal(19, result.Rate.Value!.Hits);
    }

    [Fact]
    public void A_scenario_names_itself_and_refuses_what_can_t_be()
    {
        var units = ReportUnits.FireLine;
        Assert.Equal("as flown", new Scenario().Describe(units));
        Assert.Equal("every target radius 50 yd; no pass above 10 mph; no pass on streamers older than 12 min; sticks of 2 at the most",
            new Scenario
            {
                TargetRadius = units.Distance.ToSi(50), WindLimit = units.Speed.ToSi(10), StreamerLimit = 720, LargestStick = 2,
            }.Describe(units));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Scenario { TargetRadius = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new Scenario { WindLimit = double.NaN });
        Assert.Throws<ArgumentOutOfRangeException>(() => new Scenario { LargestStick = 0 });
        Assert.StartsWith("Nothing was asked.", WhatIf.Of(Season(3), _options, []).Reading);
        Assert.Equal("no landing that can be told a hit or a miss", Ask([], new Scenario { TargetRadius = 5 }).Rate.Reason);
    }

    /// <summary>
    /// 95 % intervals of the change that a wind limit makes, 400 seasons of 40 missions whose true change is known by quadrature
    /// over the wind: a true coverage of 0.95 leaves 367 to 392 with probability 0.996; the bounds of the test are those of a
    /// coverage between 0.93 and 0.97.
    /// </summary>
    [Fact]
    public void The_interval_of_a_change_holds_the_truth_as_often_as_it_says()
    {
        var random = new Random(20310715);
        // Wind uniform on 0 to 10; the share of hits of a mission beta distributed about 0.95 - 0.04 wind; one to four landings.
        var (limit, held, seasons) = (7.0, 0, 400);
        var truth = (0.95 - 0.04 * limit / 2) - (0.95 - 0.04 * 5);
        for (var s = 0; s < 400; s++)
        {
            var (first, second) = (new List<(double, double)>(), new List<(double, double)>());
            for (var m = 0; m < 40; m++)
            {
                var wind = 10 * random.NextDouble();
                var mean = 0.95 - 0.04 * wind;
                var share = MathNet.Numerics.Distributions.Beta.Sample(random, 6 * mean, 6 * (1 - mean));
                var n = 1 + random.Next(4);
                var hits = Enumerable.Range(0, n).Count(_ => random.NextDouble() < share);
                first.Add((hits, n));
                second.Add(wind <= limit ? (hits, n) : (0, 0));
            }
            var change = PairedRates.Change(first, second, 0.95);
            if (change.Range is not { } range) seasons--; // fewer than four missions above the limit
            else if (range.Contains(truth)) held++;
        }
        Assert.InRange(seasons, 390, 400);
        Assert.InRange(held, seasons - 40, seasons - 3);
    }

    [Fact]
    public void A_change_that_hangs_on_one_mission_has_no_interval()
    {
        var first = Enumerable.Range(0, 20).Select(_ => (2.0, 2.0)).ToList();
        var second = first.ToList();
        // 0.8609 to the power 20 is 0.05: of 20 missions none is touched with that chance where 13.9 % are
        Assert.Equal(0.1391083, PairedRates.Change(first, second, 0.95).Range!.Value.High, 7);
        Assert.Equal(-0.1391083, PairedRates.Change(first, second, 0.95).Range!.Value.Low, 7);
        second[3] = (1, 2);
        var change = PairedRates.Change(first, second, 0.95);
        Assert.Equal(-1 / 40.0, change.Value, 12);
        Assert.Equal("it rests on 1 mission", change.WhyNoRange);
    }
}
