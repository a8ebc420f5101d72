using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>
/// Mean cost of a landing against how far the exit is moved along the drift, with the stretch in which it hardly changes.
/// </summary>
public static class CostPlot
{
    /// <summary>Draws the curve.</summary>
    /// <param name="shift">The shift of least cost.</param>
    public static Figure Of(CostShift shift)
    {
        var unit = shift.Options.Units.Distance;
        const string Title = "Cost against the shift of the exit";
        if (shift.Along.Value is not { } along) return new Figure(Title, $"No curve: {shift.Along.Reason}.", "Nothing to draw.",
            FigureJson.Of(new { height = 60 }), shift.Tables[0]);
        double[] Units(IEnumerable<double> metres) => [.. metres.Select(m => Math.Round(unit.FromSi(m), 3))];
        var (x, y) = (Units(shift.Curve.Select(c => c.Move)), Units(shift.Curve.Select(c => c.Cost)));
        var (low, high) = (unit.FromSi(along.WithinFive.Low), unit.FromSi(along.WithinFive.High));
        var best = unit.FromSi(along.Best.Value);
        return new Figure(Title,
            $"Least at a shift of {Rounding.Number(along.Best.Select(unit.FromSi), signed: true)} {unit.Suffix} along the drift; "
                + $"within 5 % of the least from {Rounding.Fixed(low, 1)} to {Rounding.Fixed(high, 1)} {unit.Suffix}.",
            $"{Rounding.Count(shift.Missions, "mission")}, {Rounding.Count(shift.Landings, "landing")}. Line: mean cost of a landing as a "
                + $"length of walk, a landing long taken as {Rounding.Short(shift.Cost.LongOverShort)} times one as far short, "
                + "what lies across as "
                + $"it was. Diamond: the least, with its {Rounding.Percent(shift.Options.Confidence)} interval, missions resampled. Grey: "
                + "shifts whose cost along the drift is within 5 % of the least. + moves the exit downwind. The costs are the reader's.",
            FigureJson.Of(
                new
                {
                    height = 380,
                    xaxis = new { title = new { text = $"shift of the exit along the drift ({unit.Suffix}, + downwind)" } },
                    yaxis = new { rangemode = "tozero", title = new { text = $"mean cost ({unit.Suffix} of walk)" } },
                    shapes = new object[]
                    {
                        new { type = "rect", xref = "x", yref = "paper", x0 = low, x1 = high, y0 = 0, y1 = 1,
                            fillcolor = "rgba(95,107,118,0.18)", line = new { width = 0 }, layer = "below" },
                        new { type = "line", xref = "x", yref = "paper", x0 = 0, x1 = 0, y0 = 0, y1 = 1,
                            line = new { color = FigureJson.Grey, dash = "dash", width = 1.5 } },
                    },
                },
                new FigureJson.Trace(Chart.Line<double, double, string>(x: x, y: y, Name: "mean cost", UseDefaults: false),
                    new { mode = "lines", line = new { color = FigureJson.Blue, width = 2.5 },
                        hovertemplate = "%{y:.1f} at %{x:.1f}<extra></extra>" }),
                new FigureJson.Trace(
                    Chart.Point<double, double, string>(x: new[] { best }, y: new[] { y.Min() }, Name: "least", UseDefaults: false), new
                    {
                        marker = new { color = FigureJson.Orange, symbol = "diamond", size = 11 },
                        error_x = new
                        {
                            type = "data", symmetric = false, color = FigureJson.Orange, thickness = 2, width = 4,
                            array = new[] { unit.FromSi(along.Best.Range!.Value.High) - best },
                            arrayminus = new[] { best - unit.FromSi(along.Best.Range!.Value.Low) },
                        },
                        hovertemplate = "%{x:.1f}<extra>least</extra>",
                    })),
            shift.Tables[0]);
    }
}
