using System.Globalization;
using Plotly.NET.CSharp;

namespace JumpAnalytics;

/// <summary>Map of a pass in the downwind frame: planned and actual exits, the forecast drift, descents, landings and the spot.</summary>
public static class MissionMap
{
    /// <summary>Draws one figure for each pass of a mission.</summary>
    /// <param name="debrief">The mission.</param>
    public static IReadOnlyList<Figure> Of(MissionDebrief debrief) => [.. debrief.Passes.Select(p => Of(p, debrief.Options))];

    private static Figure Of(DebriefedPass pass, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        var title = $"Map of {pass.Name}";
        var data = Places(pass, unit);
        if (pass.Drop.Frame is not { } frame)
            return new Figure(title, "No map: the forecast drift has no direction.",
                "A forecast drift without length gives no downwind frame.", FigureJson.Of(new { height = 60 }), data).WithoutFile();
        var tracks = pass.Jumpers.Where(j => j.Track.Success).ToList();
        return new Figure(title, Words(pass, options),
            "The spot is at 0, 0 and the forecast drift points up; on the right the ground round the spot, enlarged. "
            + "Diamond: planned exit; triangles: exits, by the record or else by the track; "
            + "broken line: the forecast drift from the planned exit to the spot. "
            + (tracks.Count == 0
                ? "No descent track. " : $"{Rounding.Count(tracks.Count, "descent track")}, coloured by height above ground. ")
            + (pass.Jumpers.Any(j => j.Flight.Success)
                ? "Open circles: where the canopy would have come down unsteered, by its track. " : "")
            + $"Dashed ring: target radius {Rounding.Fixed(unit.FromSi(pass.Drop.TargetRadius), 0)} {unit.Suffix}. Filled circles: hits; "
            + $"crosses: misses; numbers: order of exit. {Rounding.Count(pass.Jumpers.Count, "landing")}, one mission.",
            Json(pass, frame, options.Units), data).WithoutFile();
    }

    /// <summary>The whole pass, and beside it the ground round the spot to a larger scale.</summary>
    private static string Json(DebriefedPass pass, DownwindFrame frame, ReportUnits units)
    {
        var unit = units.Distance;
        var radius = unit.FromSi(pass.Drop.TargetRadius);
        var near = 1.15 * pass.Jumpers.Select(j => unit.FromSi(j.Landing.Miss is { } m ? m.Length : 0)).Append(1.3 * radius).Max();
        object Ring(string axis) => new { type = "circle", xref = "x" + axis, yref = "y" + axis, layer = "below", x0 = -radius, x1 = radius,
            y0 = -radius, y1 = radius, line = new { color = FigureJson.Grey, width = 1.5, dash = "dash" } };
        object Axis(string anchor, double[]? domain, string title, string? scale) => new Dictionary<string, object?>
        {
            ["anchor"] = anchor, ["domain"] = domain ?? [0, 1], ["title"] = new { text = title }, ["range"] = new[] { -near, near },
            ["constrain"] = "domain", ["scaleanchor"] = scale, ["fixedrange"] = true, ["gridcolor"] = FigureJson.Line,
            ["zerolinecolor"] = FigureJson.Grey, ["linecolor"] = FigureJson.Grey, ["automargin"] = true,
        }.Where(e => e.Value is not null).ToDictionary();
        return FigureJson.Of(
            new
            {
                height = 660,
                xaxis = new { title = new { text = $"right ({unit.Suffix})" }, constrain = "domain", domain = new[] { 0, 0.46 } },
                yaxis = new { title = new { text = $"downwind of the spot ({unit.Suffix})" }, scaleanchor = "x", constrain = "domain" },
                xaxis2 = Axis("y2", [0.56, 1], $"close up ({unit.Suffix})", null),
                yaxis2 = Axis("x2", null, "", "x2"),
                shapes = new[] { Ring(""), Ring("2") },
            }, Traces(pass, frame, units, "").Concat(Traces(pass, frame, units, "2")));
    }

