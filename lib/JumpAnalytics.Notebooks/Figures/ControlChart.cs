using System.Globalization;
using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>
/// A control chart: missions in the order flown, limits, restarts, and signals told by their shape as well as their colour.
/// </summary>
public static class ControlChart
{
    /// <summary>Draws a chart. Its data are shown with it and make no file of their own: the table of all charts has them.</summary>
    /// <param name="chart">The chart.</param>
    /// <param name="name">Whose missions they are, for the title.</param>
    public static Figure Of(MissChart chart, string name = "these missions")
    {
        var title = $"{char.ToUpperInvariant(chart.Name[0])}{chart.Name[1..]}: {name}";
        var signals = chart.Points.Where(p => p.Direction is not null).ToList();
        return new Figure(title,
            $"{Rounding.Count(chart.Missions, "mission")} in the order flown; "
            + (signals.Count == 0 ? "no point passes a limit." : $"{signals.Count} {(signals.Count == 1 ? "passes" : "pass")} a limit: "
                + $"{string.Join("; ", signals.Select(p => $"{p.Direction} at mission {p.Number} ({Date(p)})"))}."),
            $"{Rounding.Count(chart.Missions, "mission")}, {Rounding.Count(chart.Landings, "landing")}, "
            + $"against {Rounding.Count(chart.ReferenceMissions, "mission")} of the reference. {Method(chart.Kind)} "
            + $"Dashed: limits with one false signal in {Rounding.Count((long)Math.Round(chart.InControlRunLength))} missions "
            + "in the mean against a reference that is known exactly. If nothing had changed, a signal by now would have a chance of "
            + $"{Rounding.Chance(chart.ChanceOfFalseSignal)}, the error of the reference counted. "
            + "After a signal (diamond) the chart starts anew"
            + (chart.Restarts.Count == 0 ? "." : $", and at the dotted lines: {string.Join("; ", chart.Restarts.Select(r => r.Reason))}."),
            Json(chart, signals), Data(chart)).WithoutFile();
    }

    private static string Method(ChartKind kind) => kind switch
    {
        ChartKind.DistanceAverage =>
            "Moving average of the missions' distance scores (standard normal for missions like the reference's); up is wider.",
        ChartKind.DistanceSums => "Cumulative sums of the missions' distance scores; up is wider, down is tighter.",
        ChartKind.HitSums => "Cumulative sums of log-likelihood ratios of each mission's hits by wind band and terrain; "
            + "up is fewer hits, down is more.",
        _ => "Squared length of the moving average of the missions' mean misses in the downwind frame, "
            + "in standard deviations of that average.",
    };

    private static string Json(MissChart chart, List<ChartPoint> signals)
    {
        var plain = chart.Points.Where(p => p.Direction is null).ToList();
        var sums = chart.LowerLimit is not null && chart.Kind != ChartKind.DistanceAverage;
        var highest = 1.08 * Math.Max(chart.UpperLimit, chart.Points.Select(p => p.Upper).DefaultIfEmpty(0).Max());
        var lowest = chart.LowerLimit is { } low
            ? 1.08 * Math.Min(low, chart.Points.Select(p => p.Lower ?? 0).DefaultIfEmpty(0).Min()) : -0.02 * highest;
        var traces = new List<FigureJson.Trace> { Line(sums ? "upper sum" : "statistic", chart.Points, p => p.Upper,
            FigureJson.Blue, "circle", plain) };
        if (sums) traces.Add(Line("lower sum", chart.Points, p => p.Lower!.Value, FigureJson.Grey, "square-open", plain));
        if (signals.Count > 0) traces.Add(Signals(chart, signals));
        return FigureJson.Of(
            new
            {
                height = 420,
                xaxis = new { title = new { text = "mission, in the order flown" },
                    range = new[] { 0.3, chart.Missions + 0.7 }, zeroline = false },
                yaxis = new { title = new { text = Unit(chart.Kind) }, range = new[] { lowest, highest }, zeroline = true },
                shapes = Level(chart.UpperLimit).Concat(chart.LowerLimit is { } limit ? Level(limit) : []).Concat(Restarts(chart)),
            }, traces);
    }

    private static string Unit(ChartKind kind) => kind switch
    {
        ChartKind.DistanceAverage => "average score (sd of a mission)",
        ChartKind.DistanceSums => "sum of scores (sd of a mission)",
        ChartKind.HitSums => "log-likelihood ratio",
        _ => "squared length (no unit)",
    };

    private static FigureJson.Trace Line(string name, IReadOnlyList<ChartPoint> points, Func<ChartPoint, double> y, string color,
        string symbol, List<ChartPoint> plain)
    {
        var chart = Chart.Line<double, double, string>(x: points.Select(p => (double)p.Number).ToArray(),
            y: points.Select(p => Place(y(p))).ToArray(), Name: name, UseDefaults: false);
        return new FigureJson.Trace(chart, new
        {
            mode = "lines+markers", line = new { color, width = 1.5 },
            marker = new { color, symbol, size = points.Select(p => plain.Contains(p) ? 6 : 0) },
            text = points.Select(Hover), hovertemplate = "%{text}: %{y:.2f}<extra>" + name + "</extra>",
        });
    }

    private static FigureJson.Trace Signals(MissChart chart, List<ChartPoint> signals)
    {
        var points = signals.Select(p => (Point: p, Y: p.Upper > chart.UpperLimit ? p.Upper : p.Lower ?? p.Upper)).ToList();
        var marks = Chart.Point<double, double, string>(x: points.Select(p => (double)p.Point.Number).ToArray(),
            y: points.Select(p => Place(p.Y)).ToArray(), Name: "signal", UseDefaults: false);
        return new FigureJson.Trace(marks, new
        {
            mode = "markers+text",
            marker = new { color = FigureJson.Orange, symbol = "diamond", size = 13, line = new { color = "#1d252c", width = 1 } },
            text = points.Select(p => p.Point.Direction), textposition = "top left", cliponaxis = false,
            hovertext = points.Select(p => Hover(p.Point)), hovertemplate = "%{hovertext}: %{text}<extra>signal</extra>",
        });
    }

    private static string Hover(ChartPoint p) => $"{Date(p)}, {Rounding.Count(p.Landings, "landing")}";

    private static string Date(ChartPoint p) => NodaTime.Text.LocalDatePattern.Iso.Format(p.Time.Date);

    private static IEnumerable<object> Level(double y) =>
        [new { type = "line", xref = "paper", yref = "y", x0 = 0, x1 = 1, y0 = y, y1 = y,
            line = new { color = FigureJson.Orange, dash = "dash", width = 1.5 } }];

    private static IEnumerable<object> Restarts(MissChart chart) =>
        from restart in chart.Restarts
        let at = chart.Points.FirstOrDefault(p => p.Time >= restart.Time)
        where at is not null
        select new { type = "line", xref = "x", yref = "paper", x0 = at.Number - 0.5, x1 = at.Number - 0.5, y0 = 0, y1 = 1,
            line = new { color = FigureJson.Grey, dash = "dot", width = 1.5 } };

    private static TableView Data(MissChart chart) => ChartTables.Points(chart, string.Create(CultureInfo.InvariantCulture,
        $"Limits {chart.UpperLimit:0.###}{(chart.LowerLimit is { } low ? $" and {low:0.###}" : "")}."));

    private static double Place(double value) => Math.Round(value, 4);
}
