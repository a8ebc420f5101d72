using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Tests.Worlds;

/// <summary>What each stated confidence is worth, in worlds that share nothing with the model it comes from.</summary>
public sealed class StatedConfidenceTests(ITestOutputHelper output)
{
    /// <summary>
    /// Prints for every world what was stated, how often it came true, its Monte Carlo error, and of how many seasons and cases a season.
    /// What sound records promise is held to: a share that falls short of what is stated by more than 4 errors and a point fails, of
    /// which there is a probability below 1e-4 for each of eight.
    /// </summary>
    /// <remarks>
    /// <c>JUMPANALYTICS_WORLD_SEASONS</c> gives the seasons of each world, <c>JUMPANALYTICS_WORLDS</c> names worlds and
    /// <c>JUMPANALYTICS_WORLD_LOOKS</c> looks, comma-separated.
    /// </remarks>
    [Fact, Trait("Category", "Long")]
    public void Each_stated_confidence_in_each_world()
    {
        var seasons = int.Parse(Setting("JUMPANALYTICS_WORLD_SEASONS") ?? "40", CultureInfo.InvariantCulture);
        var (worlds, looks) = (Setting("JUMPANALYTICS_WORLDS")?.Split(','), Setting("JUMPANALYTICS_WORLD_LOOKS")?.Split(','));
        foreach (var world in TwelveWorlds.All.Where(w => worlds?.Contains(w.Name) != false))
        {
            var shares = Study(world, world.Missions > 1000 ? Math.Max(4, seasons / 4) : seasons, looks);
            if (world != TwelveWorlds.Clean) continue;
            foreach (var line in shares.Lines.Where(l => _promised.Contains(l.What)))
                Assert.True(line.Share > line.Stated - (4 * line.Error) - 0.01, $"{world.Name}: {line}");
        }
    }

    private static readonly string[] _promised =
    [
        "rate: overall, 95 % interval", "rate: overall, 90 % interval", "rate: cells of 5 or more missions, counted", "rate: cells, pooled",
        "margin: upper limit of R90, all", "margin: upper limit of R90, terrains", "margin: upper limit of R90, cells, borrowed",
        "spotter: mean miss of the base, 95 % ellipse",
    ];

    private StatedShares Study(World world, int seasons, string[]? looks)
    {
        var (shares, spent) = (new StatedShares(), new long[WorldLooks.All.Count]);
        Parallel.For(0, seasons, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, seed =>
        {
            var season = world.Season(seed + 1000);
            for (var i = 0; i < spent.Length; i++)
            {
                if (seed % WorldLooks.All[i].Every != 0 || looks?.Contains(WorldLooks.All[i].Name) == false) continue;
                var start = Stopwatch.GetTimestamp();
                WorldLooks.All[i].Look(world, season, shares);
                Interlocked.Add(ref spent[i], (long)Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        });
        output.WriteLine($"### {world.Name} ({world.Missions} missions, true rate "
            + string.Create(CultureInfo.InvariantCulture, $"{100 * world.Truth.Rate(Cell.All):0.0} %)"));
        output.WriteLine("| what | stated, % | came, % | seasons × cases |");
        output.WriteLine("| --- | --- | --- | --- |");
        foreach (var line in shares.Lines) output.WriteLine(line.ToString());
        output.WriteLine(string.Join(", ", WorldLooks.All.Zip(spent, (l, ms) => $"{l.Name} {ms / 1000.0:0.0} s")));
        return shares;
    }

    private static string? Setting(string name) => Environment.GetEnvironmentVariable(name) is { Length: > 0 } text ? text : null;
}
