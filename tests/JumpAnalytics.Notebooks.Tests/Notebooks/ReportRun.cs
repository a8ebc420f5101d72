using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>What one run of a notebook gave: its outcome and its files by relative path.</summary>
internal sealed record ReportRun(string Notebook, Outcome Outcome, IReadOnlyDictionary<string, string> Files)
{
    public string Html => Files[Notebook + ".html"];

    public (string[] Header, List<Dictionary<string, string>> Rows) Table(string name) => Csv.Read(Files[$"tables/{name}.csv"]);

    /// <summary>Runs a notebook of the project through the built runner.</summary>
    public static Task<ReportRun> StartAsync(string notebook, params string[] options) => Task.Run(() =>
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        var outcome = workshop.Run([notebook, .. options]);
        var root = workshop.At("out");
        var files = Directory.Exists(root) ? Directory.GetFiles(root, "*", SearchOption.AllDirectories) : [];
        return new ReportRun(notebook, outcome, files.ToDictionary(f => Path.GetRelativePath(root, f).Replace('\\', '/'), File.ReadAllText));
    });
}
