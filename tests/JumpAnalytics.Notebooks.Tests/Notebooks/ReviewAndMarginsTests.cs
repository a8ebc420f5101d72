using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The trainer's and the base manager's notebooks, from the command line to their files.</summary>
public class ReviewAndMarginsTests(ReviewAndMargins runs) : IClassFixture<ReviewAndMargins>
{
    private static readonly string[] _reviewTables =
    [
        "fair-comparison", "mission-landings", "review-settings", "spotter-bias", "spotter-chart-points", "spotter-chart-signals",
        "spotter-charts", "spotter-directions", "spotter-drift-slope", "spotter-frames",
        "spotter-influence", "spotter-learning", "spotter-scatter", "spotter-spread",
    ];

    private static readonly string[] _marginTables =
    [
        "age-classes", "age-effects", "age-growth", "age-law", "clearing", "cost-shift", "exit-shifts", "largest-stick",
        "margin-backtest", "margin-settings", "margins", "stick-calibration", "stick-model", "stick-sizes", "what-if",
    ];

    private IEnumerable<ReportRun> All => [runs.Review, runs.Margins, runs.ReviewOfStorms, runs.MarginsOfStorms];

    [Fact]
    public void Both_logs_give_report_notebook_and_tables()
    {
        foreach (var run in All)
        {
            Assert.Equal(("", 0), (run.Outcome.Error, run.Outcome.ExitCode));
            Assert.DoesNotContain("failed", run.Outcome.Output);
            Assert.DoesNotContain("class=\"error\"", run.Html);
        }
        Assert.Equal(_reviewTables, Tables(runs.Review));
        Assert.Equal(_reviewTables, Tables(runs.ReviewOfStorms));
        Assert.Equal(_marginTables, Tables(runs.Margins));
        Assert.Contains("margin-card-quillmark.html", runs.Margins.Files.Keys);
        Assert.Contains("margin-card-base-not-recorded.html", runs.MarginsOfStorms.Files.Keys);

        static IEnumerable<string> Tables(ReportRun run) => run.Files.Keys.Where(f => f.StartsWith("tables/", StringComparison.Ordinal))
            .Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal);
    }

    [Fact]
    public void No_two_notebooks_give_tables_of_one_name() // they are written side by side
    {
        Assert.Empty(_reviewTables.Intersect(_marginTables));
        Assert.Empty(_reviewTables.Concat(_marginTables).Intersect(SeasonAccuracyTests.TableNames));
    }

    [Fact]
    public void The_pages_answer_section_by_section()
    {
        Assert.Equal(["In brief", "Which way they miss", "The directions of the misses", "In the same conditions", "Over time", "Learning",
            "Which missions drive the pattern", "Cautions", "What was read and asked for"], Headings(runs.Review));
        Assert.Equal(
            ["In brief", "How big a clearing", "This clearing", "How far to move the exit", "When long costs more than short",
                "How large a stick", "How old a forecast", "What if", "What became of earlier margins", "Margin cards",
                "Cautions", "What was read and asked for"],
            Headings(runs.Margins));
        Assert.All(All, run => Assert.Contains("They give no authority to jump", WebUtility.HtmlDecode(run.Html)));

        static IEnumerable<string> Headings(ReportRun run) =>
            Regex.Matches(run.Html, "<h2[^>]*>(.*?)</h2>").Select(m => WebUtility.HtmlDecode(m.Groups[1].Value));
    }

    [Fact]
    public void Every_table_can_be_read_and_nothing_tells_of_the_machine()
    {
        foreach (var (name, text) in All.SelectMany(run => run.Files))
        {
            Assert.DoesNotContain(Workshop.Root, text);
            if (!name.StartsWith("tables/", StringComparison.Ordinal)) continue;
            var (header, _) = Csv.Read(text);
            Assert.All(header, column => Assert.Matches("^[a-z0-9_]+$", column));
            Assert.DoesNotContain("NaN", text);
            Assert.DoesNotContain("Infinity", text);
            Assert.DoesNotContain("∞", text);
        }
    }

    [Fact]
    public void The_same_run_gives_the_same_bytes()
    {
        foreach (var (one, two) in new[] { (runs.Review, runs.ReviewAgain), (runs.Margins, runs.MarginsAgain) })
        {
            Assert.Equal(one.Files.Keys.Order(StringComparer.Ordinal), two.Files.Keys.Order(StringComparer.Ordinal));
            Assert.All(one.Files, file => Assert.True(file.Value == two.Files[file.Key], file.Key + " differs"));
        }
    }

    [Fact]
    public void Each_figure_has_words_data_and_a_caption_with_n()
    {
        foreach (var (run, least) in new[] { (runs.Review, 4), (runs.Margins, 4) })
        {
            var figures = Regex.Matches(run.Html, "<div class=\"ja-figure\">.*?</details></div>", RegexOptions.Singleline)
                .Select(m => m.Value).ToList();
            Assert.True(figures.Count >= least, $"{run.Notebook}: {figures.Count} figures");
            foreach (var figure in figures)
            {
                Assert.Matches("role=\"img\" aria-label=\"[^\"]{20,}\"", figure);
                Assert.Contains("<summary>Data of this figure</summary>", figure);
                Assert.Matches(@"\d missions", figure);
                Assert.Matches(@"\d landings", figure);
            }
        }
    }

    /// <summary>
    /// The planted facts of the demo (data-demo/README.md): S04 lands 22 yd long, ridge lee is wider; how often seasons like it show them
    /// is measured by the tests of the core.
    /// </summary>
    [Fact]
    public void The_planted_facts_of_the_demo_are_found()
    {
        var bias = runs.Review.Table("spotter-bias").Rows.ToDictionary(r => r["spotter"]);
        Assert.InRange(22, Number(bias["S04"]["bias_downwind_yd_low"]), Number(bias["S04"]["bias_downwind_yd_high"]));
        Assert.True(Number(bias["S04"]["bias_downwind_yd_low"]) > 0);
        var fair = runs.Review.Table("fair-comparison").Rows.ToDictionary(r => r["spotter"]);
        Assert.True(Number(fair["S04"]["off_expected_high"]) < 0);
        Assert.All(fair.Where(s => s.Key != "S04"), s => Assert.True(Number(s.Value["off_expected_high"]) > 0));
        Assert.Contains(runs.Review.Table("spotter-chart-signals").Rows,
            r => r["missions_of"] == "spotter S04" && r["direction"] == "long");

        var margins = runs.Margins.Table("margins").Rows.ToDictionary(r => (r["wind_band"], r["terrain"]));
        foreach (var band in new[] { "0-5", "5-10", "10-15" })
            Assert.True(Number(margins[(band, "ridge lee")]["radius_90_yd"]) > Number(margins[(band, "open timber")]["radius_90_yd"]));
        Assert.True(Number(margins[("all", "ridge lee")]["radius_50_yd"]) > Number(margins[("all", "meadow")]["radius_50_upper_yd"]));
        Assert.Equal(20, runs.MarginsOfStorms.Table("margins").Rows.Count); // 4 bands by 3 terrains, 7 margins, all
    }

    [Fact]
    public void The_card_stands_alone_in_black_on_white_with_its_cautions()
    {
        var card = runs.Margins.Files["margin-card-quillmark.html"];
        Assert.DoesNotMatch(@"(?i)https?:|<(script|link|iframe|img)\b|url\(|@import", card);
        Assert.DoesNotMatch("#(?!000\\b|fff\\b|39;)[0-9a-f]{3,6}", card);
        Assert.Contains("Statistics of finished jumps, not a rule and no authority to jump.", card);
        Assert.Contains("The agency&#39;s current operations guide", card);
        Assert.Contains("no real base, place, person or incident is meant", card);
        Assert.Contains("327 missions, 1,487 landings", card);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}

