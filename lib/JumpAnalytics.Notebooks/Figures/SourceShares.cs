using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Share of each source in the variance of landing misses, with its interval.</summary>
public static class SourceShares
{
    private const string Title = "Where the variance of landing misses comes from";

    /// <summary>Draws a bar for each source.</summary>
    /// <param name="decomposition">The sources.</param>
    public static Figure Of(ErrorDecomposition decomposition)
    {
        if (!decomposition.Sources.Success)
        {
            return new Figure(Title, "The sources could not be separated.", $"Nothing to draw: {decomposition.Sources.Reason}.",
                FigureJson.Of(new { height = 60 }), Table([])).WithoutFile();
        }
        var sources = decomposition.Sources.Value;
        string[] names = [.. sources.Select(s => s.Name)];
        var largest = sources.MaxBy(s => s.Share.Value)!;
        var bars = new FigureJson.Trace(Chart.Bar<double, string, string>(values: sources.Select(s => Math.Round(100 * s.Share.Value, 3))
            .ToArray(), Keys: names, Name: "share", UseDefaults: false), new
            {
                marker = new { color = sources.Select(s => s.SharedBy == "jumper" ? FigureJson.Blue : FigureJson.Orange) },
                error_x = new
                {
                    type = "data", symmetric = false, color = "#1d252c", thickness = 1.2,
                    array = sources.Select(s => Math.Round(100 * (s.Share.Range!.Value.High - s.Share.Value), 3)),
                    arrayminus = sources.Select(s => Math.Round(100 * (s.Share.Value - s.Share.Range!.Value.Low), 3)),
                },
                hovertemplate = "%{y}: %{x:.0f} %<extra></extra>",
            });
        return new Figure(Title, $"The largest part, {Rounding.Percent(largest.Share)}, goes with the {largest.Name}.",
            $"{Rounding.Count(decomposition.Missions, "mission")}, {Rounding.Count(decomposition.Landings, "landing")}. "
                + $"Orange: shared by a mission or a pass; blue: a jumper's own. {Rounding.Percent(decomposition.Options.Confidence)} "
                + "intervals, missions resampled.",
            FigureJson.Of(new
            {
                height = 60 + 46 * names.Length, showlegend = false,
                xaxis = new { title = new { text = "share of the variance" }, ticksuffix = " %", rangemode = "tozero" },
                yaxis = new { type = "category", categoryorder = "array", categoryarray = names.Reverse() },
            }, bars),
            Table(sources)).WithoutFile();
    }

    private static TableView Table(IEnumerable<ErrorDecomposition.ErrorSource> sources) =>
        new TableOf<ErrorDecomposition.ErrorSource>("source-shares", Title, sources)
        {
            { Columns.SourceName, s => s.Name }, { Columns.ShareOfVariance, s => s.Share },
        };
}
