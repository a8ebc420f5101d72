using System.Globalization;
using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Checks;

/// <summary>One kind of fault: how it is planted, and what flag finds it.</summary>
/// <param name="Check">Name of the check.</param>
/// <param name="Fault">What is planted.</param>
/// <param name="Plant">Plants it and gives the lines of the drops (or landings) it touches.</param>
/// <param name="Finds">Whether a flag finds it, given what <paramref name="Plant"/> told.</param>
/// <param name="Heaped">Whether distances are written as the generator does; false for true places to a yard.</param>
internal sealed record Planting(string Check, string Fault, Func<CleanSeason, Told> Plant,
    Func<RecordFlag, Told, bool> Finds, bool Heaped = true)
{
    public override string ToString() => $"{Check}: {Fault}";
}

/// <summary>What a planting told of itself: the group, the rows, and a word that the flag must say.</summary>
internal sealed record Told(string? Spotter, HashSet<Row> Rows, string Word = "")
{
    public HashSet<RowSource> Sources { get; set; } = [];
}

internal static class Plantings
{
    public static IReadOnlyList<Planting> All { get; } =
    [
        .. Slip("wind in knots under mph, one spotter", "wind_speed_mph", 1 / 1.150779, "knots"),
        .. Slip("drift in metres under yards, one spotter", "forecast_drift_yd", 0.9144, "metres", 1),
        .. Slip("drift in feet under yards, one spotter", "forecast_drift_yd", 3, "feet", 1),
        .. Slip("drift in chains under yards, one spotter", "forecast_drift_yd", 1 / 22.0, "chains", 1),
        new("units of drift and wind", "drift in feet under yards, 3 rows",
            s => Rows(s, 3, r => Scale(r, "forecast_drift_yd", 3, 0), r => N(r["wind_speed_mph"]) >= 3), HasRows),
        new("units of drift and wind", "drift in feet under yards, whole log", s => Whole(s, r => Scale(r, "forecast_drift_yd", 3, 0)),
            (f, _) => f.Group.Kind == "whole log"),
        new("from and to", "drift to where the wind comes from, one spotter",
            s => OfSpotter(s, r => Turn(r, "forecast_to_deg", 180)), IsSpotter),
        new("from and to", "wind to for wind from, 3 rows",
            s => Rows(s, 3, r => Turn(r, "wind_from_deg", 180), r => N(r["wind_speed_mph"]) >= 3), HasRows),
        new("constant turn", "drift magnetic read as true (14 E), one spotter",
            s => OfSpotter(s, r => Turn(r, "forecast_to_deg", -14)), IsSpotter),
        new("constant turn", "drift and wind magnetic, exits true, one spotter",
            s => OfSpotter(s, r => { Turn(r, "forecast_to_deg", -14); Turn(r, "wind_from_deg", -14); }), IsSpotter),
        new("constant turn", "drift magnetic flown as true, whole log (misses alone)", FlownMagnetic,
            (f, _) => f.Found.StartsWith("landings lie", StringComparison.Ordinal) && f.Group.Kind == "whole log"),
        new("positions", "latitude and longitude swapped, 1 row", s => Rows(s, 1, Swap, _ => true), HasRows),
        new("positions", "sign of the longitude lost, 3 rows",
            s => Rows(s, 3, r => r["spot_lon"] = r["spot_lon"].TrimStart('-'), _ => true), HasRows),
        new("positions", "sign of the longitude lost, whole log", s => Whole(s, r => r["spot_lon"] = r["spot_lon"].TrimStart('-')),
            (f, t) => f.Rows.Count == t.Rows.Count),
        new("form of coordinates", "degrees and minutes read as degrees, whole log",
            s => Whole(s, Minutes), (f, _) => f.PValue is not null),
        new("form of coordinates", "degrees and minutes read as degrees, one spotter", s => OfSpotter(s, Minutes),
            (f, t) => f.PValue is not null && IsSpotter(f, t)),
        new("form of coordinates", "rounded to 0.01 degree, one spotter", s => OfSpotter(s, r => RoundTo(r, 0.01)), IsSpotter),
        new("form of coordinates", "landings to 0.001 degree, whole log", RoundLandings,
            (f, _) => f.Found.Contains("landings with a position", StringComparison.Ordinal)),
        new("round numbers", "distances to 5 yd, paced rows alone", s => Heap(s, "pace", 5),
            (f, _) => f.Found.StartsWith("distances", StringComparison.Ordinal), Heaped: false),
        new("round numbers", "bearings to 10 degrees, paced rows alone", s => HeapBearings(s, "pace", 10),
            (f, _) => f.Found.StartsWith("bearings", StringComparison.Ordinal), Heaped: false),
        new("rows told twice", "a drop under another id, a minute later", s => Twice(s), HasRows),
        new("rows told twice", "a jumper's landing again, code respelt", s => LandingTwice(s), HasRows),
        new("age of the streamers", "clock 60 min off, one spotter", s => OfSpotter(s,
            r => { if (r["streamer_minutes"] != "") r["streamer_minutes"] = Recorder.Text(N(r["streamer_minutes"]) + 60); }), IsSpotter),
        new("age of the streamers", "streamers after the exit, 1 row",
            s => Rows(s, 1, r => r["streamer_minutes"] = "-7", r => r["streamer_minutes"] != ""), HasRows),
        new("drift against wind, row by row", "a digit of the drift lost, 1 row", s => Rows(s, 1, r => r["forecast_drift_yd"] =
            Recorder.Text(Math.Round(N(r["forecast_drift_yd"]) * 0.18)), r => N(r["wind_speed_mph"]) >= 5), HasRows),
        new("drift against wind, row by row", "drift 90 degrees off, 1 row",
            s => Rows(s, 1, r => Turn(r, "forecast_to_deg", 90), r => N(r["wind_speed_mph"]) >= 3), HasRows),
        new("exit height above ground", "above sea level, one spotter", s => OfSpotter(s, Sea), IsSpotter),
        new("exit height above ground", "above sea level, whole log", s => Whole(s, Sea), (f, _) => f.Group.Kind == "whole log"),
        new("exit height above ground", "above sea level, 1 row", s => Rows(s, 1, Sea, r => N(r["spot_elevation_ft"]) >= 1000), HasRows),
        new("landings not written down", "3 hang-ups without a distance", HangUps,
            (f, t) => f.Found.StartsWith("3 hang-ups", StringComparison.Ordinal) && t.Rows.Count == 3),
        new("landings not written down", "first jumper of 3 sticks missing", GapsInOrder, HasRows),
        new("landings out of reach", "10 km for a landing's distance, 1 row", FarLanding, HasRows),
        new("one flight a mission", "a number given to flights of two days, 1 mission", Reused, HasRows),
        new("one flight a mission", "another spotter on one of two passes, 1 mission", OtherSpotter, HasRows),
        new("landings not written down", "one spotter notes misses only", MissesOnly,
            (f, t) => f.PValue is not null && f.Group.Name == t.Spotter),
    ];

