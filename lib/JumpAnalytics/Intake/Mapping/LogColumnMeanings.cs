namespace JumpAnalytics;

/// <summary>What each column of the log means, in one sentence, with sign and reference.</summary>
internal static class LogColumnMeanings
{
    /// <summary>The meaning of a column.</summary>
    /// <exception cref="KeyNotFoundException">A column was added without its meaning.</exception>
    public static string Of(LogColumn column) => _meanings[column.Name];

    private static readonly Dictionary<string, string> _meanings = new(StringComparer.Ordinal)
    {
        ["drop_id"] = "Id of one pass over the spot; landings name the pass they belong to by it.",
        ["mission"] = "Id of one flight to one fire or training spot with one spotter; passes of a mission share it.",
        ["time"] = "When the pass was flown: ISO 8601 with an offset, or local time, with time_zone or alone.",
        ["date"] = "Day of the pass, where its time has a column of its own or is not recorded; not needed beside time.",
        ["time_of_day"] = "Local time of the pass on that day, like 14:20, 1420 or 2:20 PM.",
        ["terrain"] = "Class of the ground round the spot, in the base's own words.",
        ["target_radius"] = "Radius round the spot that counts as a good landing.",
        ["wind_speed"] = "Speed of the drift wind that the forecast used; it decides the wind band.",
        ["forecast_drift"] = "How far the forecast says an unsteered canopy goes, from exit to landing.",
        ["forecast_to"] = "The direction that forecast drift goes to.",
        ["forecast_east"] = "The forecast drift's part to the east, negative to the west.",
        ["forecast_north"] = "The forecast drift's part to the north, negative to the south.",
        ["base"] = "The base that flew it.",
        ["spotter"] = "Code of the spotter.",
        ["aircraft"] = "The aircraft or its kind.",
        ["spot_lat"] = "Latitude of the spot, north positive.",
        ["spot_lon"] = "Longitude of the spot, east positive.",
        ["spot_position"] = "The spot in any written form: degrees, UTM, MGRS or USNG.",
        ["spot_elevation"] = "Height of the spot above sea level.",
        ["wind_from"] = "The direction the drift wind comes from.",
        ["surface_wind_speed"] = "Speed of the wind at the ground.",
        ["exit_height"] = "Height of the exit above the spot.",
        ["streamer_minutes"] = "Age of the streamers' reading at the exit.",
        ["streamer_time"] = "When the streamers were thrown; gives their age.",
        ["run_heading"] = "The direction of the aircraft's run at the exit.",
        ["ground_speed"] = "Ground speed of the aircraft on its run.",
        ["exit_spacing"] = "Time between two exits of the stick.",
        ["exit_lat"] = "Latitude of the first jumper's actual exit.",
        ["exit_lon"] = "Longitude of the first jumper's actual exit.",
        ["exit_position"] = "The first jumper's actual exit in any written form.",
        ["exit_distance"] = "From the spot to the first jumper's actual exit.",
        ["exit_bearing"] = "The direction from the spot to that exit.",
        ["exit_east"] = "East of the spot at the first jumper's actual exit.",
        ["exit_north"] = "North of the spot at the first jumper's actual exit.",
        ["declination_deg"] = "Magnetic declination, east positive; turns the magnetic bearings of its row.",
        ["datum"] = "Datum of the row's positions: WGS 84 or NAD 83.",
        ["time_zone"] = "IANA time zone of a local time.",
        ["season"] = "Season of the drop; its year when left out.",
        ["remarks"] = "Free text; read, never analysed.",
        ["landing_lat"] = "Latitude of the landing.",
        ["landing_lon"] = "Longitude of the landing.",
        ["landing_position"] = "The landing in any written form: degrees, UTM, MGRS or USNG.",
        ["landing_distance"] = "From the spot to the landing.",
        ["landing_bearing"] = "The direction from the spot to the landing.",
        ["landing_east"] = "East of the spot at the landing.",
        ["landing_north"] = "North of the spot at the landing.",
        ["landing_beyond"] = "The landing is farther from the spot than this, and its place is unknown.",
        ["jumper"] = "Code of the jumper.",
        ["exit_order"] = "Place in the stick, 1 = first out.",
        ["canopy"] = "Class of canopy.",
        ["hung_up"] = "Whether the jumper hung up in a tree.",
        ["measured_by"] = "How the landing was measured: gps, laser, pace or estimate.",
        ["measured_sd"] = "Standard deviation of that measurement for each axis.",
        ["track"] = "File of the jumper's descent track, below the folder of the log.",
        ["injured"] = "Whether the jumper was hurt; never analysed by person.",
    };
}
