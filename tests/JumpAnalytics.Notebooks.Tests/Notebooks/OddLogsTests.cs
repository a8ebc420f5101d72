using System.Text.Json.Nodes;
using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Tests;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The notebooks run on odd logs: their own code, figures and frames, not the library's answers alone.</summary>
public sealed class OddLogsTests
{
    private static readonly string[] _few = ["ids that sort oddly", "all beyond"];

    private static readonly string[] _many = ["one landing", "one landing a mission", "all hits", "all on the spot", "all on one line",
        "without run_heading_deg", "without any optional column", "ids that fall in time", "a base with four missions"];

    /// <summary>The questions of the notebook, all in one run: log after log, each with the notebook's own cells.</summary>
    [Fact]
    public void The_notebook_of_questions_runs_on_odd_logs() => Ask(_few);

    [Fact, Trait("Category", "Long")]
    public void The_notebook_of_questions_runs_on_many_odd_logs() => Ask(_many);

    [Theory, Trait("Category", "Long")]
    [InlineData("season-accuracy")]
    [InlineData("spotter-review")]
    [InlineData("spotting-margins")]
    [InlineData("debrief")]
    [InlineData("forecast-review")]
    public void Every_report_runs_on_odd_logs(string notebook)
    {
        foreach (var odd in _few.Concat(_many))
        {
            using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
            OddLogs.Named(odd).WriteTo(workshop.At("log"));
            var outcome = workshop.Report([notebook, "log", .. notebook == "debrief" ? [] : new[] { "--replicates", "200" }]);
            Assert.True(outcome is { ExitCode: 0, Error: "" }, $"{notebook} on {odd}: {outcome.Error}");
        }
    }

    /// <summary>Every figure that belongs to an answer is drawn, or says why there is nothing to draw.</summary>
    [Fact]
    public void Figures_are_drawn_for_odd_logs() => Draw([.. _few, .. _many], all: false);

    [Fact, Trait("Category", "Long")]
    public void Every_figure_is_drawn_for_every_odd_log() => Draw([.. OddLogs.All.Select(l => l.Name)], all: true);

    private static void Draw(string[] odd, bool all)
    {
        var faults = odd.SelectMany(n => OddAnswers.Faults(OddLogs.Named(n), Illustrations.WriteHtml, static _ => { }, all)).ToList();
        Assert.True(faults.Count == 0, string.Join("\n", faults));
    }

    private static void Ask(string[] odd)
    {
        using var workshop = new Workshop(withLibrary: true);
        var cells = JsonNode.Parse(File.ReadAllText(Path.Combine(Workshop.Root, "notebooks", "questions.ipynb")))!["cells"]!.AsArray()
            .Where(c => (string?)c!["cell_type"] == "code")
            .Select(c => string.Concat(c!["source"]!.AsArray().Select(l => (string)l!))).ToList();
        var code = cells.Take(2).ToList(); // the library, and the parameters
        foreach (var name in odd)
        {
            var folder = name.Replace(' ', '-');
            OddLogs.Named(name).WriteTo(workshop.At("notebooks", folder));
            code.Add($"data = \"{folder}\";");
            code.AddRange(cells.Skip(2));
        }
        workshop.Write("questions", [.. code.Select(c => Toy.Code(c))]);
        var outcome = workshop.Report("questions");
        Assert.True(outcome is { ExitCode: 0, Error: "" }, outcome.Output[^Math.Min(600, outcome.Output.Length)..] + outcome.Error);
        Assert.DoesNotContain("NaN", workshop.Read("out", "questions.html").Replace("isNaN", "", StringComparison.Ordinal)
            .Split("<script", 2)[0], StringComparison.Ordinal);
    }
}
