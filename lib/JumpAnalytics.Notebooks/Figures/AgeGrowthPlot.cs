using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>The radius that holds 90 % of landings against the age of the forecast.</summary>
public static class AgeGrowthPlot
{
    private const int Steps = 24;

    /// <summary>Draws the law of growth with its band, the published shape, and the counted classes of age.</summary>
    /// <param name="ageing">The ages.</param>
    public static Figure Of(ForecastAgeing ageing)
    {
        const string Title = "Miss distance and the age of the forecast";
        var unit = ageing.Options.Units.Distance;
        if (ageing.Growth.Value is not { } growth)
            return new Figure(Title, "No law of growth could be fitted.", $"Nothing to draw: {ageing.Growth.Reason}.",
                FigureJson.Of(new { height = 60 }), ageing.Tables[0]);
        if (!growth.IsShown) return Counted(ageing, growth, Title);
        var ages = Enumerable.Range(0, Steps + 1).Select(i => growth.Ages.Low + i * (growth.Ages.High - growth.Ages.Low) / Steps).ToArray();
        var radii = ages.Select(a => growth.Radius(a).Select(unit.FromSi)).ToArray();
        var (first, last) = (radii[0], radii[^1]);
        return new Figure(Title,
            $"From {Minutes(ages[0])} to {Minutes(ages[^1])} min of age the radius that holds 90 % of landings goes from "
                + $"{Rounding.Number(first)} to {Rounding.Number(last)} {unit.Suffix}.",
            $"{Rounding.Count(growth.Missions, "mission")}, {Rounding.Count(growth.Landings, "landing")}. "
                + $"Line: fitted law at the median drift wind; grey: its {Rounding.Percent(ageing.Options.Confidence)} band, "
                + "missions resampled. Dashed: the same with the published power of the age, 2/3 (Merceret 1997). "
                + $"Points: counted, by class of age, at the mean age of the class, with {Rounding.Percent(ageing.Options.Confidence)} "
                + "intervals; winds differ between classes. Nothing is drawn beyond the ages on record.",
            Json(ageing, growth, ages, radii, unit), Table(growth, ages, radii, unit), ageing.Tables[0]);
    }

    /// <summary>The counted classes alone: a line would state a growth that is not shown.</summary>
    private static Figure Counted(ForecastAgeing ageing, AgeGrowth growth, string title) => new(title,
        $"Growth of the misses with age is not shown (p {Rounding.PValue(growth.NoGrowthP)}); the radius that holds 90 % of landings by "
            + "class of age: " + string.Join(", ", ageing.Classes.Select(c => $"{c.Label} min "
                + (c.Radius90.Value is { } r ? $"{Rounding.Number(r.Select(ageing.Options.Units.Distance.FromSi))}" : "none"))) + " "
            + $"{ageing.Options.Units.Distance.Suffix}.",
        $"{Rounding.Count(growth.Missions, "mission")}, {Rounding.Count(growth.Landings, "landing")}. Points: counted, by class of age, at "
            + $"the mean age of the class, with {Rounding.Percent(ageing.Options.Confidence)} intervals; winds differ between classes. No "
            + "line is drawn: growth with age is not shown.",
        FigureJson.Of(Axes(ageing), CountedPoints(ageing)), ageing.Tables[0]);

    private static object Axes(ForecastAgeing ageing) => new
    {
        height = 440,
        xaxis = new { title = new { text = "age of the forecast (min)" }, rangemode = "tozero" },
        yaxis = new { title = new { text = $"90 % of landings within ({ageing.Options.Units.Distance.Suffix})" }, rangemode = "tozero" },
    };

    private static FigureJson.Trace CountedPoints(ForecastAgeing ageing)
    {
        var unit = ageing.Options.Units.Distance;
        var classes = ageing.Classes.Where(c => c.Radius90.Success).ToList();
        var points = classes.Select(c => c.Radius90.Value!.Select(unit.FromSi)).ToList();
        return new(Chart.Point<double, double, string>(x: classes.Select(c => c.MeanAge / 60).ToArray(),
            y: points.Select(p => p.Value).ToArray(), Name: "counted", UseDefaults: false), new
            {
                marker = new { color = FigureJson.Blue, symbol = "circle", size = 9 },
                error_y = new
                {
                    type = "data", symmetric = false, color = FigureJson.Blue, thickness = 1.5, width = 0,
                    array = points.Select(p => p.Range is { } r ? r.High - p.Value : 0),
                    arrayminus = points.Select(p => p.Range is { } r ? p.Value - r.Low : 0),
                },
                text = classes.Select(c => $"{c.Label} min: {Rounding.Count(c.Missions, "mission")}, "
                    + $"{Rounding.Count(c.Landings, "landing")}"),
                hovertemplate = "%{text}, %{y:.3~r} " + unit.Suffix + "<extra>counted</extra>",
            });
    }

    private static string Json(ForecastAgeing ageing, AgeGrowth growth, double[] ages, Estimate[] radii, MeasureUnit unit)
    {
        double[] x = [.. ages.Select(a => Math.Round(a / 60, 3))];
        return FigureJson.Of(Axes(ageing),
            Line("low", radii.Select(r => r.Range?.Low ?? r.Value),
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }),
            Line("band", radii.Select(r => r.Range?.High ?? r.Value), new { mode = "lines", line = new { width = 0 }, fill = "tonexty",
                fillcolor = "rgba(95,107,118,0.22)", hoverinfo = "skip" }),
            Line("published shape", ages.Select(a => unit.FromSi(growth.PublishedRadius(a))),
                new { mode = "lines", line = new { color = FigureJson.Orange, width = 1.5, dash = "dash" }, hoverinfo = "skip" }),
            Line("fitted", radii.Select(r => r.Value), new { mode = "lines", line = new { color = FigureJson.Blue, width = 2 },
                hovertemplate = "%{x:.0f} min: %{y:.3~r} " + unit.Suffix + "<extra>fitted</extra>" }),
            CountedPoints(ageing));

        FigureJson.Trace Line(string name, IEnumerable<double> y, object properties) =>
            new(Chart.Line<double, double, string>(x: x, y: y.Select(v => Math.Round(v, 3)).ToArray(), Name: name, UseDefaults: false),
                properties);
    }

    private static TableView Table(AgeGrowth growth, double[] ages, Estimate[] radii, MeasureUnit unit) =>
        new TableOf<(double Age, Estimate Radius)>("age-curve", "Miss distance and the age of the forecast", ages.Zip(radii))
        {
            { Columns.AgeMinutes, r => r.Age / 60 }, { Columns.ModelRadius(90, unit), r => r.Radius },
            { Columns.PublishedRadius(unit), r => unit.FromSi(growth.PublishedRadius(r.Age)) },
        };

    private static string Minutes(double seconds) => Rounding.Short(Math.Round(seconds / 6) / 10);
}
