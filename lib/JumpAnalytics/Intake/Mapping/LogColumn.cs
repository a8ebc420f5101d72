namespace JumpAnalytics;

/// <summary>What the text of a column means.</summary>
internal enum ColumnKind
{
    Text, Time, Date, Clock, Distance, Speed, Duration, Bearing, Degrees, Whole, YesNo,
}

/// <summary>A quantity of the log and the headers it may stand under.</summary>
internal sealed record LogColumn(string Name, ColumnKind Kind)
{
    private static int _made;

    /// <summary>Its place in tables by column; columns are made once, in <see cref="LogColumns"/>.</summary>
    public int Number { get; } = Interlocked.Increment(ref _made) - 1;

    /// <summary>Numbers given so far.</summary>
    public static int Made => _made;

    /// <summary>Every header that is accepted for this quantity, with the unit it states.</summary>
    public IEnumerable<ColumnHeader> Headers() => Kind switch
    {
        ColumnKind.Distance => WithUnits(MeasureUnit.Distances),
        ColumnKind.Speed => WithUnits(MeasureUnit.Speeds),
        ColumnKind.Duration when this == LogColumns.StreamerAge => [new("streamer_minutes", MeasureUnit.Times["min"])],
        ColumnKind.Duration => WithUnits(MeasureUnit.Times),
        ColumnKind.Bearing => [new(Name + "_deg"), new(Name + "_degm", IsMagnetic: true)],
        _ => [new(Name)],
    };

    /// <summary>The accepted headers in one short text: <c>target_radius_m|ft|yd…</c>.</summary>
    public string Accepted()
    {
        var headers = Headers().Select(h => h.Text).ToList();
        return headers.Count == 1 ? headers[0] : Name + "_" + string.Join("|", headers.Select(h => h[(Name.Length + 1)..]));
    }

    private IEnumerable<ColumnHeader> WithUnits(IReadOnlyDictionary<string, MeasureUnit> units) =>
        units.Values.OrderBy(u => u.Suffix, StringComparer.Ordinal).Select(u => new ColumnHeader($"{Name}_{u.Suffix}", u));
}

/// <summary>One accepted header: its text, the unit it states, and whether its bearings are magnetic.</summary>
internal sealed record ColumnHeader(string Text, MeasureUnit? Unit = null, bool IsMagnetic = false);

/// <summary>The quantities of the two tables of the log.</summary>
internal static class LogColumns
{
    public static readonly LogColumn
        DropId = new("drop_id", ColumnKind.Text), Mission = new("mission", ColumnKind.Text), Time = new("time", ColumnKind.Time),
        Terrain = new("terrain", ColumnKind.Text), TargetRadius = new("target_radius", ColumnKind.Distance),
        WindSpeed = new("wind_speed", ColumnKind.Speed), ForecastDrift = new("forecast_drift", ColumnKind.Distance),
        ForecastTo = new("forecast_to", ColumnKind.Bearing), ForecastEast = new("forecast_east", ColumnKind.Distance),
        ForecastNorth = new("forecast_north", ColumnKind.Distance), Base = new("base", ColumnKind.Text),
        Spotter = new("spotter", ColumnKind.Text), Aircraft = new("aircraft", ColumnKind.Text),
        SpotLat = new("spot_lat", ColumnKind.Degrees), SpotLon = new("spot_lon", ColumnKind.Degrees),
        SpotElevation = new("spot_elevation", ColumnKind.Distance), WindFrom = new("wind_from", ColumnKind.Bearing),
        SurfaceWindSpeed = new("surface_wind_speed", ColumnKind.Speed), ExitHeight = new("exit_height", ColumnKind.Distance),
        StreamerAge = new("streamer_minutes", ColumnKind.Duration), RunHeading = new("run_heading", ColumnKind.Bearing),
        GroundSpeed = new("ground_speed", ColumnKind.Speed), ExitSpacing = new("exit_spacing", ColumnKind.Duration),
        ExitLat = new("exit_lat", ColumnKind.Degrees), ExitLon = new("exit_lon", ColumnKind.Degrees),
        ExitDistance = new("exit_distance", ColumnKind.Distance), ExitBearing = new("exit_bearing", ColumnKind.Bearing),
        ExitEast = new("exit_east", ColumnKind.Distance), ExitNorth = new("exit_north", ColumnKind.Distance),
        Declination = new("declination_deg", ColumnKind.Degrees), Datum = new("datum", ColumnKind.Text),
        SpotPosition = new("spot_position", ColumnKind.Text), ExitPosition = new("exit_position", ColumnKind.Text),
        TimeZone = new("time_zone", ColumnKind.Text), StreamerTime = new("streamer_time", ColumnKind.Time),
        Season = new("season", ColumnKind.Text), Date = new("date", ColumnKind.Date), TimeOfDay = new("time_of_day", ColumnKind.Clock),
        Remarks = new("remarks", ColumnKind.Text);

