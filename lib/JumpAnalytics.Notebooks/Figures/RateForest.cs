using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Rates with their intervals, one line for each, against the benchmark.</summary>
public static class RateForest
{
    private sealed record Entry(string Label, Estimate Counted, Estimate? Model);

    /// <summary>
    /// Draws every cell with landings, and all together: counted rate and rate of the fitted normal, each with its interval.
    /// </summary>
    /// <param name="rates">The rates.</param>
    public static Figure Of(RateTable rates)
    {
        var shown = rates.Cells.Where(c => c.Counted.Success && (!c.IsMargin || c == rates.Overall)).ToList();
        var entries = shown.Select(c => new Entry(
            (c.IsMargin ? "<b>all</b>" : $"{ShownResult.Escape(c.Terrain)}, {c.WindBand} {rates.Options.Bands.Unit.Suffix}")
                + $"<br><span style=\"font-size:0.85em\">{Rounding.Count(c.Missions, "mission")} / {c.Landings}</span>",
            c.Counted.Value!.Rate, c.ModelRate.Value)).ToList();
        var below = shown.Count(c => c.Verdict == BenchmarkVerdict.Below && !c.IsMargin);
        var above = shown.Count(c => c.Verdict == BenchmarkVerdict.Above && !c.IsMargin);
        return new Figure("Rates with their intervals",
            $"{Rounding.Count(shown.Count(c => !c.IsMargin), "cell")}: the interval of {below} lies below the benchmark of "
                + $"{Percent(rates.Options.Benchmark)}, of {above} above it.",
            $"{Rounding.Count(rates.Overall.Missions, "mission")}, {Rounding.Count(rates.Overall.Landings, "landing")}. Filled: "
                + $"counted rate; open: rate of the fitted normal; lines: {Percent(rates.Options.Confidence)} intervals between missions. "
                + $"Dashed: benchmark {Percent(rates.Options.Benchmark)}. Beside each name: missions / landings. A point without a line "
                + "has no interval. The axis begins below the lowest limit.", Json(entries, rates.Options.Benchmark), rates.Tables[0]);
    }

    /// <summary>Draws the landing rate of each season.</summary>
    /// <param name="glance">The seasons.</param>
    public static Figure Of(SeasonGlance glance) =>
        Of("Landing rate by season", "season", glance.Seasons, glance.Options, glance.Tables[0]);

    /// <summary>Draws the landing rate of each group.</summary>
    /// <param name="groups">The groups.</param>
    public static Figure Of(LandingGroups groups) =>
        Of($"Landing rate by {groups.By}", "group", groups.Groups, groups.Options, groups.Tables[0]);

    private static Figure Of(string title, string noun, IReadOnlyList<MissSummary> summaries, AccuracyOptions options, TableView data)
    {
        var shown = summaries.Where(s => s.Rate.Success).ToList();
        var entries = shown.Select(s => new Entry(
            $"{(s.Season == JumpLog.All ? "<b>all</b>" : ShownResult.Escape(s.Season))}"
                + $"<br><span style=\"font-size:0.85em\">{Rounding.Count(s.Rate.Value!.Missions, "mission")} / "
                + $"{s.Rate.Value.Landings}</span>",
            s.Rate.Value.Rate, null)).ToList();
        var all = summaries[^1].Rate.Value;
        return new Figure(title,
            shown.Count == 0
                ? $"No {noun} has a landing."
                : string.Join("; ", shown.Select(s => $"{s.Season}: {TableView.Show(s.Rate.Value!.Rate, CellFormat.ShareRange)}")) + ".",
            $"{Rounding.Count(all?.Missions ?? 0, "mission")}, {Rounding.Count(all?.Landings ?? 0, "landing")}. "
                + $"Counted rate with its {Percent(options.Confidence)} interval between missions. "
                + $"Dashed: benchmark {Percent(options.Benchmark)}. Beside each name: missions / landings.",
            Json(entries, options.Benchmark), data);
    }

    private static string Json(IReadOnlyList<Entry> entries, double benchmark)
    {
        var lows = entries.SelectMany(e => new[] { e.Counted.Range?.Low ?? e.Counted.Value, e.Model?.Range?.Low ?? e.Model?.Value ?? 1 });
        var least = Math.Max(0, 10 * Math.Floor(10 * Math.Min(benchmark, lows.DefaultIfEmpty(0).Min()) - 0.5));
        var rows = entries.Select((entry, i) => (entry, Y: -(double)i)).ToList();
        var traces = new List<FigureJson.Trace> { Points("counted", rows.Select(r => (r.entry.Counted, r.Y)), FigureJson.Blue, "circle") };
        if (entries.Any(e => e.Model is not null))
            traces.Add(Points("fitted normal", rows.Where(r => r.entry.Model is not null).Select(r => (r.entry.Model!, r.Y - 0.3)),
                FigureJson.Orange, "diamond-open"));
        return FigureJson.Of(
            new
            {
                height = 120 + 44 * entries.Count,
                showlegend = traces.Count > 1,
                xaxis = new { range = new[] { least, 101 }, ticksuffix = " %", title = new { text = "landing rate" }, zeroline = false },
                yaxis = new
                {
                    tickmode = "array", tickvals = rows.Select(r => r.Y), ticktext = entries.Select(e => e.Label),
                    range = new[] { -entries.Count + 0.3, 0.7 }, zeroline = false, showgrid = false,
                },
                shapes = new object[]
                {
                    new { type = "line", xref = "x", yref = "paper", x0 = 100 * benchmark, x1 = 100 * benchmark, y0 = 0, y1 = 1,
                        line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } },
                },
            }, traces);
    }

    private static FigureJson.Trace Points(string name, IEnumerable<(Estimate Rate, double Y)> points, string color, string symbol)
    {
        var all = points.ToList();
        var chart = Chart.Point<double, double, string>(x: all.Select(p => 100 * p.Rate.Value).ToArray(), y: all.Select(p => p.Y).ToArray(),
            Name: name, UseDefaults: false);
        return new FigureJson.Trace(chart, new
        {
            marker = new { color, symbol, size = 9 },
            error_x = new
            {
                type = "data", symmetric = false, color, thickness = 1.5, width = 0,
                array = all.Select(p => p.Rate.Range is { } r ? 100 * (r.High - p.Rate.Value) : 0),
                arrayminus = all.Select(p => p.Rate.Range is { } r ? 100 * (p.Rate.Value - r.Low) : 0),
            },
            hovertemplate = "%{x:.0f} %<extra>" + name + "</extra>",
        });
    }

    private static string Percent(double share) => TableView.Show(share, CellFormat.Share);
}
