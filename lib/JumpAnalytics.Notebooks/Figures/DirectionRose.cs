using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>The ways missions miss, counted in sectors: one direction a mission, relative to the forecast drift.</summary>
public static class DirectionRose
{
    private const int Sectors = 16;

    /// <summary>Draws the directions of the base's missions, or of one spotter's.</summary>
    /// <param name="patterns">The patterns.</param>
    /// <param name="spotter">Code of a spotter; the whole base when left out.</param>
    /// <exception cref="ArgumentException">No landing has this spotter.</exception>
    public static Figure Of(SpotterPatterns patterns, string? spotter = null)
    {
        var pattern = spotter is null ? patterns.Base : patterns.Of(spotter);
        var summary = pattern.Relative.Summary.Value;
        var who = pattern.IsBase ? "all missions" : $"missions of {pattern.Spotter}";
        var confidence = Rounding.Percent(patterns.Options.Confidence);
        var enough = summary is not null && pattern.Missions >= patterns.Settings.FewestMissions;
        return new Figure($"The way {who} miss",
            summary is null ? $"No direction: {pattern.Relative.Summary.Reason}."
                : !enough ? $"{Rounding.Count(pattern.Missions, "mission")}: too few for a mean direction."
                : summary.MeanRange is { } r
                ? $"Mean direction {Degrees(summary.Mean)}° ({Degrees(r.Low)} to {Degrees(r.High)}), where 0 is long and 90 right; "
                    + $"mean resultant {Rounding.Fixed(summary.MeanResultant, 2)}, "
                    + $"p {Rounding.PValue(pattern.Relative.Rayleigh.Value!.PValue)} of no preferred direction."
                : $"No mean direction is clear: mean resultant {Rounding.Fixed(summary.MeanResultant, 2)}, "
                    + $"p {Rounding.PValue(pattern.Relative.Rayleigh.Value?.PValue ?? 1)} of no preferred direction.",
            $"{Rounding.Count(summary?.Count ?? 0, "mission")} with a direction, "
                + $"of {Rounding.Count(pattern.Missions, "mission")} and {Rounding.Count(pattern.Placed, "landing")}; "
                + "one direction a mission, that of its mean miss, because its landings share a forecast. The forecast drift points up. "
                + $"Sectors of {360 / Sectors}°, their area as their number of missions; the numbers on the axis are missions. "
                + $"Dark line: mean direction; arc on the rim: its {confidence} interval (Fieller). p: Rayleigh's test, exact. Left out: "
                + $"{Rounding.Count(pattern.Relative.WithoutDirection, "mission")} with a mean miss too short to have a direction.",
            Json(summary, enough), patterns.Tables[^1]);
    }

    private static string Degrees(double radians) => Rounding.Fixed(double.RadiansToDegrees(DirectionSummary.Turned(radians)), 0);

    private static string Json(DirectionSummary? summary, bool enough)
    {
        var counts = new int[Sectors];
        foreach (var angle in summary?.Directions ?? []) counts[(int)Math.Floor(angle / Math.Tau * Sectors + 0.5) % Sectors]++;
        var rim = Math.Sqrt(Math.Max(1, counts.Max()));
        var ticks = Ticks(counts.Max());
        var bars = Chart.BarPolar<double, double, string>(
            r: counts.Select(c => Math.Sqrt(c)).ToArray(), theta: Enumerable.Range(0, Sectors).Select(i => 360.0 * i / Sectors).ToArray(),
            Name: "missions", UseDefaults: false);
        var traces = new List<FigureJson.Trace>
        {
            new(bars, new { marker = new { color = FigureJson.Blue, opacity = 0.75, line = new { color = "#ffffff", width = 1 } },
                customdata = counts, hovertemplate = "%{customdata} missions<extra></extra>" }),
        };
        if (enough)
        {
            var mean = double.RadiansToDegrees(summary!.Mean);
            traces.Add(Line([0, rim], [mean, mean], "mean direction"));
            if (summary.MeanRange is { } range)
            {
                var arc = Enumerable.Range(0, 31)
                    .Select(i => double.RadiansToDegrees(range.Low + (range.High - range.Low) * i / 30)).ToArray();
                traces.Add(Line([.. arc.Select(_ => rim)], arc, "interval of the mean direction"));
            }
        }
        return FigureJson.Of(
            new
            {
                height = 460, showlegend = false, margin = new { l = 40, r = 40, t = 40, b = 40 },
                polar = new
                {
                    bgcolor = "#ffffff",
                    angularaxis = new
                    {
                        direction = "clockwise", rotation = 90, tickmode = "array", tickvals = new[] { 0, 45, 90, 135, 180, 225, 270, 315 },
                        ticktext = new[] { "long", "45°", "right", "135°", "short", "225°", "left", "315°" },
                        gridcolor = FigureJson.Line, linecolor = FigureJson.Grey,
                    },
                    radialaxis = new
                    {
                        range = new[] { 0, 1.08 * rim }, tickmode = "array", tickvals = ticks.Select(t => Math.Sqrt(t)),
                        ticktext = ticks, angle = 67.5, tickangle = 0,
                        gridcolor = FigureJson.Line, linecolor = FigureJson.Grey,
                    },
                },
            }, traces);
    }

    private static int[] Ticks(int most) =>
        most <= 3 ? [.. Enumerable.Range(1, Math.Max(1, most))] : [.. new[] { most / 4, most / 2, most }.Where(t => t > 0).Distinct()];

    private static FigureJson.Trace Line(double[] r, double[] theta, string name) => new(
        Chart.LinePolar<double, double, string>(r: r, theta: theta, Name: name, UseDefaults: false),
        new { mode = "lines", line = new { color = "#1d252c", width = 4 }, hoverinfo = "name" });
}
