using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Demo;

/// <summary>The demo season as it lies in data-demo, read by the library, and as its generator makes it.</summary>
internal static class DemoLog
{
    public static string Folder { get; } = FindFolder();

    public static JumpLog Log { get; } = JumpLog.Read(Folder);

    public static DemoSeason Season { get; } = WithTracksNamed(new(Planted.Seed));

    /// <summary>The rows of one of the generator's own tables, without its header.</summary>
    public static IEnumerable<string[]> Rows(string file) => File.ReadLines(Path.Combine(Folder, file)).Skip(1).Select(l => l.Split(','));

    public static void InTemporaryFolder(Action<string> act)
    {
        var folder = Directory.CreateTempSubdirectory("jump-demo-").FullName;
        try
        {
            act(folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Making the tracks writes to the rows, which tests that run at once share.</summary>
    private static DemoSeason WithTracksNamed(DemoSeason season)
    {
        _ = season.Tracks;
        return season;
    }

    private static string FindFolder()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "JumpAnalytics.sln"))) return Path.Combine(at.FullName, "data-demo");
        }
        throw new DirectoryNotFoundException("JumpAnalytics.sln lies in no folder above the tests.");
    }
}