/// <summary>Runs of both notebooks on both logs; what they wrote is kept in memory.</summary>
public sealed class ReviewAndMargins
{
    private static readonly string[] _storms =
        ["--data", Path.Combine(Workshop.Root, "tests", "reference", "storms-2005-2021"), "--bands", "0,5,10,15", "--speed-unit", "kt",
            "--unit", "nm", "--replicates", "500"];

    internal static readonly string[] Fewer = ["--replicates", "500"];

    public ReviewAndMargins()
    {
        Task<ReportRun>[] started =
        [
            ReportRun.OnceAsync("spotter-review", Fewer), ReportRun.StartAsync("spotter-review", Fewer),
            ReportRun.StartAsync("spotter-review", _storms),
            ReportRun.OnceAsync("spotting-margins", Fewer), ReportRun.StartAsync("spotting-margins", Fewer),
            ReportRun.StartAsync("spotting-margins", _storms),
        ];
        Task.WaitAll(started);
        (Review, ReviewAgain, ReviewOfStorms) = (started[0].Result, started[1].Result, started[2].Result);
        (Margins, MarginsAgain, MarginsOfStorms) = (started[3].Result, started[4].Result, started[5].Result);
    }

    internal ReportRun Review { get; }

    internal ReportRun ReviewAgain { get; }

    internal ReportRun ReviewOfStorms { get; }

    internal ReportRun Margins { get; }

    internal ReportRun MarginsAgain { get; }

    internal ReportRun MarginsOfStorms { get; }
}
