using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>
/// How far landings come down from the spot, one line for each cell: the radius of a half and that of a greater
/// share, up to its upper limit.
/// </summary>
public static class MarginPlot
{
    /// <summary>Draws every cell, and all together.</summary>
    /// <param name="margins">The radii.</param>
    /// <param name="share">The greater share; the least one asked for that is as much or more.</param>
    public static Figure Of(RadiusMargins margins, double share = 0.9)
    {
        var unit = margins.Options.Units.Distance;
        var at = Math.Max(0, margins.Shares.ToList().FindIndex(s => s >= share - 1e-9));
        var rows = margins.Rows.Where(r => (r == margins.Overall || !r.Cell.IsMargin) && r.Radii[at].Success).ToList();
        const string Title = "Radius that holds a share of landings";
        if (rows.Count == 0)
            return new Figure(Title, "No margin can be given.", "Nothing to draw.", FigureJson.Of(new { height = 60 }), margins.Tables[0]);
        var widest = rows.MaxBy(r => r.Radii[at].Value!.Radius)!;
        return new Figure(Title,
            $"{Percent(margins.Shares[at])} of landings within {Length(margins.Overall.Radii[at].Value?.Radius)} over all; most at "
                + $"{Name(widest)}: {Length(widest.Radii[at].Value!.Radius)}, upper limit {Length(widest.Radii[at].Value!.UpperLimit)}.",
            $"{Rounding.Count(margins.Overall.Missions, "mission")}, {Rounding.Count(margins.Overall.Landings, "landing")}. Small: radius "
                + $"of {Percent(margins.Shares[0])} of the landings; large: of {Percent(margins.Shares[at])}, with a line to its one-sided "
                + $"{Percent(margins.Confidence)} upper limit; filled: from the cell's own landings, open: borrowed or from "
                + "other conditions. Beside each name: missions / landings.",
            Json(margins, rows, at, unit), margins.Tables[0]);

        string Length(double? metres) =>
            metres is { } m ? $"{Rounding.Fixed(unit.FromSi(m), unit.FromSi(m) < 10 ? 1 : 0)} {unit.Suffix}" : "an unknown distance";
        string Name(RadiusMargin r) => r.Cell.IsMargin ? "all" : $"{r.Terrain}, {r.WindBand} {margins.Options.Bands.Unit.Suffix}";
    }

    private static string Json(RadiusMargins margins, List<RadiusMargin> rows, int at, MeasureUnit unit)
    {
        var placed = rows.Select((row, i) => (Row: row, Y: -(double)i)).ToList();
        var smaller = placed.Where(p => at > 0 && p.Row.Radii[0].Success).ToList();
        var traces = new List<FigureJson.Trace>
        {
            Points(Percent(margins.Shares[at]), placed, r => r.Radii[at].Value!.Radius, r => r.Radii[at].Value!.UpperLimit, unit, 10,
                [.. placed.Select(p => p.Row.IsOwn ? "circle" : "circle-open")], FigureJson.Blue),
        };
        if (smaller.Count > 0)
            traces.Add(Points(Percent(margins.Shares[0]), smaller, r => r.Radii[0].Value!.Radius, null, unit, 6,
                [.. smaller.Select(p => p.Row.IsOwn ? "diamond" : "diamond-open")], FigureJson.Orange));
        return FigureJson.Of(
            new
            {
                height = 120 + 44 * rows.Count,
                xaxis = new { rangemode = "tozero", title = new { text = $"distance from the spot ({unit.Suffix})" }, zeroline = true },
                yaxis = new
                {
                    tickmode = "array", tickvals = placed.Select(p => p.Y),
                    ticktext = rows.Select(r => Label(r, margins.Options.Bands.Unit.Suffix)),
                    range = new[] { -rows.Count + 0.3, 0.7 }, zeroline = false, showgrid = false,
                },
            }, traces);
    }

    private static string Label(RadiusMargin r, string speed) =>
        (r.Cell.IsMargin ? "<b>all</b>" : $"{ShownResult.Escape(r.Terrain)}, {r.WindBand} {speed}")
        + $"<br><span style=\"font-size:0.85em\">{Rounding.Count(r.Missions, "mission")} / {r.Landings}</span>";

    private static FigureJson.Trace Points(string name, List<(RadiusMargin Row, double Y)> placed, Func<RadiusMargin, double> radius,
        Func<RadiusMargin, double>? limit, MeasureUnit unit, int size, string[] symbols, string color)
    {
        var chart = Chart.Point<double, double, string>(x: placed.Select(p => Math.Round(unit.FromSi(radius(p.Row)), 3)).ToArray(),
            y: placed.Select(p => p.Y).ToArray(), Name: name, UseDefaults: false);
        return new FigureJson.Trace(chart, new
        {
            marker = new { color, symbol = symbols, size, line = new { width = 2 } },
            error_x = new
            {
                type = "data", symmetric = false, color, thickness = 1.5, width = 4, visible = limit is not null,
                array = placed.Select(p => limit is null ? 0 : Math.Round(unit.FromSi(limit(p.Row) - radius(p.Row)), 3)),
                arrayminus = placed.Select(_ => 0),
            },
            hovertemplate = $"%{{x:.3~r}} {unit.Suffix}<extra>{name}</extra>",
        });
    }

    private static string Percent(double share) => TableView.Show(share, CellFormat.Share);
}
