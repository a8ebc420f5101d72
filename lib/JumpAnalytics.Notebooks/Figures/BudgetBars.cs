using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>The parts of each miss as stacked bars, along and across the forecast drift.</summary>
public static class BudgetBars
{
    private const int RowHeight = 26;

    /// <summary>Draws a bar for each jumper of a mission and each axis, the miss as a mark.</summary>
    /// <param name="sheet">The parts.</param>
    public static Figure Of(BudgetSheet sheet)
    {
        var unit = sheet.Options.Units.Distance;
        var jumpers = sheet.Passes.SelectMany(p => p.Jumpers.Select(j => (Pass: p, Jumper: j)))
            .Where(j => j.Jumper.Budget.Value?.ExitPlacement.Vector is not null && j.Pass.Drop.Frame is not null).ToList();
        var left = sheet.Passes.Sum(p => p.Jumpers.Count) - jumpers.Count;
        var parted = jumpers.Count(j => j.Jumper.IsParted);
        const string Title = "Parts of each miss";
        if (jumpers.Count == 0)
            return new Figure(Title, "No miss of this mission can be split.",
                $"Nothing to draw: {Rounding.Count(left, "landing")} without a known exit placement.",
                FigureJson.Of(new { height = 60 }), sheet.Tables[0]);
        return new Figure(Title,
            $"{Rounding.Count(jumpers.Count, "jumper")}: bars of exit placement, forecast error and steering that add up to the miss, "
                + $"along and across the forecast drift; for {Rounding.Count(parted)} a track parts forecast error from steering.",
            $"Parts add up to the miss (open diamond). Above: along the forecast drift, + long; below: across it, + right ({unit.Suffix}). "
                + $"Hatched: forecast error and steering together, where no track parts them. {Rounding.Count(jumpers.Count, "landing")} "
                + "of one mission" + (left > 0 ? $"; {Rounding.Count(left)} without a known exit placement are not drawn" : "")
                + ". Labels: pass and order of exit.",
            Json(jumpers, unit), sheet.Tables[0]);
    }

    private static string Json(List<(DebriefedPass Pass, DebriefedJumper Jumper)> jumpers, MeasureUnit unit)
    {
        string[] labels = [.. jumpers.Select(j => $"{j.Pass.Number}." + (j.Jumper.Landing.ExitOrder is { } order
            ? order.ToString(System.Globalization.CultureInfo.InvariantCulture) : $"? ({j.Jumper.Landing.Source.Line})"))];
        var traces = new List<FigureJson.Trace>();
        foreach (var (axis, of) in new (string, Func<PlaneVector, double>)[] { ("", v => v.Along), ("2", v => v.Across) })
        {
            Bar("exit placement", b => b.ExitPlacement.Vector, FigureJson.Grey, "");
            Bar("forecast error", b => b.ForecastError.Vector, FigureJson.Orange, "");
            Bar("steering", b => b.ForecastError.Vector is null ? null : b.Steering.Vector, FigureJson.Blue, "");
            Bar("forecast error and steering", b => b.ForecastError.Vector is null ? b.ForecastErrorAndSteering.Vector : null,
                FigureJson.Orange, "/");
            double[] misses = [.. jumpers.Select(j => Place(of(j.Pass.Drop.Frame!.ToDownwind(j.Jumper.Budget.Value!.Miss))))];
            traces.Add(new(Chart.Point<double, string, string>(x: misses, y: labels, Name: "miss", UseDefaults: false),
                new { xaxis = "x" + axis, yaxis = "y" + axis, showlegend = axis.Length == 0, marker = new { symbol = "diamond-open",
                    size = 10, color = "#1d252c", line = new { width = 2 } }, hovertemplate = "%{x:.3~r}<extra>miss</extra>" }));

            void Bar(string name, Func<MissBudget, LocalVector?> part, string color, string shape)
            {
                var drawn = jumpers.Select((j, i) => (Label: labels[i], Part: part(j.Jumper.Budget.Value!), j.Pass.Drop.Frame))
                    .Where(j => j.Part is not null).ToList();
                if (drawn.Count == 0) return;
                traces.Add(new(Chart.Bar<double, string, string>(values: drawn.Select(d => Place(of(d.Frame!.ToDownwind(d.Part!.Value))))
                    .ToArray(), Keys: drawn.Select(d => d.Label).ToArray(), Name: name, UseDefaults: false),
                    new
                    {
                        xaxis = "x" + axis, yaxis = "y" + axis, showlegend = axis.Length == 0, legendgroup = name,
                        marker = new { color, opacity = 0.9, line = new { color, width = 1 }, pattern = new { shape, fgcolor = color,
                            bgcolor = shape.Length > 0 ? "#ffffff" : color, size = 6, solidity = 0.35 } },
                        hovertemplate = "%{x:.3~r}<extra>" + name + "</extra>",
                    }));
            }
        }
        var height = Math.Max(130, RowHeight * jumpers.Count);
        object Rows(double[] domain, string anchor) => new { domain, anchor, type = "category", categoryorder = "array",
            categoryarray = labels.Reverse(), automargin = true, fixedrange = true, gridcolor = FigureJson.Line };
        return FigureJson.Of(
            new
            {
                height = 2 * height + 230,
                margin = new { b = 55 },
                barmode = "relative",
                xaxis = new { anchor = "y", title = new { text = $"downwind, + long ({unit.Suffix})" } },
                yaxis = Rows([0.6, 1], "x"),
                xaxis2 = new { anchor = "y2", title = new { text = $"right of the forecast line ({unit.Suffix})" }, matches = "x",
                    gridcolor = FigureJson.Line, zerolinecolor = FigureJson.Grey, fixedrange = true },
                yaxis2 = Rows([0, 0.4], "x2"),
            }, traces);

        double Place(double metres) => Math.Round(unit.FromSi(metres), unit.Si > 100 ? 5 : 2);
    }
}
