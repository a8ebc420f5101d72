using JumpAnalytics.Demo;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>
/// What the patterns make of the demo season, whose truth is planted: S04 reads the wind low, which leaves 22 yd long after
/// steering; nobody else is biased.
/// </summary>
public sealed class SpotterPatternDemoTests
{
    private const double Yd = 0.9144;
    private static readonly double _planted =
        Yd * Planted.BiasedSpotterReadsLowMph * Descent.YdPerSecondPerMph * Planted.Round.DescentS * Planted.Round.LeftShare;
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };
    private static readonly SpotterPatterns _patterns = SpotterPatterns.Of(DemoLog.Log.Landings, _options);

    /// <summary>
    /// S04 has 47 missions. In the 40 seasons of <see cref="In_further_seasons_the_biased_spotter_is_found_and_others_are_not"/> all gave
    /// an adjusted p below 0.05; a 95 % interval misses the planted bias in one season of twenty, and this season is fixed.
    /// </summary>
    [Fact]
    public void The_spotter_who_reads_low_is_long()
    {
        var low = _patterns.Of(Planted.BiasedSpotter);
        var mean = low.Downwind.Value!;
        Assert.True(mean.First.Range!.Value.Contains(_planted), $"{mean.First}");
        Assert.True(mean.First.Range.Value.Low > 0);
        Assert.True(low.AdjustedP < 0.001);
        Assert.Contains(_patterns.Points,
            p => p.StartsWith(Planted.BiasedSpotter, StringComparison.Ordinal) && p.Contains("long", StringComparison.Ordinal));
        Assert.Contains(Planted.BiasedSpotter, _patterns.Reading, StringComparison.Ordinal);

        // The low reading is so many mph whatever the wind: no part of it goes with the drift, and the direction is
        // long, not some compass bearing.
        Assert.True(low.LongWithDrift.Value!.Share.Range!.Value.Contains(0));
        Assert.True(Math.Abs(DirectionSummary.Gap(low.Relative.Summary.Value!.Mean, 0)) < 0.5);
        Assert.True(low.Relative.Rayleigh.Value!.PValue < 0.001);
    }

    /// <summary>Seven spotters without bias, each ellipse of 95 %: all hold none with probability 0.70, five or more with 0.998.</summary>
    [Fact]
    public void Ellipses_of_the_others_hold_none() =>
        Assert.InRange(_patterns.Spotters.Count(s => s.Spotter != Planted.BiasedSpotter && s.Downwind.Value!.Holds(default)), 5, 7);

    [Fact]
    public void Spotters_stand_by_code_and_every_mission_counts()
    {
        Assert.Equal(Planted.Spotters.Order(StringComparer.Ordinal), _patterns.Spotters.Select(s => s.Spotter));
        Assert.Equal(_patterns.Base.Missions, _patterns.MissionsWithoutSpotter + _patterns.Spotters.Sum(s => s.Missions));
        Assert.Equal(327, _patterns.Base.Missions);
        Assert.All(_patterns.Spotters, s => Assert.True(s.Shares.Success && s.Spread.Value!.R90.Success));
    }

    /// <summary>
    /// The recorded exit is the first jumper's, half a stick early; each jumper's own exit lies on the plan in the mean
    /// (README: 1 yd over all jumpers).
    /// </summary>
    [Fact]
    public void Exits_of_whole_sticks_lie_on_the_plan()
    {
        var exits = _patterns.Base.ExitPlacement.Value!;
        Assert.InRange(exits.Mean.Along, -6 * Yd, 6 * Yd);
        Assert.True(exits.Missions > 150 && exits.Missions < 327);
    }

    /// <summary>A mean miss over the base is the bias of the season's table: one number, one interval.</summary>
    [Fact]
    public void The_bias_is_that_of_the_season()
    {
        var bias = SeasonGlance.Of(DemoLog.Log.Landings, _options).Seasons[^1].BiasDownwind.Value!;
        Close.Relative(bias.Value, _patterns.Base.Downwind.Value!.First.Value, 1e-10);
        Close.Relative(bias.Range!.Value.High, _patterns.Base.Downwind.Value.First.Range!.Value.High, 1e-10);
    }

    /// <summary>
    /// Forty further seasons. S04 is found at 5 % with all looks held together (by chance alone: in fewer than 5 %), and the
    /// ellipses of the 280 unbiased patterns hold none in 95 %: fewer than 250 (89.3 %) with probability below 1e-4. Holm lets a spotter
    /// without bias be named in no more than one season of twenty: more than 7 of 40 with probability below 2e-3.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void In_further_seasons_the_biased_spotter_is_found_and_others_are_not()
    {
        int found = 0, held = 0, among = 0, unbiased = 0, falsely = 0;
        for (ulong seed = 101; seed <= 140; seed++)
        {
            DemoLog.InTemporaryFolder(folder =>
            {
                new DemoSeason(seed).WriteLog(folder);
                var patterns = SpotterPatterns.Of(JumpLog.Read(folder).Landings, _options);
                var low = patterns.Of(Planted.BiasedSpotter);
                if (low.AdjustedP < 0.05 && low.Downwind.Value!.First.Range!.Value.Low > 0) found++;
                if (low.Downwind.Value!.First.Range!.Value.Contains(_planted)) held++;
                var others = patterns.Spotters.Where(s => s.Spotter != Planted.BiasedSpotter && s.Downwind.Success).ToList();
                unbiased += others.Count;
                among += others.Count(s => s.Downwind.Value!.Holds(default));
                if (others.Any(s => s.AdjustedP < 0.05)) falsely++;
            });
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"found {found}, held {held} of 40; ellipses with none {among} of {unbiased}; "
            + $"seasons with a false name {falsely}");
        Assert.InRange(found, 38, 40);
        Assert.InRange(held, 33, 40); // coverage 0.95: fewer with probability 3e-3
        Assert.InRange(among, 0.893 * unbiased, unbiased);
        Assert.InRange(falsely, 0, 7);
    }
}
