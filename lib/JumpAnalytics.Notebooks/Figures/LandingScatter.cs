using System.Globalization;
using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Landings seen along the forecast drift, with target rings and the error ellipse of the fitted normal.</summary>
public static class LandingScatter
{
    /// <summary>Shares of landings that the two ellipses hold if misses follow the fitted normal.</summary>
    private static readonly double[] _ellipses = [0.5, 0.95];

    /// <summary>Draws the landings that the rate table of an analysis rests on.</summary>
    /// <param name="accuracy">The analysis.</param>
    public static Figure Of(SeasonAccuracy accuracy)
    {
        var unit = accuracy.Options.Units.Distance;
        var placed = accuracy.Landings.Where(l => l.MissDownwind is not null).ToList();
        var fit = placed.Count > 0 ? accuracy.Rates.Overall.Model : Fit<BivariateNormal>.Refused("no landing with a known place");
        var limit = unit.FromSi(Limit(placed, fit));
        var radii = Rings([.. placed.Select(l => l.Drop.TargetRadius)]);
        var outside =
            placed.Count(l => Math.Max(Math.Abs(l.MissDownwind!.Value.Along), Math.Abs(l.MissDownwind.Value.Across)) > unit.ToSi(limit));
        var traces = new List<FigureJson.Trace>
        {
            Points("hit", placed.Where(l => l.Outcome == LandingOutcome.Hit), unit, FigureJson.Blue, "circle"),
            Points("miss", placed.Where(l => l.Outcome == LandingOutcome.Miss), unit, FigureJson.Orange, "x"),
        };
        if (fit.Success) traces.AddRange(_ellipses.Select((share, i) => Ellipse(fit.Value, share, unit, i == 0 ? "dot" : "solid")));
        var json = FigureJson.Of(
            new
            {
                height = 620,
                xaxis = new { title = new { text = $"right of the forecast line ({unit.Suffix})" },
                    range = new[] { -limit, limit }, constrain = "domain" },
                yaxis = new { title = new { text = $"downwind, + long ({unit.Suffix})" }, range = new[] { -limit, limit },
                    scaleanchor = "x", constrain = "domain" },
                shapes = radii.Select(r => new
                {
                    type = "circle", xref = "x", yref = "y", layer = "below",
                    line = new { color = FigureJson.Grey, width = 1.5, dash = "dash" },
                    x0 = -unit.FromSi(r), x1 = unit.FromSi(r), y0 = -unit.FromSi(r), y1 = unit.FromSi(r),
                }),
            }, traces);
        return new Figure("Landings in the downwind frame", Words(placed, fit, unit),
            $"{Rounding.Count(placed.Count, "landing")} "
            + $"with a known place from {Rounding.Count(placed.Select(l => l.Drop.Mission).Distinct().Count(), "mission")}; "
            + "the spot is at 0, 0 and the forecast drift points up. "
            + (radii.Count == 0 ? "" : $"Dashed rings: target radius {string.Join(", ", radii.Select(r => Round(r, unit)))} {unit.Suffix}"
                + $"{(radii.Count < placed.Select(l => l.Drop.TargetRadius).Distinct().Count() ? " (least, middle and greatest)" : "")}. ")
            + (fit.Success ? $"Ellipses of a normal fitted to all of them: 50 % (dotted; {Inside(placed, fit.Value, 0.5)} of the landings "
                + $"lie in it) and 95 % (solid; {Inside(placed, fit.Value, 0.95)}). " : $"No ellipse: {fit.Reason}. ")
            + (outside > 0 ? $"{Rounding.Count(outside, "landing")} {(outside == 1 ? "lies" : "lie")} outside the frame." : ""),
            json, Summary(placed, accuracy), accuracy.LandingsTable) { Withheld = accuracy.LandingsTable.Withheld };
    }

    /// <summary>Share of the landings inside the ellipse that the normal says holds a given share.</summary>
    private static string Inside(List<Landing> placed, BivariateNormal model, double share) =>
        Rounding.Percent(placed.Average(l => model.SquaredDistance(l.MissDownwind!.Value) <= -2 * Math.Log(1 - share) ? 1.0 : 0));

    /// <summary>
    /// Half width of the frame in metres: the 95 % ellipse and 98 % of the landings, so that a few far ones don't shrink the rest.
    /// </summary>
    private static double Limit(List<Landing> placed, Fit<BivariateNormal> fit)
    {
        if (placed.Count == 0) return 1;
        var sorted = placed.Select(l => l.MissDistance!.Value).Order().ToList();
        var ellipse = fit.Value is { } model
            ? Math.Max(Math.Abs(model.MeanAlong), Math.Abs(model.MeanAcross)) + model.Ellipse(_ellipses[^1]).HalfLength : 0;
        return 1.1 * Math.Max(1, Math.Max(ellipse, sorted[(int)(0.98 * (sorted.Count - 1))]));
    }

    private static IReadOnlyList<double> Rings(IReadOnlyList<double> radii)
    {
        var distinct = radii.Distinct().Order().ToList();
        return distinct.Count <= 3 ? distinct : [distinct[0], radii.Order().ElementAt(radii.Count / 2), distinct[^1]];
    }

