using System.Collections.Concurrent;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>What one run of a notebook gave: its outcome and its files by relative path.</summary>
internal sealed record ReportRun(string Notebook, Outcome Outcome, IReadOnlyDictionary<string, string> Files)
{
    public string Html => Files[Notebook + ".html"];

    public (string[] Header, List<Dictionary<string, string>> Rows) Table(string name) => Csv.Read(Files[$"tables/{name}.csv"]);

    private static readonly ConcurrentDictionary<string, Lazy<Task<ReportRun>>> _once = new();

    /// <summary>Runs a notebook of the project once for all tests that ask for it with the same options.</summary>
    public static Task<ReportRun> OnceAsync(string notebook, params string[] options) =>
        _once.GetOrAdd($"{notebook} {string.Join(' ', options)}", _ => new(() => StartAsync(notebook, options))).Value;

    /// <summary>Runs a notebook of the project through the built runner.</summary>
    public static Task<ReportRun> StartAsync(string notebook, params string[] options) => Task.Run(() =>
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        var outcome = workshop.Report([notebook, .. options]);
        var root = workshop.At("out");
        var files = Directory.Exists(root) ? Directory.GetFiles(root, "*", SearchOption.AllDirectories) : [];
        return new ReportRun(notebook, outcome,
            files.ToDictionary(f => Path.GetRelativePath(root, f).Replace('\\', '/'), File.ReadAllText));
    });
}
