using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The notebook of the season, run through the built runner once for each question; what it wrote is kept in memory.</summary>
public sealed class SeasonRuns
{
    private static readonly string[] Storms =
        ["--data", Path.Combine(Workshop.Root, "tests", "reference", "storms-2005-2021"), "--bands", "0,5,10,15",
            "--speed-unit", "kt", "--unit", "nm"];

    public SeasonRuns()
    {
        Task<ReportRun>[] runs = [ReportRun.OnceAsync("season-accuracy"), Start(), Start("--seed", "2"), Start(Storms)];
        Task.WaitAll(runs);
        (Demo, DemoAgain, DemoSeed2, OfStorms) = (runs[0].Result, runs[1].Result, runs[2].Result, runs[3].Result);
    }

    internal ReportRun Demo { get; }

    internal ReportRun DemoAgain { get; }

    internal ReportRun DemoSeed2 { get; }

    internal ReportRun OfStorms { get; }

    internal static Task<ReportRun> Start(params string[] options) => ReportRun.StartAsync("season-accuracy", options);
}
