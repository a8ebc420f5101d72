using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>
/// Invented spreadsheets with headers as a base might write them, and by hand what each header means ("" for nothing of the log's).
/// </summary>
internal static class MessySheets
{
    public sealed record Column(string Header, string Expected, Func<int, string> Value);

    public sealed record Table(string File, IReadOnlyList<Column> Columns, int Rows)
    {
        public string Text => string.Join('\n', Enumerable.Range(-1, Rows + 1)
            .Select(r => string.Join(',', Columns.Select(c => r < 0 ? $"\"{c.Header}\"" : c.Value(r))))) + "\n";
    }

    public sealed record Sheet(string Name, IReadOnlyList<Table> Tables);

    /// <summary>A paper load record typed off: two tables, unit words in brackets or none at all.</summary>
    public static Sheet LoadRecord { get; } = new("load record",
    [
        new("drops.csv",
        [
            new("Load #", "drop_id", r => $"L{100 + r}"), new("Fire Name", "mission", r => $"Creek {r / 2}"),
            new("Date/Time", "time", r => $"2031-07-{1 + r:00} 14:{10 + r}"),
            new("Fuel Type", "terrain", r => Pick(r, "TBR", "GRS", "BRU")),
            new("Spot Radius (yds)", "target_radius_yd", r => Pick(r, "25", "30")),
            new("Wind (kts)", "wind_speed_kt", r => $"{5 + (r % 9)}"), new("Wind Dir (°M)", "wind_from_degm", r => $"{(r * 37) % 360}"),
            new("WDI Drift", "forecast_drift_unit?", r => $"{250 + (20 * r)}"),
            new("Drift Hdg", "forecast_to_unit?", r => $"{(r * 53) % 360}"),
            new("Exit Alt AGL ft", "exit_height_ft", r => $"{2800 + (50 * (r % 5))}"), new("Sptr", "spotter", r => Pick(r, "AB", "CD")),
            new("A/C", "aircraft", r => Pick(r, "Twin", "Jet")),
            new("Comments", "remarks", r => r % 3 == 0 ? "gusty over the ridge and smoke" : ""),
            new("Load Sheet Page", "", r => $"{r / 3}"),
        ], 16),
        new("landings.csv",
        [
            new("Load #", "drop_id", r => $"L{100 + (r / 3)}"), new("Jumper Name", "jumper", r => $"J{r % 7}"),
            new("Dist to spot", "landing_distance_unit?", r => $"{(r * 7) % 60}"),
            new("Brg", "landing_bearing_unit?", r => $"{(r * 41) % 360}"), new("Chute", "canopy", r => Pick(r, "RA", "RD")),
            new("Hung up?", "hung_up", r => Pick(r, "N", "N", "Y")),
            new("Order", "exit_order", r => $"{1 + (r % 3)}"),
        ], 48),
    ]);

    /// <summary>One flat table out of a database: abbreviations without blanks.</summary>
    public static Sheet Database { get; } = new("database export",
    [
        new("jumps.csv",
        [
            new("DropID", "drop_id", r => $"{r / 2}"), new("MsnNo", "mission", r => $"M{r / 6}"),
            new("DropDTG", "time", r => $"2031-06-{1 + (r / 2):00}T13:{(r % 50) + 10}"),
            new("TerrainClass", "terrain", r => Pick(r / 2, "ridge", "flat", "bowl")), new("TgtRad_m", "target_radius_m", _ => "25"),
            new("WindSpd_mph", "wind_speed_mph", r => $"{4 + (r % 8)}"),
            new("WindDir", "wind_from_unit?", r => $"{(r * 29) % 360}"),
            new("SfcWindSpd", "surface_wind_speed_unit?", r => $"{2 + (r % 6)}"),
            new("FcstDriftDist_yd", "forecast_drift_yd", r => $"{300 + (r * 9)}"),
            new("FcstDriftBrg_true", "forecast_to_deg", r => $"{(r * 61) % 360}"),
            new("SpotLat", "spot_lat", r => $"44.{5000 + r}"), new("SpotLong", "spot_lon", r => $"-116.{2000 + r}"),
            new("SpotElev_ft", "spot_elevation_ft", r => $"{5200 + (10 * r)}"),
            new("ExitHt", "exit_height_unit?", _ => "3000"), new("GndSpd_kts", "ground_speed_kt", r => $"{85 + (r % 5)}"),
            new("ExitInterval_sec", "exit_spacing_s", _ => "1.5"),
            new("LandLat", "landing_lat", r => $"44.{5003 + r}"), new("LandLon", "landing_lon", r => $"-116.{2004 + r}"),
            new("JmprCode", "jumper", r => $"J{r}"),
            new("HangUp", "hung_up", r => Pick(r, "0", "0", "0", "1")), new("MeasMethod", "measured_by", r => Pick(r, "gps", "pace")),
            new("RecCreatedBy", "", r => Pick(r, "clerk1", "clerk2")),
        ], 30),
    ]);