    public static readonly LogColumn
        LandingLat = new("landing_lat", ColumnKind.Degrees), LandingLon = new("landing_lon", ColumnKind.Degrees),
        LandingDistance = new("landing_distance", ColumnKind.Distance), LandingBearing = new("landing_bearing", ColumnKind.Bearing),
        LandingEast = new("landing_east", ColumnKind.Distance), LandingNorth = new("landing_north", ColumnKind.Distance),
        LandingPosition = new("landing_position", ColumnKind.Text), LandingBeyond = new("landing_beyond", ColumnKind.Distance),
        Jumper = new("jumper", ColumnKind.Text),
        ExitOrder = new("exit_order", ColumnKind.Whole), Canopy = new("canopy", ColumnKind.Text),
        HungUp = new("hung_up", ColumnKind.YesNo), MeasuredBy = new("measured_by", ColumnKind.Text),
        MeasuredSd = new("measured_sd", ColumnKind.Distance), Track = new("track", ColumnKind.Text),
        Injured = new("injured", ColumnKind.YesNo);

    /// <summary>The columns of the table of drops.</summary>
    public static IReadOnlyList<LogColumn> Drops { get; } =
    [
        DropId, Mission, Time, Date, TimeOfDay, Terrain, TargetRadius, WindSpeed, ForecastDrift, ForecastTo, ForecastEast,
        ForecastNorth, Base, Spotter, Aircraft, SpotLat, SpotLon, SpotElevation, WindFrom, SurfaceWindSpeed, ExitHeight, StreamerAge,
        RunHeading, GroundSpeed, ExitSpacing,
        ExitLat, ExitLon, ExitDistance, ExitBearing, ExitEast, ExitNorth, ExitPosition, SpotPosition, Declination, Datum,
        TimeZone, StreamerTime, Season, Remarks,
    ];

    /// <summary>The columns of the table of landings.</summary>
    public static IReadOnlyList<LogColumn> Landings { get; } =
    [
        DropId, LandingLat, LandingLon, LandingDistance, LandingBearing, LandingEast, LandingNorth,
        LandingPosition, LandingBeyond, Jumper, ExitOrder,
        Canopy, HungUp, MeasuredBy, MeasuredSd, Track, Injured, Declination, Datum, Remarks,
    ];

    /// <summary>What the table of drops can't do without: one of the sets in each entry, all columns of a set.</summary>
    public static IReadOnlyList<LogColumn[][]> RequiredOfDrops { get; } =
    [
        [[DropId]], [[Mission]], [[Time], [Date]], [[Terrain]], [[TargetRadius]], [[WindSpeed]],
        [[ForecastDrift, ForecastTo], [ForecastEast, ForecastNorth]],
    ];

    /// <summary>What the table of landings can't do without.</summary>
    public static IReadOnlyList<LogColumn[][]> RequiredOfLandings { get; } =
    [
        [[DropId]],
        [[LandingDistance, LandingBearing], [LandingEast, LandingNorth], [LandingLat, LandingLon], [LandingPosition], [LandingBeyond]],
    ];
}
