using System.Globalization;
using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Mean misses with their ellipses in the downwind frame, one panel for the base and each spotter, all to one scale.</summary>
public static class BiasPlot
{
    /// <summary>Pixels: a panel's greatest and least height, and what all together may take, which is less than a sheet of paper.</summary>
    private const int Tallest = 230, Lowest = 110, Sheet = 860;

    private const double Gap = 0.05;

    /// <summary>Draws the mean miss of the base and of each spotter with missions enough.</summary>
    /// <param name="patterns">The patterns.</param>
    public static Figure Of(SpotterPatterns patterns)
    {
        var unit = patterns.Options.Units.Distance;
        var shown = patterns.Spotters.Prepend(patterns.Base).Where(s => s.Downwind.Success).ToList();
        var left = patterns.Spotters.Count(s => !s.Downwind.Success);
        var off = shown.Where(s => !s.IsBase && IsOff(s)).Select(s => s.Spotter).ToList();
        return new Figure("Mean miss of each spotter's missions",
            shown.Count == 0 ? "Nobody has missions enough for a mean miss."
                : $"{Rounding.Count(shown.Count(s => !s.IsBase), "spotter")}: "
                    + $"beyond chance after {Rounding.Count(patterns.Looks.Count, "look")} (Holm): "
                    + $"{(off.Count == 0 ? "none" : string.Join(", ", off))}. Of ellipses taken alone one in "
                    + $"{Rounding.Fixed(1 / (1 - patterns.Options.Confidence), 0)} leaves out no bias by chance.",
            $"{Rounding.Count(patterns.Base.Missions, "mission")}, {Rounding.Count(patterns.Base.Placed, "landing")} with a known place. "
            + "Each panel: the spot at the cross, the forecast drift points up, the line leads to the mean miss, "
            + $"and the ellipse holds the true mean miss with {Rounding.Percent(patterns.Options.Confidence)} confidence between "
            + "missions (Hotelling). Dashed: half of the median target radius, for scale. Below each name: missions / landings. "
            + $"By code, all panels to one scale ({unit.Suffix})."
            + (left == 0
                ? "" : $" Not drawn: {Rounding.Count(left, "spotter")} with fewer than {patterns.Settings.FewestMissions} missions."),
            Json(shown, unit), patterns.Tables[0]);
    }

    /// <summary>Whether a mean miss is beyond chance after all looks.</summary>
    private static bool IsOff(SpotterPattern s) => s.AdjustedP <= 1 - s.Downwind.Value!.Confidence;

    private static string Json(List<SpotterPattern> shown, MeasureUnit unit)
    {
        var across = shown.Count switch { <= 6 => 2, <= 18 => 3, _ => 4 };
        var rows = Math.Max(1, (shown.Count + across - 1) / across);
        var width = (1 - Gap * (across - 1)) / across;
        var limit = Limit(shown, unit);
        var layout = new Dictionary<string, object>
        {
            ["height"] = 60 + Math.Clamp(Sheet / rows, Lowest, Tallest) * rows,
            ["showlegend"] = false,
            ["margin"] = new { l = 40, r = 10, t = 10, b = 40 },
        };
        var (traces, shapes, notes) = (new List<FigureJson.Trace>(), new List<object>(), new List<object>());
        foreach (var (s, i) in shown.Select((s, i) => (s, i)))
        {
            var id = i == 0 ? "" : (i + 1).ToString(CultureInfo.InvariantCulture);
            var (column, row) = (i % across, i / across);
            var (x0, y0, height) = (column * (width + Gap), 1 - (row + 1) / (double)rows, 1.0 / rows);
            var last = i + across >= shown.Count;
            layout["xaxis" + id] = Axis(new[] { x0, x0 + width }, "y" + id, limit, null, last ? $"right ({unit.Suffix})" : "");
            layout["yaxis" + id] = Axis(new[] { y0 + 0.14 * height, y0 + 0.88 * height }, "x" + id, limit, "x" + id,
                column == 0 ? $"long ({unit.Suffix})" : "");
            traces.AddRange(Traces(s, unit, id));
            var ring = unit.FromSi(s.TargetRadius) / 2;
            shapes.Add(new
            {
                type = "circle", xref = "x" + id, yref = "y" + id, layer = "below", x0 = -ring, x1 = ring, y0 = -ring, y1 = ring,
                line = new { color = FigureJson.Grey, width = 1, dash = "dash" },
            });
            notes.Add(new
            {
                text = $"<b>{ShownResult.Escape(s.Spotter)}</b> {s.Missions} / {s.Placed}",
                showarrow = false, xref = "paper", yref = "paper",
                x = x0 + width / 2, y = y0 + 0.89 * height, xanchor = "center", yanchor = "bottom",
            });
        }
        layout["shapes"] = shapes;
        layout["annotations"] = notes;
        return FigureJson.Of(layout, traces);
    }

    private static object Axis(double[] domain, string anchor, double limit, string? scale, string title) => scale is null
        ? new { domain, anchor, range = new[] { -limit, limit }, title = new { text = title }, constrain = "domain", fixedrange = true,
            gridcolor = FigureJson.Line, zerolinecolor = FigureJson.Grey, automargin = false }
        : new { domain, anchor, range = new[] { -limit, limit }, title = new { text = title }, constrain = "domain", fixedrange = true,
            gridcolor = FigureJson.Line, zerolinecolor = FigureJson.Grey, automargin = false, scaleanchor = scale };

    private static IEnumerable<FigureJson.Trace> Traces(SpotterPattern s, MeasureUnit unit, string id)
    {
        var mean = s.Downwind.Value!;
        var (length, width, angle) = mean.Ellipse;
        var rim = Enumerable.Range(0, 49).Select(i =>
        {
            var (sin, cos) = Math.SinCos(i * Math.Tau / 48);
            var (turnSin, turnCos) = Math.SinCos(angle);
            return (Down: mean.Mean.Along + length * cos * turnCos - width * sin * turnSin,
                Right: mean.Mean.Across + length * cos * turnSin + width * sin * turnCos);
        }).ToList();
        var color = IsOff(s) ? FigureJson.Orange : FigureJson.Blue;
        yield return Line([.. rim.Select(p => p.Right)], [.. rim.Select(p => p.Down)],
            new { line = new { color, width = 2, dash = IsOff(s) ? "dashdot" : "solid" }, mode = "lines", fill = "toself",
                fillcolor = "rgba(95,107,118,0.12)", hoverinfo = "skip", xaxis = "x" + id, yaxis = "y" + id });
        yield return Line([0, mean.Mean.Across], [0, mean.Mean.Along], new
        {
            line = new { color, width = 3 }, mode = "lines+markers",
            marker = new { color, size = new[] { 1, 8 }, symbol = new[] { "circle", "circle" } },
            hovertemplate = "%{y:.3~r} long, %{x:.3~r} right<extra></extra>", xaxis = "x" + id, yaxis = "y" + id,
        });

        FigureJson.Trace Line(double[] right, double[] down, object properties) => new(
            Chart.Line<double, double, string>(x: right.Select(v => Math.Round(unit.FromSi(v), 4)).ToArray(),
                y: down.Select(v => Math.Round(unit.FromSi(v), 4)).ToArray(), Name: "mean miss", UseDefaults: false), properties);
    }

    private static double Limit(List<SpotterPattern> shown, MeasureUnit unit) => unit.FromSi(1.1 * shown
        .Select(s => Math.Max(s.TargetRadius / 2, s.Downwind.Value!.Mean.Length + s.Downwind.Value.Ellipse.HalfLength))
        .DefaultIfEmpty(1).Max());
}
