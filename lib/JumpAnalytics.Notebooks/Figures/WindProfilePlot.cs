using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>The wind that descent tracks found, by height, against the one wind of the forecast.</summary>
public static class WindProfilePlot
{
    /// <summary>Draws one figure for each pass whose tracks tell a wind.</summary>
    /// <param name="winds">The winds.</param>
    public static IReadOnlyList<Figure> Of(WindsFound winds) =>
        [.. winds.Passes.Where(p => p.Levels.Count > 0 && p.Pass.Drop.ForecastDrift.Direction is not null).Select(p => Of(p, winds))];

    private static Figure Of(WindsFound.PassWind wind, WindsFound winds)
    {
        var (speed, height) = (winds.Options.Units.Speed, winds.Options.Units.Height);
        var downwind = wind.Pass.Drop.ForecastDrift.Direction!.Value;
        var forecast = wind.Pass.Drop.WindFrom is { } from ? WindVector.FromDirection(wind.Pass.Drop.WindSpeed, from) : (WindVector?)null;
        var tracks = wind.Pass.Jumpers.Count(j => j.Flight.Success);
        var (low, high) = (wind.Levels[0].Level, wind.Levels[^1].Level);
        return new Figure($"Wind of {wind.Pass.Name} by height",
            ($"Along the forecast drift the wind found grows from {Show(Along(low.Wind, downwind), speed)} "
                + $"near the ground to {Show(Along(high.Wind, downwind), speed)} {speed.Suffix} at "
                + $"{Rounding.Fixed(height.FromSi(high.Height), 0)} {height.Suffix}")
                .Replace("grows", Along(high.Wind, downwind) >= Along(low.Wind, downwind) ? "grows" : "falls", StringComparison.Ordinal)
            + $"; the forecast used {Show(wind.Pass.Drop.WindSpeed, speed)} {speed.Suffix} throughout.",
            $"Wind found by {Rounding.Count(tracks, "descent track")} of one pass, with {Rounding.Percent(winds.Options.Confidence)} "
            + "bands. Solid: along the forecast drift; dotted: across it, + to the right. "
            + (forecast is null
                ? "The direction of the forecast's wind was not recorded: its speed is drawn along the drift."
                : "Dashed: the forecast's wind, the same at every height."),
            Json(wind, winds.Options, downwind, forecast ?? wind.Pass.Drop.WindSpeed * Unit(downwind)), winds.Tables[0]).WithoutFile();
    }

    private static string Json(WindsFound.PassWind wind, AccuracyOptions options, Bearing downwind, WindVector forecast)
    {
        var (speed, height) = (options.Units.Speed, options.Units.Height);
        var right = Bearing.FromDegrees(downwind.Degrees + 90);
        var traces = new List<FigureJson.Trace>();
        double[] heights = [.. wind.Levels.Select(l => Math.Round(height.FromSi(l.Level.Height), 1))];
        foreach (var (name, direction, color, dash) in new[] { ("along the drift", downwind, FigureJson.Blue, "solid"),
            ("across, + right", right, FigureJson.Orange, "dot") })
        {
            var band = wind.Levels.Select(l => BudgetSheet.Around(speed, Along(l.Level.Wind, direction),
                l.Level.Error?.SdAlong(direction) ?? 0, options)).ToList();
            traces.Add(Line("low " + name, band.Select(b => b.Range!.Value.Low), heights,
                new { mode = "lines", line = new { width = 0 }, showlegend = false, hoverinfo = "skip" }));
            traces.Add(Line("band " + name, band.Select(b => b.Range!.Value.High), heights, new { mode = "lines", line = new { width = 0 },
                fill = "tonextx", fillcolor = color == FigureJson.Blue ? "rgba(11,83,148,0.18)" : "rgba(198,90,0,0.18)",
                showlegend = false, hoverinfo = "skip" }));
            traces.Add(Line(name, band.Select(b => b.Value), heights, new { mode = "lines+markers", line = new { color, width = 2, dash },
                marker = new { color, size = 5 }, hovertemplate = "%{x:.1f} at %{y}<extra>" + name + "</extra>" }));
            traces.Add(Line("forecast " + name, Enumerable.Repeat(speed.FromSi(Along(forecast, direction)), 2), [0, heights[^1]],
                new { mode = "lines", line = new { color, width = 1.5, dash = "dash" }, showlegend = false,
                    hovertemplate = "%{x:.1f}<extra>forecast</extra>" }));
        }
        return FigureJson.Of(
            new
            {
                height = 460,
                xaxis = new { title = new { text = $"wind ({speed.Suffix})" }, zeroline = true },
                yaxis = new { title = new { text = $"height above ground ({height.Suffix})" }, rangemode = "tozero" },
            }, traces);

        static FigureJson.Trace Line(string name, IEnumerable<double> x, IReadOnlyList<double> y, object properties) =>
            new(Chart.Line<double, double, string>(x: x.Select(v => Math.Round(v, 3)).ToArray(), y: y.ToArray(),
                Name: name, UseDefaults: false), properties);
    }

    private static string Show(double si, MeasureUnit unit) => Rounding.Fixed(unit.FromSi(si), 1);

    private static double Along(WindVector wind, Bearing direction) =>
        wind.East * Unit(direction).East + wind.North * Unit(direction).North;

    private static WindVector Unit(Bearing direction) => WindVector.FromDirection(1, direction.Reversed);
}
