using System.Net;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The season report as one to hand on, from the command line to its files.</summary>
public class SharedReportTests(SharedRun shared) : IClassFixture<SharedRun>
{
    private ReportRun Run => shared.Run;

    [Fact]
    public void Only_tables_that_give_no_cell_away_are_written()
    {
        Assert.Equal((0, ""), (Run.Outcome.ExitCode, Run.Outcome.Error));
        Assert.Equal(
            ["files-read", "quarantine-by-reason", "rates-by-cell-shared", "settings"],
            Run.Files.Keys.Where(f => f.StartsWith("tables/", StringComparison.Ordinal)).Select(Path.GetFileNameWithoutExtension)
                .Order(StringComparer.Ordinal));
        Assert.DoesNotContain("<figure>", Run.Html);
    }

    [Fact]
    public void No_person_of_the_log_and_no_remark_is_in_any_file()
    {
        var log = File.ReadAllText(Path.Combine(Workshop.Root, "data-demo", "landings.csv"))
            + File.ReadAllText(Path.Combine(Workshop.Root, "data-demo", "drops.csv"));
        Assert.True(Regex.IsMatch(log, @"\bJ\d\d\b") && Regex.IsMatch(log, @"\bS0\d\b")
            && log.Contains("called off") && log.Contains("slid, no harm"));
        foreach (var (name, text) in Run.Files)
        {
            var read = Regex.Replace(text, "'[A-Za-z0-9+/=]{100000,}'", "''"); // the packed chart library
            Assert.DoesNotMatch(@"\b(J\d\d|S0\d)\b", read); // the demo's codes of jumpers and spotters
            Assert.DoesNotMatch(@"\b202\d-\d\d\d\b", read); // its missions and drops
            // Its remarks in ragged rows.
            Assert.False(read.Contains("called off", StringComparison.Ordinal) || read.Contains("slid, no harm", StringComparison.Ordinal),
                name);
        }
    }

    [Fact]
    public void Cells_of_few_people_are_withheld_and_the_reader_is_told()
    {
        var rows = Run.Table("rates-by-cell-shared").Rows;
        var withheld = rows.Where(r => r["note"] == "withheld: few people").ToList();
        Assert.NotEmpty(withheld);
        Assert.True(withheld.Count < rows.Count / 2);
        Assert.All(withheld, r => Assert.Equal(3, r.Values.Count(v => v != "")));
        var page = WebUtility.HtmlDecode(Run.Html);
        Assert.Contains("are withheld: fewer than 5 people", page);
        Assert.Contains("Withheld: the log is for sharing", page);
        Assert.Contains("They give no authority to jump", page);
    }
}

/// <summary>One run of the shared report on the demo season.</summary>
public sealed class SharedRun
{
    public SharedRun() => Run = SeasonRuns.Start("--shared", "true").GetAwaiter().GetResult();

    internal ReportRun Run { get; }
}
