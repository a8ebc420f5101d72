using System.Net;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>Reports of a part of the records, from the command line to their files.</summary>
public sealed class PartOfLogTests
{
    [Fact]
    public async Task A_report_of_a_part_says_what_part_it_is()
    {
        var run = await ReportRun.OnceAsync("debrief", "--where", "terrain!=meadow, canopy=ram-air|round", "--base", "Quillmark");
        Assert.Equal(("", 0), (run.Outcome.Error, run.Outcome.ExitCode));
        const string part = "terrain!=meadow, canopy=ram-air|round; base=Quillmark";
        Assert.Equal(part, run.Table("debrief-settings").Rows.Single(r => r["setting"] == "part")["value"]);
        Assert.Equal($"data-demo where {part}", run.Table("debrief-settings").Rows.Single(r => r["setting"] == "log")["value"]);
        Assert.Contains($"A part of the records, where {part}", WebUtility.HtmlDecode(run.Html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_base_or_value_is_refused_with_the_nearest_before_anything_is_computed()
    {
        var runs = await Task.WhenAll(ReportRun.OnceAsync("debrief", "--base", "Quilmark"),
            ReportRun.OnceAsync("debrief", "--where", "terain=meadow"));
        Assert.All(runs, r => Assert.NotEqual(0, r.Outcome.ExitCode));
        Assert.Contains("did you mean Quillmark?", runs[0].Outcome.Error + runs[0].Outcome.Output, StringComparison.Ordinal);
        Assert.Contains("did you mean terrain?", runs[1].Outcome.Error + runs[1].Outcome.Output, StringComparison.Ordinal);
        Assert.All(runs, r => Assert.DoesNotContain(r.Files.Keys, k => k.StartsWith("tables/", StringComparison.Ordinal)));
    }
}
