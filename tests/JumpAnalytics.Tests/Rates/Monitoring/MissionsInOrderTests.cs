using NodaTime;

namespace JumpAnalytics.Tests.Monitoring;

/// <summary>Order, restarts and canopies of missions, and who is charted, at the edges.</summary>
public sealed class MissionsInOrderTests
{
    private static MissionInTime Mission(int number, params string?[] canopies) => MissionInTime.Of(
        [.. canopies.Select(c => Tests.Made.Landing(Tests.Made.Drop($"d{number}", $"m{number:00}") with
            { Time = new LocalDateTime(2031, 1, 1, 0, 0).PlusDays(number) }, 1, 2) with { Canopy = c })])[0];

    private static IReadOnlyDictionary<int, ChartRestart> Restarts(int changeover, params string?[][] canopies) =>
        MissionInTime.Restarts([.. canopies.Select((c, i) => Mission(i, c))], new ChartOptions { ChangeoverMissions = changeover });

    /// <summary>Two missions of one canopy before and two of another after are a changeover of two, and none of three.</summary>
    [Fact]
    public void A_changeover_needs_so_many_missions_on_either_side()
    {
        string?[] a = ["round"], b = ["square", "square", "round"];
        Assert.Equal([2], Restarts(2, a, a, b, b).Keys);
        Assert.Equal("canopy square after round", Restarts(2, a, a, b, b)[2].Reason);
        Assert.Empty(Restarts(3, a, a, b, b, b));
        Assert.Empty(Restarts(3, a, a, a, b, b));
        Assert.Equal([3], Restarts(3, a, a, a, b, b, b).Keys);
        Assert.Empty(Restarts(2, a, b, a, b));
        Assert.Empty(Restarts(2, a, a, ["round", "square"], b)); // a tie is no canopy
        Assert.Empty(Restarts(2, a, a, [null], [null]));
        Assert.Equal([3], Restarts(2, a, a, a, b, b).Keys);
    }

    [Fact]
    public void Missions_of_one_time_are_in_order_of_their_ids()
    {
        var time = new LocalDateTime(2031, 1, 1, 0, 0);
        Landing At(string mission, LocalDateTime when) =>
            Tests.Made.Landing(Tests.Made.Drop(mission + when, mission) with { Time = when }, 1, 2);
        var missions = MissionInTime.Of([At("b", time), At("a", time), At("c", time.PlusHours(-1)), At("b", time.PlusHours(-2))]);
        Assert.Equal((string[])["b", "c", "a"], missions.Select(m => m.Mission));
        Assert.Equal(2, missions[0].Landings.Count);
    }

    /// <summary>Five missions are charted and four are not; looks are those of the charts made.</summary>
    [Fact]
    public void Five_missions_are_charted_and_four_are_not()
    {
        var made = new MadeMissions(SeedStream.For(8, "five"));
        var charts = SpotterCharts.Of([.. made.Missions(5, "a"), .. made.Missions(4, "b"), .. made.Missions(30, "c")],
            new AccuracyOptions());
        Assert.Equal((string[])["spotter a", "spotter c"], charts.Spotters.Select(s => s.Name));
        Assert.Equal((string[])["b"], charts.TooFew);
        Assert.Equal(charts.Spotters.Sum(s => s.Made.Count), charts.Looks.Count);
        Close.Relative(charts.Spotters.SelectMany(s => s.Made).Sum(c => c.ChanceOfFalseSignal), charts.ExpectedFalse, 1e-12);
        var signalled = charts.Spotters.SelectMany(s => s.Made).Count(c => c.Signals.Count > 0);
        Assert.Contains($": {signalled} {(signalled == 1 ? "passes" : "pass")} a limit; if nothing differed and nothing had changed, about "
            + $"{Rounding.Fixed(charts.ExpectedFalse, 1)} would by chance. After {charts.Looks.Count} looks (Holm, 5 % level) none is "
            + "beyond chance.", charts.Reading);
    }

    /// <summary>
    /// Learning by hand: of three spotters with a curve one shortens threefold, which the reading names, with all missions and landings
    /// of the three counted; the others are not named.
    /// </summary>
    [Fact]
    public void The_reading_of_curves_counts_who_it_names()
    {
        var made = new MadeMissions(SeedStream.For(6, "three curves"));
        List<Landing> landings = [.. Enumerable.Range(1, 40).SelectMany(i => made.Mission("a", factor: 4 * Math.Pow(i, -0.6))),
            .. made.Missions(30, "b"), .. made.Missions(30, "c"), .. made.Missions(7, "d")];
        var curves = LearningCurves.Of(landings, new AccuracyOptions());
        var told = landings.Where(l => l.Drop.Spotter != "d").ToList();
        Assert.StartsWith("Of 3 spotters with 8 missions or more since the last restart (100 missions, "
            + $"{Rounding.Count(told.Count)} landings) misses became shorter with the missions flown for a and longer for none beyond "
            + "chance after 3 looks (Holm, 5 % level)", curves.Reading);
        Assert.Equal(3, curves.Looks.Count);
        var late = LearningCurves.Of([.. Enumerable.Range(1, 40).SelectMany(i => made.Mission("a", factor: Math.Pow(i, 0.6))),
            .. made.Missions(60, "b")], new AccuracyOptions());
        Assert.Contains("shorter with the missions flown for none and longer for a beyond chance", late.Reading);
        Assert.StartsWith("Whether misses changed", LearningCurves.Of(made.Missions(7, "a").ToList(), new AccuracyOptions()).Reading);
    }
}