    /// <summary>Everything drawn, in one panel; only the first has a legend.</summary>
    private static IEnumerable<FigureJson.Trace> Traces(DebriefedPass pass, DownwindFrame frame, ReportUnits units, string axis)
    {
        var unit = units.Distance;
        yield return Marks("forecast drift", [frame.ToDownwind(pass.Drop.PlannedExit), default], ["", ""], "lines", new { },
            new { color = FigureJson.Grey, width = 1.5, dash = "dash" });
        foreach (var descent in Descents(pass, frame, units, axis)) yield return descent;
        yield return Marks("planned exit", [frame.ToDownwind(pass.Drop.PlannedExit)], [""], "markers",
            new { symbol = "diamond-open", size = 11, color = FigureJson.Grey, line = new { width = 2 } });
        var exits = pass.Jumpers.Select(j => (Jumper: j, Exit: ExitOf(pass, j))).Where(e => e.Exit is not null).ToList();
        yield return Marks("exits", exits.Select(e => frame.ToDownwind(e.Exit!.Value)), exits.Select(e => Order(e.Jumper)), "markers+text",
            new { symbol = "triangle-up", size = 9, color = "#1d252c" });
        var unsteered = pass.Jumpers.Select(j => (Jumper: j, Place: Unsteered(j))).Where(u => u.Place is not null).ToList();
        yield return Marks("unsteered", unsteered.Select(u => frame.ToDownwind(u.Place!.Value)), unsteered.Select(u => Order(u.Jumper)),
            "markers+text", new { symbol = "circle-open", size = 10, color = FigureJson.Orange, line = new { width = 2 } });
        foreach (var (name, outcome, symbol, color) in new[] { ("hit", LandingOutcome.Hit, "circle", FigureJson.Blue), ("miss",
            LandingOutcome.Miss, "x", FigureJson.Orange) })
        {
            var landed = pass.Jumpers.Where(j => j.Landing.Outcome == outcome && j.Landing.MissDownwind is not null).ToList();
            yield return Marks(name, landed.Select(j => j.Landing.MissDownwind!.Value), landed.Select(Order),
                "markers+text", new { symbol, size = 9, color });
        }

        FigureJson.Trace Marks(string name, IEnumerable<PlaneVector> places, IEnumerable<string> labels,
            string mode, object marker, object? line = null)
        {
            var all = places.ToList();
            return new(Chart.Point<double, double, string>(x: all.Select(p => Place(p.Across, unit)).ToArray(),
                y: all.Select(p => Place(p.Along, unit)).ToArray(), Name: name, UseDefaults: false),
                new
                {
                    mode, marker, line = line ?? new { }, text = labels, textposition = "middle right", xaxis = "x" + axis,
                    yaxis = "y" + axis, showlegend = axis.Length == 0 && all.Count > 0,
                    hovertemplate = "%{text} %{y:.3~r} downwind, %{x:.3~r} right<extra>" + name + "</extra>",
                });
        }
    }

    /// <summary>The descents, every second or so, with one scale of heights.</summary>
    private static IEnumerable<FigureJson.Trace> Descents(DebriefedPass pass, DownwindFrame frame, ReportUnits units, string axis)
    {
        var unit = units.Distance;
        var tracks = pass.Jumpers.Where(j => j.Track.Success).Select(j => (Jumper: j, Points: EachSecond(j.Track.Value!.UnderCanopy)))
            .Where(t => t.Points.Count > 1).ToList();
        var top = tracks.Count == 0 ? 0 : tracks.Max(t => t.Points.Max(p => p.Height));
        foreach (var (track, i) in tracks.Select((t, i) => (t, i)))
        {
            var places = track.Points.Select(p => frame.ToDownwind(p.Place)).ToList();
            yield return new FigureJson.Trace(
                Chart.Point<double, double, string>(x: places.Select(p => Place(p.Across, unit)).ToArray(),
                    y: places.Select(p => Place(p.Along, unit)).ToArray(), Name: $"descent {Order(track.Jumper)}", UseDefaults: false),
                new
                {
                    mode = "markers", showlegend = false, xaxis = "x" + axis, yaxis = "y" + axis,
                    marker = new
                    {
                        size = 4, color = track.Points.Select(p => Math.Round(units.Height.FromSi(p.Height), 1)), colorscale = "Cividis",
                        cmin = 0,
                        cmax = Math.Round(units.Height.FromSi(top), 1), showscale = i == 0 && axis.Length == 0,
                        colorbar = new { title = new { text = $"height above ground ({units.Height.Suffix})", side = "top" },
                            orientation = "h",
                            thickness = 10, len = 0.8, y = -0.16, yanchor = "top" },
                    },
                    hovertemplate = "height %{marker.color}<extra>descent " + Order(track.Jumper) + "</extra>",
                });
        }
    }

