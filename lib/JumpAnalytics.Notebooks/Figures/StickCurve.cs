using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>The chance that a whole stick comes down inside, against its size.</summary>
public static class StickCurve
{
    /// <summary>
    /// Draws a line for each direction of the run, the band of the run along the drift, and what the sticks on record did.
    /// </summary>
    /// <param name="sticks">The sticks.</param>
    public static Figure Of(StickMargins sticks)
    {
        const string Title = "Chance that a whole stick is inside";
        if (!sticks.Model.Success || sticks.Rows.Count == 0)
            return new Figure(Title, "No chance could be reckoned.", $"Nothing to draw: {sticks.Model.Reason}.",
                FigureJson.Of(new { height = 60 }), sticks.Tables[0]);
        var unit = sticks.Options.Units.Distance;
        var along = sticks.Rows.Where(r => r.Run == RunDirection.Along).ToList();
        var (radius, confidence) = (Rounding.Fixed(unit.FromSi(sticks.TargetRadius), 0), Rounding.Percent(sticks.Options.Confidence));
        return new Figure(Title,
            $"On a run along the drift the chance falls from {Rounding.Percent(along[0].All)} for one jumper to "
                + $"{Rounding.Percent(along[^1].All)} for {along[^1].Jumpers}.",
            $"{Rounding.Count(sticks.Missions, "mission")}, {Rounding.Count(sticks.Passes)} passes, "
                + $"{Rounding.Count(sticks.Landings, "landing")}. Target radius {radius} {unit.Suffix}. Lines: "
                + $"the model of a pass, by direction of the run; grey: {confidence} band of the run along the drift, missions resampled. "
                + $"Open points: sticks on record, each at its own radius and run, with {confidence} intervals. "
                + $"Chances of sticks larger than {sticks.LargestOnRecord} rest on the model alone."
                + (sticks.Settings.Wanted is { } wanted ? $" Dashed: {Rounding.Percent(wanted)}, the reader's number." : ""),
            Json(sticks, along), sticks.Tables[0], sticks.Tables[1]);
    }

    private static string Json(StickMargins sticks, List<StickRow> along)
    {
        double[] sizes = [.. along.Select(r => (double)r.Jumpers)];
        var traces = new List<FigureJson.Trace>
        {
            Line("low", along.Select(r => r.All.Range?.Low ?? r.All.Value),
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }),
            Line("band", along.Select(r => r.All.Range?.High ?? r.All.Value), new { mode = "lines", line = new { width = 0 },
                fill = "tonexty", fillcolor = "rgba(95,107,118,0.22)", hoverinfo = "skip" }),
        };
        foreach (var (run, name, color, dash) in new[]
        {
            (RunDirection.Across, "across the drift", FigureJson.Grey, "dot"), (RunDirection.Oblique, "at 45°", FigureJson.Orange, "dash"),
            (RunDirection.Along, "along the drift", FigureJson.Blue, "solid"),
        })
        {
            traces.Add(Line(name, sticks.Rows.Where(r => r.Run == run).Select(r => r.All.Value),
                new { mode = "lines+markers", line = new { color, width = 2, dash }, marker = new { color, size = 6 },
                    hovertemplate = "%{x} jumpers: %{y:.0f} %<extra>" + name + "</extra>" }));
        }
        var seen = sticks.Calibration.Where(c => c.Jumpers <= sizes[^1]).ToList();
        traces.Add(new(Chart.Point<double, double, string>(x: seen.Select(c => (double)c.Jumpers).ToArray(),
            y: seen.Select(c => 100 * c.Observed.Value).ToArray(), Name: "on record", UseDefaults: false), new
            {
                marker = new { color = "#1d252c", symbol = "square-open", size = 9 },
                error_y = new
                {
                    type = "data", symmetric = false, color = "#1d252c", thickness = 1.2, width = 0,
                    array = seen.Select(c => c.Observed.Range is { } r ? 100 * (r.High - c.Observed.Value) : 0),
                    arrayminus = seen.Select(c => c.Observed.Range is { } r ? 100 * (c.Observed.Value - r.Low) : 0),
                },
                text = seen.Select(c => $"{Rounding.Count(c.Sticks, "stick")} of {Rounding.Count(c.Missions, "mission")}"),
                hovertemplate = "%{x} jumpers: %{y:.0f} %, %{text}<extra>on record</extra>",
            }));
        object[] shapes = sticks.Settings.Wanted is { } wanted
            ? [new { type = "line", xref = "paper", yref = "y", x0 = 0, x1 = 1, y0 = 100 * wanted, y1 = 100 * wanted,
                line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } }] : [];
        return FigureJson.Of(
            new
            {
                height = 440,
                xaxis = new { title = new { text = "jumpers of the pass" }, dtick = 1, range = new[] { 0.6, sizes[^1] + 0.4 } },
                yaxis = new { title = new { text = "whole stick inside" }, ticksuffix = " %", range = new[] { 0, 101 } },
                shapes,
            }, traces);

        FigureJson.Trace Line(string name, IEnumerable<double> y, object properties) =>
            new(Chart.Line<double, double, string>(x: sizes, y: y.Select(v => Math.Round(100 * v, 3)).ToArray(),
                Name: name, UseDefaults: false), properties);
    }
}
