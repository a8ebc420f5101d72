using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The season notebook from the command line to its files.</summary>
public class SeasonAccuracyTests(SeasonRuns runs) : IClassFixture<SeasonRuns>
{
    internal static readonly string[] TableNames =
    [
        "backtest", "claim", "claim-planning", "coverage", "drops-without-landings", "files-read", "forecast-rate-by-steering",
        "forecast-share", "held-shares", "landings", "landings-fitted-normal",
        "miss-model-parameters", "miss-models", "misses-by-season", "quarantine", "quarantine-by-reason", "radial-quantiles",
        "rate-readings", "rates-by-cell", "record-flag-rows", "record-flags", "reliability",
        "season-changes", "season-drift", "season-trend", "seasons", "settings", "three-rates", "values-noted", "values-set-aside",
    ];

    private IEnumerable<ReportRun> Both => [runs.Demo, runs.OfStorms];

    [Fact]
    public void Both_logs_give_report_notebook_and_tables()
    {
        foreach (var run in Both)
        {
            Assert.Equal("", run.Outcome.Error);
            Assert.Equal(0, run.Outcome.ExitCode);
            Assert.DoesNotContain("failed", run.Outcome.Output);
            Assert.Equal(
                TableNames.Select(t => $"tables/{t}.csv").Concat(["season-accuracy.ipynb", "season-accuracy.html"])
                    .Concat(run == runs.Demo ? ["drops-quarantine.csv", "landings-quarantine.csv"] : []).Order(StringComparer.Ordinal),
                run.Files.Keys.Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void No_cell_failed_and_each_ran_in_its_turn()
    {
        foreach (var run in Both)
        {
            var cells = JsonNode.Parse(run.Files["season-accuracy.ipynb"])!["cells"]!.AsArray()
                .Where(c => (string?)c!["cell_type"] == "code").ToList();
            Assert.Equal(Enumerable.Range(1, cells.Count), cells.Select(c => (int)c!["execution_count"]!));
            var outputs = cells.SelectMany(c => c!["outputs"]!.AsArray()).ToList();
            // The assets, the brief, five of the intake, the record checks, glance, rates, claim, three rates, changes and trend, scatter,
            // distributions, backtest, what the intervals are worth, conclusions, cautions, settings.
            Assert.Equal(1 + 1 + 5 + 1 + 2 + 2 + 2 + 3 + 1 + 3, outputs.Count);
            Assert.All(outputs, o => Assert.Contains((string?)o!["output_type"], new[] { "display_data", "execute_result" }));
        }
    }

    [Fact]
    public void Every_row_read_is_accepted_or_quarantined()
    {
        // Demo: the sums of its list of flaws. Storms: 3785 drops and as many landings, none flawed (lines of the files less the header).
        Assert.Equal([("drops.csv", 678, 653, 25), ("landings.csv", 1534, 1487, 47)], Intake(runs.Demo));
        Assert.Equal([("drops.csv", 3785, 3785, 0), ("landings.csv", 3785, 3785, 0)], Intake(runs.OfStorms));
        Assert.All(Both.SelectMany(Intake), f => Assert.Equal(f.Read, f.Accepted + f.Quarantined));

        var byReason = runs.Demo.Table("quarantine-by-reason").Rows.Sum(r => Whole(r["rows"]));
        Assert.Equal(25 + 47, byReason);

        static IEnumerable<(string File, int Read, int Accepted, int Quarantined)> Intake(ReportRun run) =>
            run.Table("files-read").Rows
                .Select(r => (r["file"], Whole(r["rows_read"]), Whole(r["rows_accepted"]), Whole(r["rows_quarantined"])));
    }

    [Fact]
    public void Every_table_can_be_read_and_says_nothing_of_the_machine()
    {
        foreach (var (name, text) in Both.SelectMany(run => run.Files.Where(f => f.Key.StartsWith("tables/", StringComparison.Ordinal))))
        {
            var (header, rows) = Csv.Read(text);
            Assert.All(header, column => Assert.Matches("^[a-z0-9_]+$", column));
            Assert.DoesNotContain("NaN", text);
            Assert.DoesNotContain("\r", text);
            Assert.EndsWith("\n", text);
            if (name is "tables/rates-by-cell.csv" or "tables/landings.csv" or "tables/seasons.csv") Assert.NotEmpty(rows);
        }
        Assert.All(Both.SelectMany(run => run.Files.Values), text => Assert.DoesNotContain(Workshop.Root, text));
    }

    [Fact]
    public void The_rate_table_has_its_columns()
    {
        foreach (var (run, unit) in new[] { (runs.Demo, "yd"), (runs.OfStorms, "nm") })
        {
            Assert.Equal(
                ["wind_band", "terrain", "missions", "landings", "hits", "rate", "rate_low", "rate_high", "design_effect",
                    "model_rate", "model_rate_low", "model_rate_high", "pooled_rate", "pooled_rate_low", "pooled_rate_high", "pulled",
                    "benchmark", "target_radius_" + unit, "note"],
                run.Table("rates-by-cell").Header);
        }
    }

    [Fact]
    public void Rates_of_the_storms_equal_the_reference()
    {
        // reference.csv: counts, rates and design effects with missions as clusters, computed outside this library.
        var rates = runs.OfStorms.Table("rates-by-cell").Rows.ToDictionary(r => (r["wind_band"], r["terrain"]));
        Assert.Equal(20, rates.Count); // 4 bands by 3 terrains, 7 margins, all
        var compared = 0;
        foreach (var entry in Reference())
        {
            if (Column(entry["quantity"]) is not { } column) continue;
            var (expected, found) = (Number(entry["value"]), Number(rates[Place(entry["cell"])][column]));
            Assert.True(Math.Abs(found - expected) <= 1e-9 * Math.Abs(expected),
                $"{entry["cell"]} {column}: {found} instead of {expected}");
            compared++;
        }
        Assert.Equal(20 * 5, compared);

        static string? Column(string quantity) => quantity switch
        {
            "landings" or "missions" or "hits" or "design_effect" => quantity,
            "hit_rate" => "rate",
            _ => null,
        };
    }

    [Fact]
    public void The_normal_fitted_to_the_storms_has_the_moments_of_the_reference()
    {
        var all = Reference().Where(e => e["cell"] == "all").ToDictionary(e => e["quantity"], e => Number(e["value"]));
        var row = Assert.Single(runs.OfStorms.Table("landings-fitted-normal").Rows);
        Near(all["mean_downwind"], row["mean_downwind_nm"]);
        Near(all["mean_right"], row["mean_right_nm"]);
        Near(Math.Sqrt(all["var_downwind"]), row["sd_downwind_nm"]);
        Near(Math.Sqrt(all["var_right"]), row["sd_right_nm"]);
        Near(all["cov"] / Math.Sqrt(all["var_downwind"] * all["var_right"]), row["correlation"]);

        var misses = runs.OfStorms.Table("misses-by-season").Rows.Single(r => r["season"] == "all");
        foreach (var percent in new[] { 50, 85, 95 }) Near(all[$"q{percent}_type8"], misses[$"miss_{percent}_nm"]);

        static void Near(double expected, string found) => Assert.Equal(expected, Number(found), 1e-9 * Math.Abs(expected));
    }

    [Fact]
    public void The_page_fetches_nothing()
    {
        foreach (var run in Both)
        {
            // The packed chart library is a text of base64 letters; it is looked into elsewhere.
            var page = Regex.Replace(run.Html, "'[A-Za-z0-9+/=]{100000,}'", "''");
            Assert.True(run.Html.Length - page.Length > 1_000_000);
            Assert.DoesNotMatch(@"https?:", page);
            Assert.DoesNotMatch(@"(?i)<(link|iframe|object|embed|img|base|audio|video)\b|@import|url\(|\bsrcset=|\bsrc=|\bposter=", page);
            Assert.All(Regex.Matches(page, "href=\"([^\"]*)\"").Select(m => m.Groups[1].Value),
                target => Assert.Matches("^#(content|section-[0-9]+)$", target));
            Assert.Contains("default-src 'none'", page);
        }
    }

    [Fact]
    public void The_page_answers_section_by_section()
    {
        foreach (var run in Both)
        {
            Assert.Equal(
                [
                    "In brief", "What was read and what was refused", "Do the records hold together?", "The season at a glance",
                    "Landing rate by wind band and terrain", "Does the claim hold?",
                    "Three questions that are never mixed", "Season against season", "Where the landings lie", "How the landings miss",
                    "Forecasts of seasons not yet seen", "What these intervals are worth",
                    "What can and can't be concluded", "Cautions", "What was read and asked for",
                ],
                Regex.Matches(run.Html, "<h2[^>]*>(.*?)</h2>").Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)));
            Assert.DoesNotContain("class=\"error\"", run.Html);
            Assert.DoesNotContain("class=\"stderr\"", run.Html);
        }
        // 1241 of 1483 in rates-by-cell.
        Assert.Contains("84 % (81 to 86 %) of landings came down inside the target radius", WebUtility.HtmlDecode(runs.Demo.Html));
        Assert.Equal("1241", runs.Demo.Table("rates-by-cell").Rows[^1]["hits"]);
        Assert.Equal("1483", runs.Demo.Table("rates-by-cell").Rows[^1]["landings"]);
    }

    [Fact]
    public void Cautions_are_in_every_report()
    {
        foreach (var run in Both)
        {
            var cautions = WebUtility.HtmlDecode(run.Html[run.Html.IndexOf(">Cautions</h2>", StringComparison.Ordinal)..]);
            Assert.Contains("They give no authority to jump", cautions);
            Assert.Contains("The agency's current operations guide", cautions);
            Assert.Contains("Small samples", cautions);
            Assert.Contains("Recording bias", cautions);
            Assert.Contains("must not be used alone for qualification, discipline or pay", cautions);
            Assert.Contains("Not reviewed or endorsed by any agency", cautions);
        }
        // flaws.csv: 38 for themselves, 9 with their drop.
        Assert.Contains("47 landing rows could not be used, 9 of them hang-ups", WebUtility.HtmlDecode(runs.Demo.Html));
    }

    [Fact]
    public void Each_figure_has_words_data_and_a_caption_with_n()
    {
        foreach (var (run, n) in new[] { (runs.Demo, "1,483 landings"), (runs.OfStorms, "3,785 landings") })
        {
            var figures = Regex.Matches(run.Html, "<div class=\"ja-figure\">.*?</details></div>", RegexOptions.Singleline)
                .Select(m => m.Value).ToList();
            Assert.Equal(7, figures.Count); // seasons, heat map, forest, scatter, shares, quantiles, reliability
            foreach (var figure in figures)
            {
                Assert.Matches("role=\"img\" aria-label=\"[^\"]{20,}\"", figure);
                Assert.Contains("<summary>Data of this figure</summary>", figure);
                // The scatter shows landings with a place: in the demo 5 misses are known only as beyond the radius, which the quantiles
                // count with 4 more beyond less than that. Reliability: landings of all seasons but the first.
                var own = figure.Contains("downwind frame", StringComparison.Ordinal) && run == runs.Demo ? "1,478 landings"
                    : (figure.Contains("fitted distance", StringComparison.Ordinal)
                        || figure.Contains("nearer by the distribution", StringComparison.Ordinal)) && run == runs.Demo ? "1,487 landings"
                    : figure.Contains("isotonic", StringComparison.Ordinal) ? run == runs.Demo ? "991 landings" : "3,393 landings" : n;
                Assert.Contains(own, figure);
                JsonNode.Parse(Regex.Match(figure, "<script type=\"application/json\">(.*?)</script>",
                    RegexOptions.Singleline).Groups[1].Value);
            }
        }
    }

    [Fact]
    public void The_same_run_gives_the_same_bytes()
    {
        Assert.Equal(runs.Demo.Files.Keys.Order(StringComparer.Ordinal), runs.DemoAgain.Files.Keys.Order(StringComparer.Ordinal));
        Assert.All(runs.Demo.Files, file => Assert.True(file.Value == runs.DemoAgain.Files[file.Key], file.Key + " differs"));
    }

    [Fact]
    public void Another_seed_moves_the_bootstrap_and_nothing_else()
    {
        var (one, two) = (runs.Demo.Table("rates-by-cell").Rows, runs.DemoSeed2.Table("rates-by-cell").Rows);
        Assert.Equal(one.Count, two.Count);
        var moved = 0;
        foreach (var (a, b) in one.Zip(two))
        {
            Assert.All(a.Where(cell => cell.Key is not ("model_rate_low" or "model_rate_high")),
                cell => Assert.Equal(cell.Value, b[cell.Key]));
            if (Whole(a["missions"]) >= 5 && a["model_rate_low"] != b["model_rate_low"] && a["model_rate_high"] != b["model_rate_high"])
                moved++;
        }
        // Of two or three missions every resample is drawn under any seed, so that their extremes, which are the limits, stay.
        Assert.Equal(one.Count(row => Whole(row["missions"]) >= 5), moved);
        Assert.True(moved > 15);
        Assert.Contains(runs.DemoSeed2.Table("settings").Rows, row => row["note"] == "seed 2");
    }

    /// <summary>The lines of cells; those of regressions have a comma more.</summary>
    private static IEnumerable<Dictionary<string, string>> Reference() =>
        from line in File.ReadLines(Path.Combine(Workshop.Root, "tests", "reference", "storms-2005-2021", "reference.csv")).Skip(1)
        where line.Count(c => c == ',') == 2
        let fields = line.Split(',')
        select new Dictionary<string, string> { ["cell"] = fields[0], ["quantity"] = fields[1], ["value"] = fields[2] };

    /// <summary>A cell of the reference, <c>all</c> or <c>band=0-5|terrain=…</c>, as the rate table names it.</summary>
    private static (string Band, string Terrain) Place(string cell)
    {
        if (cell == "all") return ("all", "all");
        var parts = cell.Split('|').Select(p => p.Split('=', 2)).ToDictionary(p => p[0], p => p[1]);
        return (parts.GetValueOrDefault("band", "all"), parts.GetValueOrDefault("terrain", "all"));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
