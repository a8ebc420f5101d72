using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Demo;

/// <summary>The committed demo season is what its generator writes, and its seed is the first whose design will do.</summary>
public class SeasonFilesTests
{
    [Fact]
    public void Log_and_flaws_are_what_the_generator_writes() => DemoLog.InTemporaryFolder(folder =>
    {
        DemoLog.Season.WriteLog(folder);
        AssertSameBytes(folder, "drops.csv", "landings.csv", "flaws.csv", "track-truth.csv");
        var tracks = Directory.GetFiles(Path.Combine(folder, "tracks")).Select(f => Path.Combine("tracks", Path.GetFileName(f)))
            .Order(StringComparer.Ordinal).ToArray();
        Assert.Equal(Directory.GetFiles(Path.Combine(DemoLog.Folder, "tracks")).Select(f => Path.Combine("tracks", Path.GetFileName(f)))
            .Order(StringComparer.Ordinal), tracks);
        AssertSameBytes(folder, tracks);
    });

    [Fact, Trait("Category", "Long")]
    public void Truth_is_what_the_generator_writes() => DemoLog.InTemporaryFolder(folder =>
    {
        DemoLog.Season.Write(folder);
        AssertSameBytes(folder, "drops.csv", "landings.csv", "flaws.csv", "truth.csv");
    });

    [Fact]
    public void Seed_is_the_first_whose_design_will_do()
    {
        ulong seed = 1;
        while (!DesignWillDo(new DemoSeason(seed))) seed++;
        Assert.Equal(Planted.Seed, seed);
    }

    /// <summary>The criteria of data-demo/README.md. Where anyone landed must not matter here.</summary>
    private static bool DesignWillDo(DemoSeason season)
    {
        var drops = season.AcceptedLandings.Select(r => r.Drop).Distinct().ToList();
        var missions = drops.Select(d => d.Mission).Distinct().ToList();
        return missions.Count is >= 250 and <= 400
            && Planted.Bands.All(b => drops.Where(d => d.Band == b).Select(d => d.Mission).Distinct().Count() >= 3)
            && Planted.Spotters.All(s => missions.Count(m => m.Spotter == s) >= 15)
            && Planted.Terrains.All(t => Math.Abs(Share(t, 2025) - Share(t, 2026)) <= 0.05);

        double Share(Terrain terrain, int year) => missions.Where(m => m.Season == year).Average(m => m.Terrain == terrain ? 1.0 : 0);
    }

    private static void AssertSameBytes(string folder, params string[] files) => Assert.All(files,
        f => Assert.True(File.ReadAllBytes(Path.Combine(DemoLog.Folder, f)).AsSpan()
            .SequenceEqual(File.ReadAllBytes(Path.Combine(folder, f))),
            $"data-demo/{f} is not what the generator writes: run dotnet run data-demo/generate.cs"));
}