    /// <summary>Headers in sentences, by someone who means well.</summary>
    public static Sheet Sentences { get; } = new("sentences",
    [
        new("drops.csv",
        [
            new("Pass number", "drop_id", r => $"P{r}"), new("Incident", "mission", r => $"I{r / 2}"),
            new("Date and time of drop", "time", r => $"2031-08-{1 + r:00}T10:{15 + r}"),
            new("Type of ground cover", "terrain", r => Pick(r, "closed timber", "meadow")),
            new("Radius of target in feet", "target_radius_ft", _ => "75"),
            new("Winds aloft in knots", "wind_speed_kt", r => $"{3 + r}"),
            new("Predicted drift in yards", "forecast_drift_yd", r => $"{200 + (30 * r)}"),
            new("Direction of drift (true)", "forecast_to_deg", r => $"{(r * 77) % 360}"),
            new("Minutes since streamers", "streamer_minutes", r => $"{5 + r}"),
            new("Jump altitude (hundreds of feet)", "exit_height_unit?", _ => "30"),
            new("Jump run heading", "run_heading_unit?", r => $"{(r * 83) % 360}"),
            new("Weather remarks", "remarks", r => r % 2 == 0 ? "thin cloud over the saddle" : ""),
            new("Pilot", "", r => Pick(r, "P1", "P2")),
        ], 14),
        new("landings.csv",
        [
            new("Pass number", "drop_id", r => $"P{r / 4}"), new("Smokejumper", "jumper", r => $"S{r % 9}"),
            new("Yards off target", "landing_distance_yd", r => $"{(r * 5) % 70}"),
            new("Direction from target, magnetic", "landing_bearing_degm", r => $"{(r * 47) % 360}"),
            new("Position in stick", "exit_order", r => $"{1 + (r % 4)}"),
            new("Landed in tree", "hung_up", r => Pick(r, "no", "no", "yes")), new("Injuries", "injured", r => r % 20 == 0 ? "Y" : "N"),
            new("How measured", "measured_by", r => Pick(r, "pace", "laser")),
        ], 56),
    ]);

    /// <summary>Short, misspelt, with two units in one header and units that the log does not have.</summary>
    public static Sheet Misspelt { get; } = new("misspelt",
    [
        new("jumps.csv",
        [
            new("Stick", "drop_id", r => $"{2031}-{r / 3}"), new("Incidnet", "mission", r => $"F{r / 6}"),
            new("Date", "Date", r => $"2031-07-{1 + (r / 3):00}"),
            new("Terain", "terrain", r => Pick(r / 3, "lee", "flat")), new("Target radius ft/m", "target_radius_unit?", _ => "60"),
            new("Wind km/h", "wind_speed_unit?", r => $"{8 + (r % 12)}"),
            new("Drift", "forecast_drift_unit?", r => $"{310 + (r * 11)}"),
            new("Azimuth of drift", "forecast_to_unit?", r => $"{(r * 67) % 360}"),
            new("Miss (paces)", "landing_distance_unit?", r => $"{(r * 3) % 50}"),
            new("Miss dir", "landing_bearing_unit?", r => $"{(r * 31) % 360}"), new("Parachute", "canopy", r => Pick(r, "round", "square")),
            new("Elevation", "spot_elevation_unit?", r => $"{6000 + r}"), new("Height MSL (ft)", "exit_height_ft", _ => "9000"),
            new("Yr", "season", _ => "2031"), new("Meal cost", "", r => $"{12 + r}.5"),
        ], 30),
    ]);

    /// <summary>Written after the words were settled, and never used to settle one.</summary>
    public static Sheet Unseen { get; } = new("unseen",
    [
        new("drops.csv",
        [
            new("Jump No.", "drop_id", r => $"{r + 1}"), new("Request", "mission", r => $"R{r / 2}"),
            new("When out the door", "time", r => $"2031-07-{1 + r:00} 15:{10 + r}"),
            new("Ground class", "terrain", r => Pick(r, "slope", "bench")), new("Circle yds", "target_radius_yd", _ => "30"),
            new("Mean wind KT", "wind_speed_kt", r => $"{5 + (r % 9)}"),
            new("Gnd wind MPH", "surface_wind_speed_mph", r => $"{2 + (r % 5)}"),
            new("Streamers went (yd)", "forecast_drift_yd", r => $"{250 + (20 * r)}"),
            new("Streamers went toward", "forecast_to_unit?", r => $"{(r * 53) % 360}"),
            new("Door altitude AGL", "exit_height_unit?", _ => "3000"), new("Plane", "aircraft", r => Pick(r, "Twin", "Jet")),
            new("Mag variation", "declination_deg", _ => "14.5"), new("Spotter in charge", "spotter", r => Pick(r, "AB", "CD")),
            new("Drift from 3000 ft", "forecast_drift_unit?", _ => ""), new("Fuel burned", "", r => $"{200 + r}"),
        ], 16),
        new("landings.csv",
        [
            new("Jump No.", "drop_id", r => $"{1 + (r / 3)}"),
            new("Who", "jumper", r => $"J{r % 7}"), new("How far out", "landing_distance_unit?", r => $"{(r * 7) % 60}"),
            new("Which way from X", "landing_bearing_unit?", r => $"{(r * 41) % 360}"),
            new("Canopy model", "canopy", r => Pick(r, "RA", "RD")), new("Tree'd", "hung_up", r => Pick(r, "N", "N", "Y")),
            new("Hurt?", "injured", _ => "N"), new("Out #", "exit_order", r => $"{1 + (r % 3)}"),
            new("Farther than (yds)", "landing_beyond_yd", r => r % 9 == 0 ? "100" : ""),
        ], 48),
    ]);

    public static IReadOnlyList<Sheet> All { get; } = [LoadRecord, Database, Sentences, Misspelt, Unseen];

    private static string Pick(int row, params string[] values) => values[row % values.Length].ToString(CultureInfo.InvariantCulture);
}
