using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>
/// Probability-integral plot of miss distances: the share of landings that a distribution puts nearer than each observed one, against the
/// share that were nearer. On the diagonal where the distribution is right; every landing counts alike, near the spot and far off.
/// </summary>
public static class ProbabilityPlot
{
    /// <summary>Draws the preferred distribution with its band, and the normal beside it where that is another.</summary>
    /// <param name="misses">The fitted distributions.</param>
    public static Figure Of(MissDistribution misses)
    {
        const string Title = "Shares of landings against the fitted distributions";
        if (misses.Best is not { } fit
            || RadialQuantiles.Of(misses.Spread, fit.Fit.Value!.Model, misses.Options.Confidence).Value is not { } best)
            return new Figure(Title, "No distribution could be fitted.", "Nothing to draw.", FigureJson.Of(new { height = 60 }), Table([]));
        var normal = misses.Fits.FirstOrDefault(f => f.Fit.Value?.Model is BivariateNormal && f != fit);
        List<(string Name, IReadOnlyList<(double Were, double Held, Interval Range)> Points)> shown =
            [(fit.Name, Points(misses, fit.Fit.Value.Model))];
        if (normal is not null) shown.Add((normal.Name, Points(misses, normal.Fit.Value!.Model)));
        return new Figure(Title,
            string.Join("; ", shown.Select(s => $"{s.Name}: farthest from the diagonal by "
                + $"{Rounding.Fixed(100 * s.Points.Max(p => Math.Abs(p.Held - p.Were)), 0)} points")) + ".",
            $"{Rounding.Count(best.Clusters, "mission")}, {Rounding.Count(best.Points, "landing")}. Filled: {fit.Name}"
                + $"{(normal is null ? "" : $"; open: {normal.Name}")}. Grey: where {Rounding.Percent(misses.Options.Confidence)} of the "
                + "points would lie, each by itself, if the preferred one were right. Below the diagonal more landings lie near the spot "
                + "than the distribution has there. Rounded distances are spread over their rounding.",
            Json(shown), Table(shown));
    }

    private static IReadOnlyList<(double Were, double Held, Interval Range)> Points(MissDistribution misses, IPlaneModel model) =>
        [.. RadialQuantiles.Of(misses.Spread, model, misses.Options.Confidence).Value!.Quantiles.Select(p =>
            (p.Position, model.ProbabilityWithin(p.Observed),
                new Interval(model.ProbabilityWithin(p.Low), model.ProbabilityWithin(p.High))))];

    private static string Json(IReadOnlyList<(string Name, IReadOnlyList<(double Were, double Held, Interval Range)> Points)> shown)
    {
        static double[] Percent(IEnumerable<double> shares) => [.. shares.Select(s => Math.Round(100 * s, 3))];
        var (name, best) = shown[0];
        var x = Percent(best.Select(p => p.Were));
        var traces = new List<FigureJson.Trace>
        {
            new(Chart.Line<double, double, string>(x: x, y: Percent(best.Select(p => p.Range.Low)), Name: "low", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }),
            new(Chart.Line<double, double, string>(x: x, y: Percent(best.Select(p => p.Range.High)), Name: "band", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, fill = "tonexty",
                    fillcolor = "rgba(95,107,118,0.22)", hoverinfo = "skip" }),
        };
        foreach (var (other, points) in shown.Skip(1)) traces.Add(Trace(other, points, FigureJson.Orange, "diamond-open"));
        traces.Add(Trace(name, best, FigureJson.Blue, "circle"));
        return FigureJson.Of(
            new
            {
                height = 440,
                xaxis = new { range = new[] { 0, 100 }, ticksuffix = " %", title = new { text = "landings that were nearer" } },
                yaxis = new { range = new[] { 0, 100 }, ticksuffix = " %", title = new { text = "nearer by the distribution" } },
                shapes = new object[] { new { type = "line", x0 = 0, y0 = 0, x1 = 100, y1 = 100,
                    line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } } },
            }, traces);

        static FigureJson.Trace Trace(string name, IReadOnlyList<(double Were, double Held, Interval Range)> points,
            string color, string symbol) => new(
                Chart.Point<double, double, string>(x: Percent(points.Select(p => p.Were)), y: Percent(points.Select(p => p.Held)),
                    Name: name, UseDefaults: false),
                new { marker = new { color, symbol, size = 6 }, hovertemplate = "%{x:.0f} % were nearer, %{y:.0f} % "
                    + "by the distribution<extra>" + name + "</extra>" });
    }

    private static TableView Table(IEnumerable<(string Name, IReadOnlyList<(double Were, double Held, Interval Range)> Points)> models) =>
        new TableOf<(string Model, double Were, double Held, Interval Range)>(
            "held-shares", "Shares of landings and of the fitted distributions",
            models.SelectMany(m => m.Points, (m, p) => (m.Name, p.Were, p.Held, p.Range)),
            "The limits are those of the share if the distribution were right.")
        {
            { Columns.Model, r => r.Model }, { Columns.Position, r => r.Were }, { Columns.ShareHeld, r => Estimate.Of(r.Held, r.Range) },
        };
}
