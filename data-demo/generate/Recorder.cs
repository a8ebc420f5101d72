using System.Globalization;

namespace JumpAnalytics.Demo;

/// <summary>A row as it will be written. <see cref="Flaw"/> is the one thing planted in it that a reader must refuse or name.</summary>
sealed class Row(string[] columns, params string[] cells)
{
    public List<string> Cells { get; } = [.. cells];
    public string? Flaw { get; set; }
    public required Drop Drop { get; init; }
    public Touchdown? Touchdown { get; init; }
    public double WrittenMissYd { get; set; }
    public bool WasHit => Touchdown!.Miss.Length <= Drop.Mission.RadiusYd;
    public bool WrittenAsHit => WrittenMissYd <= Drop.Mission.RadiusYd;
    public string this[string column]
    {
        get => Cells[Array.IndexOf(columns, column)];
        set => Cells[Array.IndexOf(columns, column)] = value;
    }
    public Row Copy() => new(columns, [.. Cells]) { Drop = Drop };
    public override string ToString() =>
        string.Join(',', Cells.Select(c => c.AsSpan().ContainsAny(',', '"') ? $"\"{c.Replace("\"", "\"\"")}\"" : c));
}

/// <summary>Turns what happened into what a recorder writes: rounded, heaped, some of it blank.</summary>
static class Recorder
{
    public static readonly string[] DropColumns = ("drop_id,mission,time,season,base,spotter,aircraft,terrain,target_radius_yd,"
        + "wind_speed_mph,wind_from_deg,"
        + "surface_wind_speed_mph,forecast_drift_yd,forecast_to_deg,exit_height_ft,streamer_minutes,run_heading_deg,ground_speed_kt,"
        + "exit_spacing_s,exit_distance_yd,exit_bearing_deg,spot_lat,spot_lon,spot_elevation_ft,load_sheet,remarks").Split(',');
    public static readonly string[] LandingColumns =
        ("Drop_ID,Jumper,Exit_Order,Canopy,Hung_Up,Measured_By,Measured_SD_m,Landing_Distance_yd,"
            + "Landing_Bearing_deg,Landing_Bearing_degm,Landing_Lat,Landing_Lon,Landing_Beyond_yd,Track,Remarks").Split(',');
    private static readonly string[] DropRemarks = ["smoke over the spot, second look", "streamers split, took the mean",
        "gusty below 500 ft", "stick called it \"bumpy\", all safe", "late light", "streamers seen by all",
        "wind line swung, \"left of the draw\"", "long pass, turned twice"];
    private static readonly string[] HangUpRemarks =
        ["hung up, let down", "in a tree, \"thirty feet up\"", "canopy in timber, climbed down"];
    private static readonly string[] LandingRemarks = ["stood up", "short of the brush", "turned late", "wind died at 200 ft",
        "slid, no harm", "\"too high over the spot\", flew past", "downhill, soft"];

    public static string Text(double value, string format = "0.######") => value.ToString(format, CultureInfo.InvariantCulture);
    private static string Mostly(Dice dice, double share, string text) => dice.Chance(share) ? text : "";

    public static Row Write(Drop drop, Vec firstExit, Dice dice)
    {
        var m = drop.Mission;
        var exitSeen = dice.Chance(0.70);
        return new Row(DropColumns, drop.Id, m.Id, $"{drop.Time:yyyy-MM-ddTHH:mm}-10:00", Text(m.Season), Planted.Base, m.Spotter,
            Mostly(dice, 0.97, m.Aircraft), m.Terrain.Name, Text(m.RadiusYd), Text(drop.WindMph), Text(drop.WindFromDeg),
            Mostly(dice, 0.88, Text(drop.SurfaceMph)), Text(drop.ForecastYd), Text(drop.ForecastToDeg), Text(drop.ExitFt),
            Mostly(dice, 0.96, Text(drop.AgeMin)), Text(drop.RunDeg), Text(drop.GroundKt), Text(drop.SpacingS),
            exitSeen ? Text(Seasons.Round(firstExit.Length, 5)) : "", exitSeen ? Text(Seasons.Bearing(firstExit.BearingDeg, 1)) : "",
            Text(m.Lat), Text(m.Lon), Text(m.ElevationFt), $"L{m.Season % 100}-{m.Id[5..]}{(char)('A' + drop.Pass - 1)}",
            Mostly(dice, 0.15, dice.Of(DropRemarks))) { Drop = drop };
    }

    public static Row Write(Drop drop, int order, Touchdown touchdown, Dice dice)
    {
        var row = new Row(LandingColumns, drop.Id, drop.Jumpers[order], Mostly(dice, 0.96, Text(order + 1)), drop.Mission.Canopy.Name,
            touchdown.HungUp ? "yes" : "no", "", "", "", "", "", "", "", "", "", "") { Drop = drop, Touchdown = touchdown };
        var method = row["Measured_By"] = dice.Weighted([(0.42, "gps"), (0.15, "laser"), (0.29, "pace"), (0.14, "estimate")]);
        row["Remarks"] = touchdown.HungUp ? dice.Of(HangUpRemarks) : Mostly(dice, 0.05, dice.Of(LandingRemarks));
        var (sdM, distanceSd, turnSdDeg) = method switch
        {
            "gps" => (dice.Of(3.0, 4.0, 5.0), 0.0, 0.0),
            "laser" => (1.0, 0.0, 0.0),
            "pace" => (0.0, 0.06, 5.0),
            _ => (0.0, 0.18, 12.0),
        };
        if (sdM > 0) row["Measured_SD_m"] = Text(sdM);
        var sdYd = sdM / 0.9144;
        var seen = touchdown.Miss + new Vec(sdYd * dice.Normal(), sdYd * dice.Normal());
        var (distance, bearing) = (seen.Length * (1 + distanceSd * dice.Normal()), seen.BearingDeg + turnSdDeg * dice.Normal());
        if (method == "gps" && dice.Chance(0.37))
        {
            (row["Landing_Lat"], row["Landing_Lon"]) = Position(drop.Mission, seen);
            row.WrittenMissYd = seen.Length;
            return row;
        }
        var (distanceStep, bearingStep) = method switch
        {
            "pace" => (distance > 60 ? 10 : 5, 10),
            "estimate" => (distance > 100 ? 25 : 10, 45),
            _ => (1, 1),
        };
        row.WrittenMissYd = Seasons.Round(Math.Abs(distance), distanceStep);
        row["Landing_Distance_yd"] = Text(row.WrittenMissYd);
        row["Landing_Bearing_deg"] = Text(Seasons.Bearing(bearing, bearingStep));
        return row;
    }

    /// <summary>Decimal degrees of a place near the spot, by the radii of curvature of WGS 84 at the spot.</summary>
    private static (string Lat, string Lon) Position(Mission mission, Vec fromSpotYd)
    {
        const double a = 6378137, f = 1 / 298.257223563, e2 = f * (2 - f);
        var lat = mission.Lat * Math.PI / 180;
        var w = Math.Sqrt(1 - e2 * Math.Sin(lat) * Math.Sin(lat));
        var (meridian, parallel) = (a * (1 - e2) / (w * w * w), a / w * Math.Cos(lat));
        const double degPerYd = 0.9144 * 180 / Math.PI;
        return (Text(mission.Lat + fromSpotYd.North * degPerYd / meridian, "0.000000"),
            Text(mission.Lon + fromSpotYd.East * degPerYd / parallel, "0.000000"));
    }
}
