using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Chances of a hit that were stated, against how often hits came: on the diagonal where they were right.</summary>
public static class ReliabilityPlot
{
    /// <summary>Draws the pooled rates learnt from earlier seasons against what came.</summary>
    /// <param name="backtest">Forecasts and what came.</param>
    public static Figure Of(Backtest backtest)
    {
        const string Title = "What was stated and what came";
        if (backtest.Reliability.Value is not { } reliability)
            return new Figure(Title, "There is no forecast to draw.", $"No forecast: {backtest.Reliability.Reason}.",
                FigureJson.Of(new { height = 60 }), Empty);
        var (steps, band) = (reliability.Diagram.Steps, reliability.Band.Value);
        var landings = steps.Sum(s => s.Forecasts);
        return new Figure(Title,
            string.Join("; ", steps.Select(s => $"stated {Percent(s.From)} to {Percent(s.To)}, came {Percent(s.Rate)} ({s.Forecasts})"))
                + ".",
            $"{reliability.Forecaster}, learnt from earlier seasons; {Rounding.Count(reliability.Missions, "mission")}, "
                + $"{Rounding.Count(landings, "landing")}. Line: rate of hits that followed, by isotonic regression; "
                + "points: middle of each stretch, the larger the more landings. "
                + (band is null
                    ? $"No band: {reliability.Band.Reason}."
                    : $"Grey: where {Percent(backtest.Options.Confidence)} of right forecasts would lie, outcomes of a mission going "
                        + $"together. Chance of as much miscalibration by right forecasts: {Rounding.PValue(band.ChanceIfRight)}."),
            Json(steps, band), reliability.Table(backtest.Options));
    }

    private static string Json(IReadOnlyList<ReliabilityStep> steps, ReliabilityBand? band)
    {
        var traces = new List<FigureJson.Trace>();
        var least = steps.Min(s => Math.Min(s.From, s.Rate));
        if (band is not null)
        {
            double[] x = [.. band.Points.Select(p => 100 * p.Forecast)];
            traces.Add(new(Chart.Line<double, double, string>(x: x, y: band.Points.Select(p => 100 * p.Range.Low).ToArray(),
                Name: "low", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }));
            traces.Add(new(Chart.Line<double, double, string>(x: x, y: band.Points.Select(p => 100 * p.Range.High).ToArray(),
                Name: "if right", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, fill = "tonexty",
                    fillcolor = "rgba(95,107,118,0.22)", hoverinfo = "skip" }));
            least = Math.Min(least, band.Points.Min(p => p.Range.Low));
        }
        traces.Add(new(Chart.Line<double, double, string>(
            x: steps.SelectMany(s => new[] { 100 * s.From, 100 * s.To }).ToArray(),
            y: steps.SelectMany(s => new[] { 100 * s.Rate, 100 * s.Rate }).ToArray(), Name: "came", UseDefaults: false),
            new { mode = "lines", line = new { color = FigureJson.Blue, width = 2 }, hoverinfo = "skip" }));
        traces.Add(new(Chart.Point<double, double, string>(x: steps.Select(s => 50 * (s.From + s.To)).ToArray(),
            y: steps.Select(s => 100 * s.Rate).ToArray(), Name: "landings", UseDefaults: false), new
            {
                marker = new { color = FigureJson.Blue, symbol = "circle",
                    size = steps.Select(s => 5 + 12 * Math.Sqrt(s.Forecasts / (double)steps.Max(t => t.Forecasts))) },
                text = steps.Select(s => Rounding.Count(s.Forecasts, "landing")),
                showlegend = false,
                hovertemplate = "stated %{x:.0f} %, came %{y:.0f} %, %{text}<extra></extra>",
            }));
        var from = Math.Max(0, 10 * Math.Floor(10 * least));
        return FigureJson.Of(
            new
            {
                height = 440,
                xaxis = new { range = new[] { from, 101 }, ticksuffix = " %", title = new { text = "stated" } },
                yaxis = new { range = new[] { from, 101 }, ticksuffix = " %", title = new { text = "came" } },
                shapes = new object[] { new { type = "line", x0 = from, y0 = from, x1 = 100, y1 = 100,
                    line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } } },
            }, traces);
    }

    private static string Percent(double share) => TableView.Show(share, CellFormat.Share);

    private static TableView Empty { get; } = new TableOf<ReliabilityStep>("reliability", "What was stated and what came", [])
    {
        { Columns.StatedFrom, s => s.From }, { Columns.StatedTo, s => s.To },
    };
}
