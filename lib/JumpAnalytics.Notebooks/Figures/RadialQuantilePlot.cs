using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Observed miss distances against those that fitted distributions give: on the diagonal where a distribution is right.</summary>
public static class RadialQuantilePlot
{
    /// <summary>Share of the landings beyond which the axes end: single far ones would press the rest into a corner.</summary>
    private const double Shown = 0.99;

    /// <summary>Draws the preferred distribution with its band, and the normal beside it where that is another.</summary>
    /// <param name="misses">The fitted distributions.</param>
    public static Figure Of(MissDistribution misses)
    {
        var unit = misses.Options.Units.Distance;
        var best = misses.Best is { } b ? RadialQuantiles.Of(misses.Spread, b.Fit.Value!.Model, misses.Options.Confidence).Value : null;
        if (best is null || misses.Best is not { } fit)
            return new Figure("Miss distances against the fitted distributions", "No distribution could be fitted.", "Nothing to draw.",
                FigureJson.Of(new { height = 60 }), Table([], unit));
        var normal = misses.Fits.FirstOrDefault(f => f.Fit.Value?.Model is BivariateNormal && f != fit)?.Fit.Value;
        var other = normal is null ? null : RadialQuantiles.Of(misses.Spread, normal.Model, misses.Options.Confidence).Value;
        var outside = best.Quantiles.Count(p => p.Observed < p.Low || p.Observed > p.High);
        var end = unit.FromSi(best.Quantiles.Where(p => p.Position <= Shown).Select(p => Math.Max(p.Observed, p.Model))
            .DefaultIfEmpty(1).Max()) * 1.05;
        return new Figure("Miss distances against the fitted distributions",
            $"{best.Quantiles.Count - outside} of {Rounding.Count(best.Quantiles.Count, "point")} lie within the band of "
                + $"the {fit.Name}, {outside} outside; were it right, about "
                + $"{Rounding.Fixed((1 - misses.Options.Confidence) * best.Quantiles.Count, 0)} would be."
                + (other is null
                    ? "" : $" Against the normal {Rounding.Count(other.Quantiles.Count(p => p.Observed < p.Low || p.Observed > p.High))} "
                        + $"of {other.Quantiles.Count} lie outside its band."),
            $"{Rounding.Count(best.Clusters, "mission")}, {Rounding.Count(best.Points, "landing")}, "
                + $"{best.Beyond} known only as beyond a distance. Filled: {fit.Name}{(other is null ? "" : "; open: bivariate normal")}. "
                + $"Grey: where {Rounding.Percent(misses.Options.Confidence)} of the points would lie, each by itself, if the preferred "
                + "one were right, landings of a mission counting as fewer than their number. Above the diagonal landings lie farther off "
                + $"than the distribution has them. Rounded distances are spread over their rounding. "
                + $"The axes end where {Rounding.Percent(Shown)} of the landings do.",
            Json(best, other, fit.Name, unit, end),
            Table(other is null ? [(fit.Name, best)] : [(fit.Name, best), ("bivariate normal", other)], unit));
    }

    private static string Json(RadialQuantiles best, RadialQuantiles? normal, string name, MeasureUnit unit, double end)
    {
        double[] At(RadialQuantiles q, Func<RadialQuantile, double> value) =>
            [.. q.Quantiles.Select(p => Math.Round(unit.FromSi(value(p)), 3))];
        var model = At(best, p => p.Model);
        var traces = new List<FigureJson.Trace>
        {
            new(Chart.Line<double, double, string>(x: model, y: At(best, p => p.Low), Name: "low", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }),
            new(Chart.Line<double, double, string>(x: model, y: At(best, p => p.High), Name: "band", UseDefaults: false),
                new { mode = "lines", line = new { width = 0 }, fill = "tonexty",
                    fillcolor = "rgba(95,107,118,0.22)", hoverinfo = "skip" }),
        };
        if (normal is not null)
        {
            traces.Add(new(Chart.Point<double, double, string>(x: At(normal, p => p.Model), y: At(normal, p => p.Observed),
                Name: "bivariate normal", UseDefaults: false),
                new { marker = new { color = FigureJson.Orange, symbol = "diamond-open", size = 7 },
                    hovertemplate = "%{y:.3~r} observed, %{x:.3~r} fitted<extra>bivariate normal</extra>" }));
        }
        traces.Add(new(Chart.Point<double, double, string>(x: model, y: At(best, p => p.Observed), Name: name, UseDefaults: false),
            new { marker = new { color = FigureJson.Blue, symbol = "circle", size = 6 },
                hovertemplate = "%{y:.3~r} observed, %{x:.3~r} fitted<extra>" + name + "</extra>" }));
        return FigureJson.Of(
            new
            {
                height = 440,
                xaxis = new { range = new[] { 0, end }, title = new { text = $"fitted distance ({unit.Suffix})" } },
                yaxis = new { range = new[] { 0, end }, title = new { text = $"observed distance ({unit.Suffix})" } },
                shapes = new object[] { new { type = "line", x0 = 0, y0 = 0, x1 = end, y1 = end,
                    line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } } },
            }, traces);
    }

    private static TableView Table(IEnumerable<(string Name, RadialQuantiles Of)> models, MeasureUnit unit) =>
        new TableOf<(string Model, RadialQuantile Point)>("radial-quantiles", "Observed and fitted miss distances",
            models.SelectMany(m => m.Of.Quantiles, (m, q) => (m.Name, q)),
            "The limits are those of the observed distance if the distribution were right.")
        {
            { Columns.Model, r => r.Model }, { Columns.Position, r => r.Point.Position },
            { Columns.FittedDistance(unit), r => unit.FromSi(r.Point.Model) },
            {
                Columns.ObservedDistance(unit),
                r => Estimate.Of(r.Point.Observed, new Interval(r.Point.Low, r.Point.High)).Select(unit.FromSi)
            },
        };
}
