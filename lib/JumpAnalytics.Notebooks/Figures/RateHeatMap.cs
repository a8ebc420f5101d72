using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Hit rates of wind bands by terrains as a map of shades, the rate and its n written in each cell.</summary>
public static class RateHeatMap
{
    /// <summary>Draws the counted rates of a table, margins included.</summary>
    /// <param name="rates">The rates.</param>
    public static Figure Of(RateTable rates)
    {
        Cell[] bands = [.. rates.Grid.OfBands, Cell.All], terrains = [Cell.All, .. rates.Grid.OfTerrains.Reverse()];
        var cells = terrains.Select(t => bands.Select(b => rates.Cell(b.WindBand, t.Terrain)).ToArray()).ToArray();
        var shade = cells.Select(row => row.Select(c =>
            c.Counted.Value is { } k && c.Missions >= CellRate.FewMissions ? 100 * k.Rate.Value : (double?)null).ToArray()).ToArray();
        // What has no shade gets its words from an annotation: twice drawn they would blur.
        var text = cells.Select((row, t) => row.Select((c, b) => shade[t][b] is null ? "" : Written(c)).ToArray()).ToArray();
        var columns = bands.Select(b => b.IsWhole ? "all winds" : b.Words(rates.Options.Bands)).ToArray();
        var chart = Chart.Heatmap<double, string, string, string>(
            zData: shade.Select(row => row.Select(s => s ?? double.NaN).ToArray()).ToArray(), X: columns,
            Y: terrains.Select(t => t.IsWhole ? "<b>all terrains</b>" : ShownResult.Escape(t.Terrain)).ToArray(), UseDefaults: false);
        var json = FigureJson.Of(
            new
            {
                height = 110 + 72 * terrains.Length,
                xaxis = new { type = "category", side = "top",
                    title = new { text = $"drift wind ({rates.Options.Bands.Unit.Suffix})" }, showgrid = false },
                yaxis = new { type = "category", showgrid = false },
                annotations = from t in Enumerable.Range(0, terrains.Length)
                              from b in Enumerable.Range(0, bands.Length)
                              where shade[t][b] is null
                              select new { x = b, y = t, text = cells[t][b].Counted.Success ? Written(cells[t][b]) : "none",
                                  showarrow = false, font = new { color = FigureJson.Grey } },
            },
            new FigureJson.Trace(chart, new
            {
                z = shade, // the bindings write what is missing as the text NaN
                text,
                texttemplate = "%{text}",
                hoverongaps = false,
                hovertemplate = "%{y}, %{x}: %{text}<extra></extra>",
                textfont = new { color = "#15191d" },
                colorscale = new object[] { new object[] { 0, "#d98a4a" }, new object[] { rates.Options.Benchmark, "#f7f4ee" },
                    new object[] { 1, "#8db7df" } },
                zmin = 0, zmax = 100, xgap = 3, ygap = 3, showscale = false,
            }));
        var inner = rates.Cells.Where(c => !c.IsMargin && c.Counted.Success).OrderBy(c => c.Counted.Value!.Rate.Value).ToList();
        var alt = inner.Count == 0 ? "No cell has a landing." :
            $"{Rounding.Count(inner.Count, "cell")} of wind band and terrain. Lowest {Named(inner[0])}, highest {Named(inner[^1])}.";
        return new Figure("Landing rate by wind band and terrain", alt,
            $"{Rounding.Count(rates.Overall.Missions, "mission")}, {Rounding.Count(rates.Overall.Landings, "landing")}. Each cell: "
                + "share of landings inside the target radius, below it missions / landings. Brown is below the benchmark, blue above it. "
                + $"A cell with fewer than {CellRate.FewMissions} missions is not shaded. "
                + "Intervals are in the next figure and in the table.", json, rates.Tables[0]);

        string Named(CellRate c) =>
            $"{Rates(c)} at {c.Cell.Words(rates.Options.Bands)} "
            + $"({Rounding.Count(c.Missions, "mission")}, {Rounding.Count(c.Landings, "landing")})";
    }

    private static string Rates(CellRate c) => TableView.Show(c.Counted.Value!.Rate.Value, CellFormat.Share);

    private static string Written(CellRate c) => c.Counted.Success
        ? $"<b>{Rates(c)}</b><br>{Rounding.Count(c.Missions)} / {Rounding.Count(c.Landings)}" : "";
}
