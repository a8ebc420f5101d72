using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Miss distances of a spotter's missions in the order flown, with the power law fitted to them.</summary>
public static class LearningPlot
{
    /// <summary>Draws a learning curve.</summary>
    /// <param name="curve">The curve.</param>
    public static Figure Of(LearningCurve curve)
    {
        var numbers = Enumerable.Range(1, curve.MissionFactors.Count).Select(i => (double)i).ToArray();
        var traces = new List<FigureJson.Trace>
        {
            new(Chart.Point<double, double, string>(x: numbers, y: curve.MissionFactors.Select(Place).ToArray(),
                Name: "mission", UseDefaults: false),
                new { marker = new { color = FigureJson.Blue, symbol = "circle", size = 7, opacity = 0.7 },
                    hovertemplate = "mission %{x}: %{y:.2f}<extra></extra>" }),
        };
        if (curve.Curve.Count > 0)
        {
            traces.Add(new(Chart.Line<double, double, string>(x: numbers, y: curve.Curve.Select(Place).ToArray(),
                Name: "power law", UseDefaults: false),
                new { mode = "lines", line = new { color = FigureJson.Orange, width = 2 }, hoverinfo = "skip" }));
        }
        return new Figure($"Miss distance along the missions of {curve.Name}", curve.Reading,
            $"{Rounding.Count(curve.Missions, "mission")}, {Rounding.Count(curve.Landings, "landing")}. Each point: geometric mean "
                + "of a mission's miss distances over the usual distance of the reference in the same winds and terrains; 1 is as usual. "
                + "Line: power law by the two-level model. The axis is logarithmic.",
            FigureJson.Of(
                new
                {
                    height = 400,
                    xaxis = new { title = new { text = "mission, in the order flown" }, zeroline = false },
                    yaxis = new { title = new { text = "distance over the usual one" }, type = "log", dtick = "D2" },
                    shapes = new object[] { new { type = "line", xref = "paper", yref = "y", x0 = 0, x1 = 1, y0 = 1, y1 = 1,
                        line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } } },
                }, traces), curve.Tables[0]);
    }

    private static double Place(double value) => Math.Round(value, 4);
}
