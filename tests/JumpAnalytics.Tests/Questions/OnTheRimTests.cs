namespace JumpAnalytics.Tests;

/// <summary>
/// A landing exactly on a circle is inside it, wherever that is asked: two conversions of one distance differ by a rounding or two, and a
/// landing a hair outside by that alone counts as on it.
/// </summary>
public sealed class OnTheRimTests
{
    private const double Radius = 22.86; // 25 yd, or 75 ft

    /// <summary>The radius as a distance that came out two roundings longer, and one that is longer in earnest.</summary>
    private static readonly double _on = Math.BitIncrement(Math.BitIncrement(Radius)), _outside = Radius * (1 + 1e-6);

    private static readonly AccuracyOptions _options = new() { Replicates = 200, Canopies = [new CanopyFlight("made", 5, 5, "made up")] };

    private static Drop Drop(int number = 0, string season = "2031") =>
        Made.Drop($"d{season}-{number}", $"m{season}-{number}", season, targetRadius: Radius);

    /// <summary>As many missions of one landing each at a distance due north.</summary>
    private static List<Landing> Missions(double distance, int count = 12, string season = "2031") =>
        [.. Enumerable.Range(0, count).Select(m => Made.Landing(Drop(m, season), 0, distance))];

    private static List<Landing> Beyond(double distance, int count = 12) =>
        [.. Enumerable.Range(0, count).Select(m => Made.Beyond(Drop(m), distance))];

    [Fact]
    public void A_landing_is_inside_outside_or_not_known()
    {
        Assert.True(Made.Landing(Drop(), 0, _on).IsInside(Radius));
        Assert.False(Made.Landing(Drop(), 0, _outside).IsInside(Radius));
        Assert.False(Made.Beyond(Drop(), Math.BitDecrement(Radius)).IsInside(Radius));
        Assert.Null(Made.Beyond(Drop(), Radius * (1 - 1e-6)).IsInside(Radius));
        Assert.Null((Made.Landing(Drop(), 0, 1) with { Miss = null, MissDistance = null }).IsInside(Radius));
    }

    [Fact]
    public void Clearings_hold_their_edge()
    {
        var circle = Clearing.Circle(Radius);
        var square = Clearing.Polygon([new(-Radius, -Radius), new(Radius, -Radius), new(Radius, Radius), new(-Radius, Radius)]);
        foreach (var clearing in new[] { circle, square })
        {
            Assert.True(clearing.Holds(new(_on, 0)) && clearing.Holds(new(0, -_on)));
            Assert.False(clearing.Holds(new(_outside, 0)) || clearing.Holds(new(0, -_outside)));
        }
        Assert.True(square.Holds(new(_on, _on)));
        Assert.False(square.Holds(new(_outside, Radius)));

        // beyond the edge by a record of the same distance is outside, and not left out
        Assert.Equal(0, ClearingChance.Of(Beyond(Math.BitDecrement(Radius)), _options, circle).Rows[^1].Counted.Value!.Rate.Value);
        Assert.False(ClearingChance.Of(Beyond(Radius * (1 - 1e-6)), _options, circle).Rows[^1].Counted.Success);
    }

    [Fact]
    public void What_ifs_judge_by_the_same_rule()
    {
        ClusteredProportion Asked(IReadOnlyList<Landing> landings) =>
            WhatIf.Of(landings, _options, [new Scenario { TargetRadius = Radius }]).Results[0].Rate.Value!;
        Assert.Equal(1, Asked(Missions(_on)).Rate.Value);
        Assert.Equal(0, Asked(Missions(_outside)).Rate.Value);
        Assert.Equal(24, Asked([.. Missions(_outside), .. Beyond(Math.BitDecrement(Radius))]).Landings);
    }

    [Fact]
    public void Shifted_exits_judge_by_the_same_rule()
    {
        var mean = new PlaneVector(5, 0);
        Assert.Equal((1, 1), ExitShifts.Tally([Made.Landing(Drop(), 0, 5 + _on)], mean));
        Assert.Equal((0, 1), ExitShifts.Tally([Made.Landing(Drop(), 0, 5 + _outside)], mean));
    }

    /// <summary>A margin is one of the distances of the seasons before: later landings at the same distance are inside it.</summary>
    [Fact]
    public void Margins_hold_landings_at_their_own_distance()
    {
        const double At = 23.1; // no whole number of a unit, which would look rounded
        var distances = Enumerable.Range(0, 40).Select(m => m < 10 ? 5 : m < 30 ? At : 40);
        List<Landing> before = [.. distances.Select((d, m) => Made.Landing(Drop(m, "2030"), 0, d))];
        double Held(IEnumerable<Landing> later) => MarginBacktest.Of([.. before, .. later], _options, [0.5]).Trials
            .Single(t => t.WindBand == Cell.Any).Inside.Value!.Rate.Value;
        var on = Math.BitIncrement(Math.BitIncrement(At));
        Assert.Equal(1, Held(Missions(on)));
        Assert.Equal(0, Held(Missions(At * (1 + 1e-6))));
        Assert.Equal(0.5, Held([.. Missions(on, 6), .. Beyond(Math.BitDecrement(At)).Skip(6)]));
    }

    [Fact]
    public void Forecasts_and_reach_are_judged_by_the_same_rule()
    {
        ThreeRates Rates(double distance, double height)
        {
            var drop = Drop() with { ExitHeight = height, ActualExit = new LocalVector(0, -300) };
            return ThreeRates.Of([Made.Landing(drop, 0, distance, 1) with { Canopy = "made" }], _options);
        }
        Assert.Equal(1, Rates(_on, 0).Forecast.Value!.AtLeast.Rate.Value);
        Assert.Equal(0, Rates(_outside, 0).Forecast.Value!.AtMost.Rate.Value);
        Assert.Equal(1, Rates(_on + 20, 10).Recoverable.Value!.AtMost.Rate.Value);

        double Observed(double distance) =>
            ForecastCheck.Of(Missions(distance), _options).Cells.Single(c => c.WindBand == Cell.Any).Observed.Value;
        Assert.Equal((1.0, 0.0), (Observed(_on), Observed(_outside)));

        int Simulated(double distance) => BlockMoments.Of([distance], [0], new double[1], Radius).Hits;
        Assert.Equal((1, 0), (Simulated(_on), Simulated(_outside)));
    }

    [Fact]
    public void Unsteered_canopies_of_a_debrief_are_judged_by_the_same_rule()
    {
        var log = new JumpLog("made", null, [Drop()], [Made.Landing(Drop(), 0, 0)], Made.NoIntake);
        var pass = MissionDebrief.Of(log, options: _options).Passes[0];
        ReachSheet.ReachRow Row(double unsteered, double flyable) => new(pass, pass.Jumpers[0], unsteered, 1, flyable, null);
        Assert.Equal((false, true), (Row(_on, 0).IsOutside, Row(_on, 0).IsRecoverable));
        Assert.Equal((true, false), (Row(_outside, 0).IsOutside, Row(_outside, 0).IsRecoverable));
    }

    /// <summary>What a heaped distance may have been ends on the radius: all of it inside, or none.</summary>
    [Fact]
    public void Rounding_that_ends_on_the_radius_lies_on_one_side()
    {
        var landing = Made.Landing(Drop(), 0, Radius);
        Assert.Equal(1, new RoundedLanding(landing, Radius - 5, _on).Inside);
        Assert.Equal(0, new RoundedLanding(landing, Math.BitDecrement(Radius), Radius + 5).Inside);
        Assert.Equal(0.5, new RoundedLanding(landing, Radius - 5, Radius + 5).Inside, 12);
    }
}