    private static FigureJson.Trace Points(string name, IEnumerable<Landing> landings, MeasureUnit unit, string color, string symbol)
    {
        var misses = landings.Select(l => l.MissDownwind!.Value).ToList();
        var chart = Chart.Point<double, double, string>(
            x: misses.Select(m => Place(m.Across, unit)).ToArray(), y: misses.Select(m => Place(m.Along, unit)).ToArray(),
            Name: name, UseDefaults: false);
        return new FigureJson.Trace(chart, new { marker = new { color, symbol, size = 6, opacity = 0.6 },
            hovertemplate = "%{y:.3~r} long, %{x:.3~r} right<extra>" + name + "</extra>" });
    }

    private static FigureJson.Trace Ellipse(BivariateNormal model, double share, MeasureUnit unit, string dash)
    {
        var (length, width, angle) = model.Ellipse(share);
        var points = Enumerable.Range(0, 73).Select(i =>
        {
            var (sin, cos) = Math.SinCos(i * Math.Tau / 72);
            var (s, c) = Math.SinCos(angle);
            return (Down: model.MeanAlong + length * cos * c - width * sin * s,
                Right: model.MeanAcross + length * cos * s + width * sin * c);
        }).ToList();
        var chart = Chart.Line<double, double, string>(
            x: points.Select(p => Place(p.Right, unit)).ToArray(), y: points.Select(p => Place(p.Down, unit)).ToArray(),
            Name: string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} % ellipse"), UseDefaults: false);
        return new FigureJson.Trace(chart, new { line = new { color = "#1d252c", dash, width = 2 }, mode = "lines", hoverinfo = "skip" });
    }

    private static TableView Summary(List<Landing> placed, SeasonAccuracy accuracy)
    {
        var unit = accuracy.Options.Units.Distance;
        var missions = placed.Select(l => l.Drop.Mission).Distinct().Count();
        return new TableOf<Fit<BivariateNormal>>(
            "landings-fitted-normal", "The normal fitted to the landings", [accuracy.Rates.Overall.Model],
            "Intervals of the means are in the table of seasons.")
        {
            { Columns.Missions, _ => missions }, { Columns.Placed, _ => placed.Count },
            {
                Measure("mean_downwind", "mean downwind", "Mean miss along the forecast drift, + long."),
                f => unit.FromSi(f.Value?.MeanAlong)
            },
            { Measure("mean_right", "mean right", "Mean miss across the forecast drift, + right."), f => unit.FromSi(f.Value?.MeanAcross) },
            { Measure("sd_downwind", "sd downwind", "Standard deviation along the forecast drift."), f => Sd(f.Value?.VarianceAlong) },
            { Measure("sd_right", "sd right", "Standard deviation across it."), f => Sd(f.Value?.VarianceAcross) },
            { Columns.Correlation, f => f.Value is { } m ? m.Covariance / Math.Sqrt(m.VarianceAlong * m.VarianceAcross) : null },
            { Columns.Note, f => f.Reason },
        };

        TableColumn Measure(string name, string label, string meaning) => Columns.Measure(name, label, unit, meaning);

        double? Sd(double? variance) => variance is { } v ? unit.FromSi(Math.Sqrt(v)) : null;
    }

    private static string Words(List<Landing> placed, Fit<BivariateNormal> fit, MeasureUnit unit)
    {
        var misses = placed.Count(l => l.Outcome == LandingOutcome.Miss);
        var text = $"{Rounding.Count(placed.Count(l => l.Outcome == LandingOutcome.Hit), "hit")} and "
            + $"{Rounding.Count(misses)} miss{(misses == 1 ? "" : "es")} round the spot.";
        return fit.Value is not { } m ? text
            : text + $" Centre {Round(Math.Abs(m.MeanAlong), unit)} "
                + $"{unit.Suffix} {(m.MeanAlong >= 0 ? "long" : "short")} and {Round(Math.Abs(m.MeanAcross), unit)} {unit.Suffix} "
                + $"{(m.MeanAcross >= 0 ? "right" : "left")}; standard deviation {Round(Math.Sqrt(m.VarianceAlong), unit)} {unit.Suffix} "
                + $"along and {Round(Math.Sqrt(m.VarianceAcross), unit)} {unit.Suffix} across the forecast drift.";
    }

    /// <summary>A coordinate to about a centimetre: finer than any landing is known, and it keeps the page small.</summary>
    private static double Place(double metres, MeasureUnit unit) => Math.Round(unit.FromSi(metres), IsLong(unit) ? 5 : 2);

    private static string Round(double metres, MeasureUnit unit) => unit.FromSi(metres) switch
    {
        >= 10 and var value => Rounding.Fixed(value, 0),
        < 1 and var value when IsLong(unit) => Rounding.Fixed(value, 3),
        var value => Rounding.Fixed(value, 1),
    };

    /// <summary>Whether a miss is a small fraction of the unit: kilometres and the two kinds of miles.</summary>
    private static bool IsLong(MeasureUnit unit) => unit.Si > 100;
}
