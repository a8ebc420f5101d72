using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The notebook of the season, run through the built runner once for each question; what it wrote is kept in memory.</summary>
public sealed class SeasonRuns
{
    private static readonly string[] Storms =
        ["--data", Path.Combine(Workshop.Root, "tests", "reference", "storms-2005-2021"), "--bands", "0,5,10,15", "--speed-unit", "kt", "--unit", "nm"];

    public SeasonRuns()
    {
        Task<SeasonRun>[] runs = [Start(), Start(), Start("--seed", "2"), Start(Storms)];
        Task.WaitAll(runs);
        (Demo, DemoAgain, DemoSeed2, OfStorms) = (runs[0].Result, runs[1].Result, runs[2].Result, runs[3].Result);
    }

    internal SeasonRun Demo { get; }

    internal SeasonRun DemoAgain { get; }

    internal SeasonRun DemoSeed2 { get; }

    internal SeasonRun OfStorms { get; }

    internal static Task<SeasonRun> Start(params string[] options) => Task.Run(() =>
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        var outcome = workshop.Run(["season-accuracy", .. options]);
        var root = workshop.At("out");
        var files = Directory.Exists(root) ? Directory.GetFiles(root, "*", SearchOption.AllDirectories) : [];
        return new SeasonRun(outcome, files.ToDictionary(f => Path.GetRelativePath(root, f).Replace('\\', '/'), File.ReadAllText));
    });
}

/// <summary>What one run gave: its outcome and its files by relative path.</summary>
internal sealed record SeasonRun(Outcome Outcome, IReadOnlyDictionary<string, string> Files)
{
    public string Html => Files["season-accuracy.html"];

    public (string[] Header, List<Dictionary<string, string>> Rows) Table(string name) => Csv.Read(Files[$"tables/{name}.csv"]);
}
