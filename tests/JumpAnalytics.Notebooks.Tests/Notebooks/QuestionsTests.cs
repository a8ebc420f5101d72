using System.Text.Json.Nodes;
using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The notebook of questions answers each of them, in as few lines as it says.</summary>
public sealed class QuestionsTests
{
    private static readonly string[] _beforeTheQuestions = ["setup", "parameters", "log"];

    [Fact]
    public void Each_question_is_asked_in_one_to_three_lines()
    {
        var cells = JsonNode.Parse(File.ReadAllText(Path.Combine(Workshop.Root, "notebooks", "questions.ipynb")))!["cells"]!.AsArray();
        var questions = cells.Where(c => (string?)c!["cell_type"] == "code" && !_beforeTheQuestions.Contains((string?)c["id"])
            && (string?)c["id"] != "cautions").ToList();
        Assert.Equal(12, questions.Count);
        Assert.All(questions, q => Assert.InRange(q!["source"]!.AsArray().Count, 1, 3));
        Assert.All(questions, q => Assert.EndsWith("?", ((string)cells[q!.GetElementIndex() - 1]!["source"]![0]!).TrimEnd()));
    }

    [Fact]
    public async Task Each_question_has_an_answer_that_can_be_read()
    {
        var run = await ReportRun.OnceAsync("questions");
        Assert.Equal("", run.Outcome.Error);
        var executed = Notebook.Parse("questions", run.Files["questions.ipynb"]);
        foreach (var cell in executed.CodeCells.Where(c => !c.Tags.Contains(NotebookCell.ParametersTag)))
        {
            var html = string.Concat(cell.Outputs.Select(o => NotebookCell.Text(o["data"]?["text/html"])));
            Assert.True(html.Length > 100, cell.Source);
            Assert.DoesNotContain("dni-treeview", html);
        }
        // by hand on the demo's own table: landings of each group and all are those of the rate table
        var all = run.Table("landings-by-group").Rows.Single(r => r["group"] == "all");
        var rates = run.Table("rates-by-cell").Rows.Single(r => r is { } row && row["wind_band"] == "all" && row["terrain"] == "all");
        Assert.Equal((rates["landings"], rates["hits"], rates["missions"]), (all["landings"], all["hits"], all["missions"]));
        Assert.Equal(["landings-by-group", "rate-difference", "rate-difference-2"], run.Files.Keys.Select(k =>
            Path.GetFileNameWithoutExtension(k))
            .Where(k => k.StartsWith("landings-by-group", StringComparison.Ordinal)
                || k.StartsWith("rate-difference", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Contains("no authority to jump", run.Html);
    }

    /// <summary>A second table of one name is numbered; in the reports every name is used once.</summary>
    [Fact]
    public async Task No_report_gives_two_tables_of_one_name()
    {
        var runs = await Task.WhenAll(ReportRun.OnceAsync("season-accuracy"),
            ReportRun.OnceAsync("debrief"), ReportRun.OnceAsync("forecast-review"),
            ReportRun.OnceAsync("spotter-review", ReviewAndMargins.Fewer), ReportRun.OnceAsync("spotting-margins", ReviewAndMargins.Fewer));
        Assert.All(runs.SelectMany(r => r.Files.Keys).Where(k => k.StartsWith("tables/", StringComparison.Ordinal)),
            k => Assert.DoesNotMatch(@"-\d\.csv$", k));
    }
}