    private static double N(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static bool IsSpotter(RecordFlag flag, Told told) =>
        flag.Group.Kind == "spotter" && flag.Group.Name == told.Spotter && flag.Found.Contains(told.Word, StringComparison.Ordinal);

    private static bool HasRows(RecordFlag flag, Told told) => told.Sources.IsSubsetOf(flag.Rows);

    private static IEnumerable<Planting> Slip(string fault, string column, double factor, string word, int digits = 1) =>
        [new("units of drift and wind", fault, s => OfSpotter(s, r => Scale(r, column, factor, digits)) with { Word = word }, IsSpotter)];

    private static Told OfSpotter(CleanSeason season, Action<Row> spoil)
    {
        var spotter = season.Spotter;
        var rows = season.DropsOf(spotter).ToHashSet();
        foreach (var row in rows) spoil(row);
        return new Told(spotter, rows);
    }

    private static Told Whole(CleanSeason season, Action<Row> spoil)
    {
        foreach (var row in season.Drops) spoil(row);
        return new Told(null, [.. season.Drops]);
    }

    private static Told Rows(CleanSeason season, int count, Action<Row> spoil, Func<Row, bool> where)
    {
        var rows = season.Some(count, where).ToHashSet();
        foreach (var row in rows) spoil(row);
        return new Told(null, rows);
    }

    private static void Scale(Row row, string column, double factor, int digits) =>
        row[column] = Recorder.Text(Math.Round(N(row[column]) * factor, digits));

    private static void Turn(Row row, string column, int degrees) =>
        row[column] = Recorder.Text(Seasons.Bearing(N(row[column]) + degrees, 1));

    private static void Swap(Row row) => (row["spot_lat"], row["spot_lon"]) = (row["spot_lon"].TrimStart('-')[..2], row["spot_lat"]);

    private static void Minutes(Row row)
    {
        foreach (var column in new[] { "spot_lat", "spot_lon" })
        {
            var degrees = Math.Abs(N(row[column]));
            var whole = Math.Floor(degrees);
            row[column] = (row[column].StartsWith('-') ? "-" : "") + Recorder.Text(whole + 0.6 * (degrees - whole));
        }
    }

    private static void RoundTo(Row row, double step)
    {
        foreach (var column in new[] { "spot_lat", "spot_lon" }) row[column] = Recorder.Text(Math.Round(N(row[column]) / step) * step);
    }

    private static Told RoundLandings(CleanSeason season)
    {
        foreach (var row in season.Landings.Where(r => r["Landing_Lat"] != ""))
        {
            foreach (var column in new[] { "Landing_Lat", "Landing_Lon" }) row[column] = Recorder.Text(Math.Round(N(row[column]), 3));
        }
        return new Told(null, []);
    }

    private static void Sea(Row row) => row["exit_height_ft"] = Recorder.Text(N(row["exit_height_ft"]) + N(row["spot_elevation_ft"]));

    /// <summary>
    /// Drift flown 14 degrees off: the landings lie off by what steering leaves of it; drift, wind and exit agree in the record.
    /// </summary>
    private static Told FlownMagnetic(CleanSeason season)
    {
        foreach (var row in season.Landings)
        {
            var drop = row.Drop;
            var turn = Vec.Toward(drop.ForecastToDeg + 14) + -1 * Vec.Toward(drop.ForecastToDeg);
            var miss = row.Touchdown!.Miss + drop.Mission.Canopy.LeftShare * drop.ForecastYd * turn;
            row["Landing_Distance_yd"] = Recorder.Text(Seasons.Round(miss.Length, 1));
            row["Landing_Bearing_deg"] = Recorder.Text(Seasons.Bearing(miss.BearingDeg, 1));
            row["Landing_Lat"] = row["Landing_Lon"] = "";
        }
        return new Told(null, []);
    }

    private static Told Heap(CleanSeason season, string way, int step)
    {
        foreach (var row in season.Landings.Where(r => r["Measured_By"] == way && r["Landing_Distance_yd"] != ""))
            row["Landing_Distance_yd"] = Recorder.Text(Seasons.Round(N(row["Landing_Distance_yd"]), step));
        return new Told(null, []);
    }

    private static Told HeapBearings(CleanSeason season, string way, int step)
    {
        foreach (var row in season.Landings.Where(r => r["Measured_By"] == way && r["Landing_Bearing_deg"] != ""))
            row["Landing_Bearing_deg"] = Recorder.Text(Seasons.Bearing(N(row["Landing_Bearing_deg"]), step));
        return new Told(null, []);
    }

    private static Told Twice(CleanSeason season)
    {
        var first = season.Some(1, _ => true).Single();
        var copy = first.Copy();
        copy["drop_id"] += "x";
        copy["time"] = $"{first.Drop.Time.AddMinutes(1):yyyy-MM-ddTHH:mm}-10:00";
        season.Drops.Insert(season.Drops.IndexOf(first) + 1, copy);
        return new Told(null, [first, copy]);
    }

    private static Told LandingTwice(CleanSeason season)
    {
        var first = season.Dice.Of([.. season.Landings]);
        var copy = first.Copy();
        copy["Jumper"] = "j-0" + first["Jumper"][1..];
        season.Landings.Add(copy);
        return new Told(null, [first, copy]);
    }

    private static Told FarLanding(CleanSeason season)
    {
        var row = season.Dice.Of([.. season.Landings.Where(r => r["Landing_Distance_yd"] != "")]);
        row["Landing_Distance_yd"] = "10936";
        return new Told(null, [row]);
    }

    private static Told Reused(CleanSeason season)
    {
        var first = season.Some(1, _ => true).Single();
        var other = season.Some(1, r => r["mission"] != first["mission"] && r.Drop.Time.Year == first.Drop.Time.Year
            && Math.Abs((r.Drop.Time - first.Drop.Time).TotalDays) > 1).Single();
        other["mission"] = first["mission"];
        return new Told(null, [first, other]);
    }

    private static Told OtherSpotter(CleanSeason season)
    {
        var second = season.Some(1, r => season.Drops.Exists(o => o != r && o["mission"] == r["mission"])).Single();
        second["spotter"] = second["spotter"] == Planted.Spotters[0] ? Planted.Spotters[1] : Planted.Spotters[0];
        return new Told(null, [second]);
    }

    private static Told HangUps(CleanSeason season)
    {
        var rows = season.Dice.Shuffled(season.Landings).Take(3).ToHashSet();
        foreach (var row in rows)
        {
            row["Landing_Distance_yd"] = row["Landing_Bearing_deg"] = row["Landing_Lat"] = row["Landing_Lon"] = "";
            row["Hung_Up"] = "yes";
        }
        return new Told(null, rows);
    }

    /// <summary>The first of a stick with another whose order is written.</summary>
    private static Told GapsInOrder(CleanSeason season)
    {
        var sticks = season.Dice.Shuffled(
            season.Landings.GroupBy(r => r["Drop_ID"]).Where(g => g.Count() >= 2 && g.Last()["Exit_Order"] != "")).Take(3).ToList();
        foreach (var stick in sticks) season.Landings.Remove(stick.First());
        var ids = sticks.Select(s => s.Key).ToHashSet();
        return new Told(null, [.. season.Drops.Where(r => ids.Contains(r["drop_id"]))]);
    }

    private static Told MissesOnly(CleanSeason season)
    {
        var spotter = season.Spotter;
        season.Landings.RemoveAll(r => r.Drop.Mission.Spotter == spotter && r.WrittenAsHit);
        return new Told(spotter, []);
    }
}
