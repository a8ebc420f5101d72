using JumpAnalytics.Demo;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>The planted facts of the demo as margins see them, over further seasons of the same generator.</summary>
public sealed class MarginsOfDemoSeasonsTests(ITestOutputHelper output)
{
    /// <summary>
    /// Ridge lees are 2.3 times as wide across the drift. The radius of 90 % of all landings there and in meadows, each with its upper
    /// 90 % limit, and the truth of each: that of all seasons' landings together. In 40 seasons a limit that holds its truth in 90 % does
    /// so in fewer than 31 with probability below 0.01; the seasons' own limits are held to a little more than that claims, because the
    /// truth is itself of these seasons.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Wider_ground_has_the_greater_margin_and_limits_hold_the_truth() => Look(40, 31);

    /// <summary>The same for eight seasons: of eight, fewer than 5 with probability below 0.01.</summary>
    [Fact]
    public void Wider_ground_has_the_greater_margin_in_a_few_seasons() => Look(8, 5);

    private void Look(int seasons, int least)
    {
        var options = new AccuracyOptions();
        var of = new (RadiusMargins Margins, IReadOnlyList<Landing> Landings)[seasons];
        Parallel.For(0, seasons, i => DemoLog.InTemporaryFolder(folder =>
        {
            new DemoSeason(3_000_000 + (ulong)i).WriteLog(folder);
            var landings = JumpLog.Read(folder).Landings;
            of[i] = (RadiusMargins.Of(landings, options), landings);
        }));
        var wider = of.Count(s => Of(s.Margins, "ridge lee").Radius > Of(s.Margins, "meadow").UpperLimit);
        Assert.InRange(wider, seasons * 9 / 10, seasons);
        foreach (var terrain in new[] { "ridge lee", "meadow" })
        {
            var truth = RadiusLimit.Of(PlaneSample.Of(
                of.SelectMany((s, i) => s.Landings.Where(l => l.Drop.Terrain == terrain && (l.MissDistance ?? l.Beyond) is not null)
                    .Select(l => new PlaneReading($"{i} {l.Drop.Mission}", l.MissDistance is { } d ? new PlaneVector(d, 0) : null,
                        l.Beyond)))), 0.9, 0.9).Value!.Radius;
            var held = of.Count(s => Of(s.Margins, terrain).UpperLimit >= truth * (1 - 1e-9));
            output.WriteLine($"{terrain}: R90 {truth / 0.9144:0.0} yd; {held} of {seasons} limits hold it; wider ground told in {wider}");
            Assert.InRange(held, least, seasons);
        }

        static RadiusLimit Of(RadiusMargins margins, string terrain) => margins.Cell("all", terrain)!.Radii[2].Value!;
    }
}
