namespace JumpAnalytics;

/// <summary>A column as it is written: its header, and the type of its values, which are string, double, int or bool, or null.</summary>
internal sealed record WrittenColumn(string Header, Type Type);

/// <summary>A table as it is written, in SI units.</summary>
internal sealed record WrittenTable(string Name, IReadOnlyList<WrittenColumn> Columns, IReadOnlyList<object?[]> Rows)
{
    /// <summary>The table of drops.</summary>
    public static WrittenTable OfDrops(IReadOnlyList<Drop> drops) => Of("drops", drops,
        Text<Drop>("drop_id", d => d.Id),
        Text<Drop>("mission", d => d.Mission),
        Text<Drop>("time", WrittenValues.Time),
        Text<Drop>("season", d => d.Season),
        Text<Drop>("terrain", d => d.Terrain),
        Number<Drop>("target_radius_m", d => d.TargetRadius),
        Number<Drop>("wind_speed_mps", d => d.WindSpeed),
        Number<Drop>("forecast_east_m", d => d.ForecastDrift.East),
        Number<Drop>("forecast_north_m", d => d.ForecastDrift.North),
        Text<Drop>("base", d => d.Base),
        Text<Drop>("spotter", d => d.Spotter),
        Text<Drop>("aircraft", d => d.Aircraft),
        Number<Drop>("spot_lat", d => d.Spot?.Latitude),
        Number<Drop>("spot_lon", d => d.Spot?.Longitude),
        Number<Drop>("spot_elevation_m", d => d.SpotElevation),
        Number<Drop>("wind_from_deg", d => d.WindFrom?.Degrees),
        Number<Drop>("surface_wind_speed_mps", d => d.SurfaceWindSpeed),
        Number<Drop>("exit_height_m", d => d.ExitHeight),
        Number<Drop>("streamer_minutes", d => WrittenValues.Minutes(d.StreamerAge)),
        Number<Drop>("run_heading_deg", d => d.RunHeading?.Degrees),
        Number<Drop>("ground_speed_mps", d => d.GroundSpeed),
        Number<Drop>("exit_spacing_s", d => d.ExitSpacing),
        Number<Drop>("exit_east_m", d => d.ActualExit?.East),
        Number<Drop>("exit_north_m", d => d.ActualExit?.North),
        Number<Drop>("declination_deg", d => d.Declination),
        Text<Drop>("remarks", d => d.Remarks));

    /// <summary>The table of landings.</summary>
    public static WrittenTable OfLandings(IReadOnlyList<Landing> landings) => Of("landings", landings,
        Text<Landing>("drop_id", l => l.Drop.Id),
        Text<Landing>("jumper", l => l.Jumper),
        new("exit_order", typeof(int), l => l.ExitOrder),
        Number<Landing>("landing_east_m", l => WrittenValues.IsPolar(l) ? null : l.Miss?.East),
        Number<Landing>("landing_north_m", l => WrittenValues.IsPolar(l) ? null : l.Miss?.North),
        Number<Landing>("landing_distance_m", l => WrittenValues.IsPolar(l) ? l.MissDistance : null),
        Number<Landing>("landing_bearing_deg", l => WrittenValues.IsPolar(l) ? WrittenValues.Bearing(l) : null),
        Number<Landing>("landing_beyond_m", l => l.Beyond),
        Text<Landing>("canopy", l => l.Canopy),
        new("hung_up", typeof(bool), l => l.HungUp),
        Text<Landing>("measured_by", l => l.MeasuredBy),
        Number<Landing>("measured_sd_m", l => l.MeasuredSd),
        Text<Landing>("track", l => l.Track),
        new("injured", typeof(bool), l => l.Injured),
        Text<Landing>("remarks", l => l.Remarks));

    private sealed record ColumnSource<T>(string Header, Type Type, Func<T, object?> Value);

    private static ColumnSource<T> Text<T>(string header, Func<T, string?> value) => new(header, typeof(string), value);

    private static ColumnSource<T> Number<T>(string header, Func<T, double?> value) => new(header, typeof(double), v => value(v));

    private static WrittenTable Of<T>(string name, IReadOnlyList<T> records, params ColumnSource<T>[] sources) => new(name,
        [.. sources.Select(s => new WrittenColumn(s.Header, s.Type))],
        [.. records.Select(r => Array.ConvertAll(sources, s => s.Value(r)))]);
}
