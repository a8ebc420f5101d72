using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Tests.Worlds;

/// <summary>What each stated confidence is worth, in worlds that share nothing with the model it comes from.</summary>
public sealed class StatedConfidenceTests(ITestOutputHelper output)
{
    /// <summary>
    /// Prints what was stated and, for every world, how often it came true with its Monte Carlo error, all in %.
    /// What is promised of sound records is held to, eight lines: a share fails that is a point and four standard deviations of one case a
    /// season below what is stated. Were it true, that has a probability below 0.001 each in 40 seasons (8 of 40 at 95 %, 12 at 90).
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
        var studied = TwelveWorlds.All.Where(w => worlds?.Contains(w.Name) != false)
            .Select(w => (World: w, Shares: Study(w, w.Missions > 1000 ? Math.Max(4, seasons / 4) : seasons, looks))).ToList();
        output.WriteLine($"| what | stated | {string.Join(" | ", studied.Select(s => s.World.Name))} |");
        output.WriteLine($"| --- | --- |{string.Concat(studied.Select(_ => " --- |"))}");
        foreach (var lines in studied.SelectMany(s => s.Shares.Lines).GroupBy(l => l.What).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {lines.Key} | {100 * lines.Average(l => l.Stated):0.#} | ")
                + $"{string.Join(" | ", studied.Select(s => s.Shares.Of(lines.Key)?.ToString()))} |");
        }
        var clean = studied.Where(s => s.World == TwelveWorlds.Clean).SelectMany(s => s.Shares.Lines);
        Assert.All(clean.Where(l => _promised.Contains(l.What)), l => Assert.True(
            l.Share > l.Stated - (4 * Math.Sqrt(l.Stated * (1 - l.Stated) / seasons)) - 0.01, $"{l.What}: {l}"));
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
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{world.Name}: {world.Missions} missions, true rate ")
            + string.Create(CultureInfo.InvariantCulture, $"{100 * world.Truth.Rate(Cell.All):0.0} %, {seasons} seasons; seconds: ")
            + string.Join(", ", WorldLooks.All.Zip(spent, (l, ms) => $"{l.Name} {ms / 1000}")));
        return shares;
    }

    private static string? Setting(string name) => Environment.GetEnvironmentVariable(name) is { Length: > 0 } text ? text : null;
}
