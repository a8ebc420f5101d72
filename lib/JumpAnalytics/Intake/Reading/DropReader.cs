namespace JumpAnalytics;

/// <summary>Makes a drop from a row of the log.</summary>
internal static class DropReader
{
    private static readonly LogColumn[] _bearings =
        [LogColumns.ForecastTo, LogColumns.ExitBearing, LogColumns.WindFrom, LogColumns.RunHeading];

    /// <summary>The drop, or null with the reader's refusals saying why.</summary>
    public static Drop? Read(RowReader row)
    {
        var id = row.Text(LogColumns.DropId, required: true);
        var mission = row.Text(LogColumns.Mission, required: true);
        var time = row.Time();
        var terrain = row.Text(LogColumns.Terrain, required: true);
        if (Cell.Any.Equals(terrain, StringComparison.OrdinalIgnoreCase))
            row.Refuse(row.HeaderOf(LogColumns.Terrain), terrain!, "reserved word", "is the name of every terrain together in the tables",
                "name the class of ground");
        var radius = row.Measure(LogColumns.TargetRadius, required: true, least: 0, leastIsAllowed: false);
        var wind = row.Measure(LogColumns.WindSpeed, required: true, least: 0);
        var spot = row.Position(LogColumns.SpotLat, LogColumns.SpotLon, LogColumns.SpotPosition);
        var elevation = row.Measure(LogColumns.SpotElevation);
        var given = row.Degrees(LogColumns.Declination, 180);
        var declination = time is { } when && (given is not null || _bearings.Any(row.IsMagnetic))
            ? MagneticNorth.DeclinationOf(row, given, spot, elevation, when.Time.Date) : null;
        row.AimAt(radius);
        var forecast = ForecastDrift(row, declination);
        var exit = ActualExit(row, declination, spot, elevation);
        if (row.IsRefused) return null;
        return new Drop
        {
            Id = id!,
            Mission = mission!,
            Time = time!.Value.Time,
            TimeRecorded = time.Value.Recorded,
            UtcOffset = time.Value.Offset,
            Season = row.Text(LogColumns.Season) ?? time.Value.Time.Year.ToString(System.Globalization.CultureInfo.InvariantCulture),
            Terrain = terrain!,
            TargetRadius = radius!.Value,
            WindSpeed = wind!.Value,
            ForecastDrift = forecast!.Value,
            Source = row.Source,
            Base = row.Text(LogColumns.Base),
            Spotter = row.Text(LogColumns.Spotter),
            Aircraft = row.Text(LogColumns.Aircraft),
            Spot = spot,
            SpotElevation = elevation,
            WindFrom = row.Bearing(LogColumns.WindFrom, declination),
            SurfaceWindSpeed = row.Measure(LogColumns.SurfaceWindSpeed, least: 0),
            ExitHeight = row.Measure(LogColumns.ExitHeight, least: 0, leastIsAllowed: false),
            StreamerAge = row.StreamerAge(time.Value),
            RunHeading = row.Bearing(LogColumns.RunHeading, declination),
            GroundSpeed = row.Measure(LogColumns.GroundSpeed, least: 0, leastIsAllowed: false),
            ExitSpacing = row.Measure(LogColumns.ExitSpacing, least: 0),
            ActualExit = exit,
            Declination = given,
            Remarks = row.Text(LogColumns.Remarks),
        };
    }

    private static LocalVector? ForecastDrift(RowReader row, double? declination)
    {
        if (row.IsFilled(LogColumns.ForecastEast) || row.IsFilled(LogColumns.ForecastNorth))
        {
            return row.Measure(LogColumns.ForecastEast, required: true) is { } east
                && row.Measure(LogColumns.ForecastNorth, required: true) is { } north
                && new LocalVector(east, north) is var forecast && row.IsNear(LogColumns.ForecastEast, forecast.Length, required: true)
                ? forecast : null;
        }
        if (row.Measure(LogColumns.ForecastDrift, required: true, least: 0) is not { } drift
            || !row.IsNear(LogColumns.ForecastDrift, drift, required: true)) return null;
        if (drift == 0 && !row.IsFilled(LogColumns.ForecastTo)) return default(LocalVector);
        return row.Bearing(LogColumns.ForecastTo, declination, required: true) is { } to ? LocalVector.FromPolar(drift, to) : null;
    }

    private static LocalVector? ActualExit(RowReader row, double? declination, GeoPosition? spot, double? elevation)
    {
        if (row.AreFilled(LogColumns.ExitEast, LogColumns.ExitNorth, "half a place")
            && row.Measure(LogColumns.ExitEast) is { } east && row.Measure(LogColumns.ExitNorth) is { } north)
            return new LocalVector(east, north) is var offset && row.IsNear(LogColumns.ExitEast, offset.Length, required: false)
                ? offset : null;
        if (row.AreFilled(LogColumns.ExitDistance, LogColumns.ExitBearing, "half a place")
            && row.Measure(LogColumns.ExitDistance, least: 0) is { } distance
            && row.Bearing(LogColumns.ExitBearing, declination) is { } bearing)
            return row.IsNear(LogColumns.ExitDistance, distance, required: false) ? LocalVector.FromPolar(distance, bearing) : null;
        if (row.Position(LogColumns.ExitLat, LogColumns.ExitLon, LogColumns.ExitPosition) is not { } exit) return null;
        var column = row.IsFilled(LogColumns.ExitPosition) ? LogColumns.ExitPosition : LogColumns.ExitLat;
        if (spot is { } origin)
            return new LocalFrame(origin, elevation ?? 0).ToLocal(exit) is var place && row.IsNear(column, place.Length, required: false)
                ? place : null;
        row.Leave(column, "spot without position", "is a position, and the drop has none for its spot to measure from",
            "add spot_lat and spot_lon, or give the exit's distance and bearing from the spot");
        return null;
    }
}