    private static List<TrackPoint> EachSecond(IReadOnlyList<TrackPoint> points)
    {
        var kept = new List<TrackPoint>();
        foreach (var point in points)
        {
            if (kept.Count == 0 || point.Seconds - kept[^1].Seconds >= 0.95) kept.Add(point);
        }
        return kept;
    }

    /// <summary>Where the canopy would have come down unsteered: the recorded landing less the steering.</summary>
    private static LocalVector? Unsteered(DebriefedJumper jumper) =>
        jumper.Landing.Miss is { } miss && jumper.Flight.Value is { } flight ? miss - flight.Steering : null;

    /// <summary>Where the jumper left, by the record or else by the track.</summary>
    private static LocalVector? ExitOf(DebriefedPass pass, DebriefedJumper jumper) => jumper.Budget.Value?.ExitPlacement.Vector is { } off
        ? pass.Drop.PlannedExit + off : StickExit.Of(pass.Drop, jumper.Landing.ExitOrder).Vector;

    private static string Order(DebriefedJumper jumper) => jumper.Landing.ExitOrder?.ToString(CultureInfo.InvariantCulture) ?? "?";

    private static double Place(double metres, MeasureUnit unit) => Math.Round(unit.FromSi(metres), unit.Si > 100 ? 5 : 2);

    private static string Words(DebriefedPass pass, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        var text = $"{Rounding.Count(pass.Jumpers.Count, "jumper")} "
            + $"of {pass.Name} left about {Rounding.Fixed(unit.FromSi(pass.Drop.ForecastDrift.Length), 0)} {unit.Suffix} upwind; "
            + $"{pass.Hits} of {Rounding.Count(pass.Decided.Count)} came down inside "
            + $"{Rounding.Fixed(unit.FromSi(pass.Drop.TargetRadius), 0)} {unit.Suffix}.";
        var unsteered = pass.Jumpers.Select(Unsteered).OfType<LocalVector>().ToList();
        if (unsteered.Count == 0) return text;
        var inside = unsteered.Count(u => Landing.IsWithin(u.Length, pass.Drop.TargetRadius));
        return text + $" Unsteered, {inside} of {Rounding.Count(unsteered.Count)} whose track tells it would have.";
    }

    private static TableView Places(DebriefedPass pass, MeasureUnit unit)
    {
        return new TableOf<(Landing Landing, PlaneVector? Exit, PlaneVector? Unsteered)>("mission-places", $"Places of {pass.Name}",
            pass.Jumpers.Select(j => (j.Landing, Down(ExitOf(pass, j)), Down(Unsteered(j)))))
        {
            { Columns.OrderOfExit, j => j.Landing.ExitOrder }, { Columns.Outcome, j => j.Landing.Outcome.ToString().ToLowerInvariant() },
            {
                Measure("exit_place_downwind", "exit downwind of the spot", "Exit along the forecast drift, − upwind of the spot."),
                j => unit.FromSi(j.Exit?.Along)
            },
            { Measure("exit_place_right", "exit right", "Exit across the forecast drift, + right."), j => unit.FromSi(j.Exit?.Across) },
            {
                Measure("downwind", "landing downwind", "Miss along the forecast drift, + long."),
                j => unit.FromSi(j.Landing.MissDownwind?.Along)
            },
            {
                Measure("right", "landing right", "Miss across the forecast drift, + right of it."),
                j => unit.FromSi(j.Landing.MissDownwind?.Across)
            },
            {
                Measure("unsteered_downwind", "unsteered downwind",
                    "Where the canopy would have come down unsteered, along the forecast drift."),
                j => unit.FromSi(j.Unsteered?.Along)
            },
            { Measure("unsteered_right", "unsteered right", "The same across the forecast drift."), j => unit.FromSi(j.Unsteered?.Across) },
        };

        PlaneVector? Down(LocalVector? place) => place is { } p ? pass.Drop.Frame?.ToDownwind(p) : null;

        TableColumn Measure(string name, string label, string meaning) => Columns.Measure(name, label, unit, meaning);
    }
}
