using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>
/// Spotters' differences from what was expected of them, against how much their records tell: a funnel, and no order of rate.
/// </summary>
public static class FunnelPlot
{
    private const int CurvePoints = 80;

    /// <summary>Draws a comparison: what lies between the curves is no more than chance brings.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="withSpread">
    /// Whether the curves are widened by the estimated spread between spotters: what then lies outside differs more
    /// than spotters usually do.
    /// </param>
    public static Figure Of(FairComparison comparison, bool withSpread = false)
    {
        const string title = "Spotters in the conditions they had";
        var told = comparison.Spotters.Where(s => s.Difference.Success && s.EffectiveLandings > 0).ToList();
        if (told.Count == 0)
            return new Figure(title, "There is no difference to draw.", comparison.Reading, FigureJson.Of(new { }), comparison.Tables[0]);
        var outside =
            told.Where(s => !Limits(s.EffectiveLandings!.Value, FairComparison.InnerFunnel).Contains(s.Difference.Value!.Value)).ToList();
        var far = outside.Where(s => !Limits(s.EffectiveLandings!.Value, FairComparison.OuterFunnel).Contains(s.Difference.Value!.Value))
            .ToList();
        var off = comparison.Off;
        return new Figure(title,
            $"Of {Rounding.Count(told.Count, "spotter")}, "
            + $"{(outside.Count == 0 ? "none lies" : $"{outside.Count} {(outside.Count == 1 ? "lies" : "lie")}")} outside the 95 % curves "
            + $"and {far.Count} outside those of 99.8 %. Beyond chance after {Rounding.Count(comparison.Looks.Count, "look")} (Holm): "
            + (off.Count == 0
                ? "none." : $"{string.Join("; ", off.Select(s => $"{s.Spotter} {Rounding.Points(s.Difference.Value!)} points"))}."),
            $"{Rounding.Count(told.Sum(s => s.Missions), "mission")}, {Rounding.Count(told.Sum(s => s.Landings), "landing")}. "
                + "Landing rate less what the other spotters would have had in the same conditions. Beside each code: missions. "
                + "Effective landings: independent landings that would tell as much, the likeness of landings "
                + "of one mission and the uncertainty of the expectation counted off. Curves: where 95 % (dashed) and 99.8 % (dotted) "
                + $"would lie if {(withSpread ? "spotters differed as much as they do here on the whole" : "no spotter differed")}; "
                + $"with {told.Count} spotters, about {Rounding.Fixed(0.05 * told.Count, 1)} outside the inner ones by chance.",
            Json(), comparison.Tables[0]);

        Interval Limits(double n, double confidence) => comparison.FunnelLimits(n, confidence, withSpread);

        string Json()
        {
            var most = told.Max(s => s.EffectiveLandings!.Value);
            var least = Math.Min(told.Min(s => s.EffectiveLandings!.Value) * 0.7, most / 4);
            double[] x = [.. Enumerable.Range(0, CurvePoints + 1).Select(i => least + (1.2 * most - least) * i / CurvePoints)];
            var highest =
                110 * Math.Max(Limits(least, FairComparison.InnerFunnel).High, told.Max(s => Math.Abs(s.Difference.Value!.Value)));
            return FigureJson.Of(
                new
                {
                    height = 440,
                    xaxis = new { range = new[] { 0, 1.2 * most }, title = new { text = "effective landings" }, zeroline = false },
                    yaxis = new { range = new[] { -highest, highest },
                        title = new { text = "counted less expected (points)" }, zeroline = true },
                },
                [
                    Curve("99.8 %, low", FairComparison.OuterFunnel, -1, "dot", false),
                    Curve("99.8 % by chance", FairComparison.OuterFunnel, 1, "dot", true),
                    Curve("95 %, low", FairComparison.InnerFunnel, -1, "dash", false),
                    Curve("95 % by chance", FairComparison.InnerFunnel, 1, "dash", true),
                    .. Spots("within chance", [.. told.Except(off)], told, FigureJson.Blue, "circle"),
                    .. Spots("beyond chance", [.. off], told, FigureJson.Orange, "diamond-open"),
                ]);

            FigureJson.Trace Curve(string name, double confidence, int side, string dash, bool legend)
            {
                double[] y = [.. x.Select(n => Limits(n, confidence) is var l ? 100 * (side > 0 ? l.High : l.Low) : 0)];
                return new FigureJson.Trace(Chart.Line<double, double, string>(x: x, y: y, Name: name, UseDefaults: false),
                    new { line = new { color = FigureJson.Grey, dash, width = 1.5 }, showlegend = legend, hoverinfo = "skip" });
            }
        }
    }

    private static IEnumerable<FigureJson.Trace> Spots(string name, List<ComparedSpotter> spotters,
        List<ComparedSpotter> told, string color, string symbol)
    {
        if (spotters.Count == 0) yield break;
        yield return new FigureJson.Trace(
            Chart.Point<double, double, string>(x: spotters.Select(s => s.EffectiveLandings!.Value).ToArray(),
                y: spotters.Select(s => 100 * s.Difference.Value!.Value).ToArray(), Name: name, UseDefaults: false),
            new
            {
                mode = "markers+text",
                text = spotters.Select(s => $"{ShownResult.Escape(s.Spotter)} ({Rounding.Count(s.Missions)})"),
                textposition = spotters.Select(s => told.Any(o => StandsOver(o, s)) ? "bottom center" : "top center"),
                marker = new { color, symbol, size = 10 },
                hovertemplate = "%{text}: %{y:.0f} points<extra>" + name + "</extra>",
            });
    }

    /// <summary>Whether one spotter's point lies so close above another's that their names would run together.</summary>
    private static bool StandsOver(ComparedSpotter one, ComparedSpotter other) =>
        Math.Abs(one.EffectiveLandings!.Value / other.EffectiveLandings!.Value - 1) < 0.35
        && one.Difference.Value!.Value - other.Difference.Value!.Value is > 0 and < 0.03;
}
