using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The debrief of one mission and the review of forecasts, from the command line to their files.</summary>
public class DebriefAndForecastsTests(DebriefAndForecasts runs) : IClassFixture<DebriefAndForecasts>
{
    private static readonly string[] _debriefTables =
        ["against-history", "as-planned", "debrief-settings", "descent-tracks", "miss-budget", "reach", "reach-by-height",
            "review-questions", "streamer-drifts", "streamer-winds", "wind-found"];

    private static readonly string[] _forecastTables =
        ["error-sources", "forecast-check", "forecast-review-settings", "source-improvements", "streamer-vectors",
            "three-rates-tracked", "track-inventory", "track-oddities"];

    private IEnumerable<ReportRun> All => [runs.Debrief, runs.Bare, runs.Forecasts];

    [Fact]
    public void Runs_give_report_notebook_and_tables()
    {
        foreach (var run in All)
        {
            Assert.Equal(("", 0), (run.Outcome.Error, run.Outcome.ExitCode));
            Assert.DoesNotContain("class=\"error\"", run.Html);
            Assert.DoesNotContain("NaN",
                string.Concat(run.Files.Where(f => f.Key.EndsWith(".csv", StringComparison.Ordinal)).Select(f => f.Value)));
            Assert.All(run.Files, f => Assert.DoesNotContain(Workshop.Root, f.Value));
            Assert.Contains("They give no authority to jump", WebUtility.HtmlDecode(run.Html));
        }
        Assert.Equal(_debriefTables, Tables(runs.Debrief));
        Assert.Equal(_debriefTables.Except(["reach", "wind-found"]), Tables(runs.Bare)); // no track, less to say
        Assert.Equal(_forecastTables, Tables(runs.Forecasts));
        Assert.Empty(_debriefTables.Concat(_forecastTables).Intersect(SeasonAccuracyTests.TableNames)); // they are written side by side
        Assert.Empty(_debriefTables.Intersect(_forecastTables));

        static IEnumerable<string> Tables(ReportRun run) => run.Files.Keys.Where(f => f.StartsWith("tables/", StringComparison.Ordinal))
            .Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal);
    }

    [Fact]
    public void The_same_run_gives_the_same_bytes()
    {
        Assert.Equal(runs.Debrief.Files.Keys.Order(StringComparer.Ordinal), runs.DebriefAgain.Files.Keys.Order(StringComparer.Ordinal));
        Assert.All(runs.Debrief.Files, file => Assert.True(file.Value == runs.DebriefAgain.Files[file.Key], file.Key + " differs"));
    }

    [Fact]
    public void The_debrief_answers_section_by_section()
    {
        Assert.Equal(
            ["In brief", "Map", "Where each miss came from", "The wind, forecast and found", "What went as planned, and what did not",
                "Against this base's history", "What a canopy could still have reached", "Questions for the review", "The tracks",
                "Cautions", "What was read and asked for"],
            Regex.Matches(runs.Debrief.Html, "<h2[^>]*>(.*?)</h2>").Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)));
        // No jumper's code.
        Assert.DoesNotMatch(@"\bJ\d\d\b",
            WebUtility.HtmlDecode(Regex.Replace(runs.Debrief.Html, "<script.*?</script>", "", RegexOptions.Singleline)));
        Assert.Contains("No descent track tells the wind of this mission", WebUtility.HtmlDecode(runs.Bare.Html));
        Assert.Contains("What is worth keeping?", WebUtility.HtmlDecode(runs.Bare.Html));
    }

    /// <summary>
    /// The default mission is the last with a usable track; its parts add up, and the truth of its tracks (data-demo/track-truth.csv)
    /// lies in the intervals of most.
    /// </summary>
    [Fact]
    public void The_demo_mission_is_parted_and_its_truth_lies_in_the_intervals()
    {
        var rows = runs.Debrief.Table("miss-budget").Rows;
        Assert.Equal(8, rows.Count);
        foreach (var r in rows)
        {
            foreach (var axis in new[] { "downwind", "right" })
                Assert.Equal(Number(r[$"{axis}_yd"]),
                    Number(r[$"exit_{axis}_yd"]) + Number(r[$"forecast_error_{axis}_yd"]) + Number(r[$"steering_{axis}_yd"]), 6);
        }
        var truth = File.ReadLines(Path.Combine(Workshop.Root, "data-demo", "track-truth.csv")).Skip(1).Select(l => l.Split(','))
            .Where(t => t[1].StartsWith("2026-104", StringComparison.Ordinal)).ToDictionary(t => (t[1], t[2]));
        var drops = File.ReadLines(Path.Combine(Workshop.Root, "data-demo", "drops.csv")).Skip(1).Select(l => l.Split(','))
            .Where(d => d[0].StartsWith("2026-104", StringComparison.Ordinal)).ToDictionary(d => d[0], d => Number(d[13]));
        var held = rows.Count(r =>
        {
            var (t, turn) = (truth[(r["drop_id"], r["exit_order"])], double.DegreesToRadians(drops[r["drop_id"]]));
            var along = (Number(t[11]) * Math.Sin(turn) + Number(t[12]) * Math.Cos(turn)) / 0.9144;
            return along >= Number(r["steering_downwind_yd_low"]) && along <= Number(r["steering_downwind_yd_high"]);
        });
        Assert.InRange(held, 6, 8); // 95 % intervals; fewer than 6 of 8 by chance in 1 of 170
    }

    [Fact]
    public void Each_figure_has_words_data_and_a_caption()
    {
        foreach (var (run, least) in new[] { (runs.Debrief, 7), (runs.Bare, 2), (runs.Forecasts, 1) })
        {
            var figures = Regex.Matches(run.Html, "<div class=\"ja-figure\">.*?</details></div>", RegexOptions.Singleline)
                .Select(m => m.Value).ToList();
            Assert.True(figures.Count >= least, $"{run.Notebook}: {figures.Count} figures");
            Assert.All(figures, f => Assert.Matches("role=\"img\" aria-label=\"[^\"]{20,}\"", f));
            Assert.All(figures, f => Assert.Contains("<summary>Data of this figure</summary>", f));
        }
    }

    [Fact]
    public void The_forecasts_of_the_demo_are_split_and_checked()
    {
        var sources = runs.Forecasts.Table("error-sources").Rows.ToDictionary(r => r["source"]);
        Assert.Equal(7, sources.Count);
        Assert.InRange(sources.Values.Sum(r => Number(r["variance_share"])), 0.999, 1.001);
        Assert.True(Number(sources["forecast error of one pass"]["variance_share_low"]) > 0);
        Assert.Equal("jumper's own part with unrecorded measuring error", runs.Forecasts.Table("source-improvements").Rows[0]["source"]);
        Assert.Contains(runs.Forecasts.Table("forecast-check").Rows,
            r => r["checked"] == "forecast error, by track" && r["wind_band"] == "all");
        Assert.Equal("43", runs.Forecasts.Table("track-inventory").Rows[0]["tracks"]);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}

/// <summary>Runs of both notebooks; what they wrote is kept in memory.</summary>
public sealed class DebriefAndForecasts
{
    private static readonly string[] _storms =
        ["--data", Path.Combine(Workshop.Root, "tests", "reference", "storms-2005-2021"), "--unit", "nm", "--speed-unit", "kt"];

    public DebriefAndForecasts()
    {
        var (debrief, again) = (ReportRun.OnceAsync("debrief"), ReportRun.StartAsync("debrief"));
        Task.WaitAll(debrief, again);
        var (bare, forecasts) = (ReportRun.StartAsync("debrief", _storms), ReportRun.OnceAsync("forecast-review"));
        Task.WaitAll(bare, forecasts);
        (Debrief, DebriefAgain, Bare, Forecasts) = (debrief.Result, again.Result, bare.Result, forecasts.Result);
    }

    internal ReportRun Debrief { get; }

    internal ReportRun DebriefAgain { get; }

    internal ReportRun Bare { get; }

    internal ReportRun Forecasts { get; }
}
