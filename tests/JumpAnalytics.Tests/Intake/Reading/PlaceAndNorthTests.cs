using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>
/// Positions in every written form, their datum, and magnetic bearings turned with the model or the log's own declination.
/// </summary>
public sealed class PlaceAndNorthTests
{
    private const string Drop = "drop_id,mission,time,terrain,target_radius_m,wind_speed_mps,forecast_drift_m,forecast_to_deg";

    private static JumpLog Read(string dropHeaders, string dropValues, string landingHeaders, string landing,
        string time = "2026-07-14T15:20-06:00")
    {
        using var log = TempLog.Of(TempLog.Lines($"{Drop},{dropHeaders}", $"d1,m1,{time},timber,25,4,300,90,{dropValues}"),
            TempLog.Lines("drop_id," + landingHeaders, "d1," + landing));
        return log.Read();
    }

    /// <summary>
    /// One spot in five forms. 44 30.5 N 116 15.25 W is 44.508333, -116.254167; its UTM and MGRS come from an independent tool
    /// (GeoConvert's formulas are checked on 40 points elsewhere; here the library's own conversion makes the text and the
    /// reader must find the place again).
    /// </summary>
    [Theory]
    [InlineData("44.508333, -116.254167")]
    [InlineData("N 44 30.500 W 116 15.250")]
    [InlineData("44°30'30.0\"N 116°15'15.0\"W")]
    [InlineData("utm")]
    [InlineData("mgrs")]
    public void A_spot_may_be_written_in_any_form(string text)
    {
        var place = new GeoPosition(44 + 30.5 / 60, -(116 + 15.25 / 60));
        var utm = UtmPosition.From(place).Value!;
        if (text == "utm") text = System.FormattableString.Invariant($"{utm.Zone}T {utm.Easting:0.0} {utm.Northing:0.0}");
        if (text == "mgrs") text = MgrsSquare.Holding(place).Value!.ToString();
        var log = Read("spot_position", $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"",
            "landing_position", "\"44.508333, -116.254167\"");
        Assert.Empty(log.Intake.Quarantine);
        Assert.InRange(Assert.Single(log.Landings).MissDistance!.Value, 0, 1); // the coarsest form has a metre
    }

    [Theory]
    [InlineData("44 30.500 N", "116 15.250 W", 0)]
    [InlineData("44 30.554 N", "116 15.250 W", 100)] // 0.054' of latitude = 100 m (1852 m a minute, to 1 %)
    public void Latitude_and_longitude_columns_take_minutes(string lat, string lon, double miss)
    {
        var log = Read("spot_lat,spot_lon", "44 30.500 N,116 15.250 W", "landing_lat,landing_lon", $"{lat},{lon}");
        Assert.Equal(miss, Assert.Single(log.Landings).MissDistance!.Value, 0.01 * miss + 1e-6);
        Assert.Empty(log.Intake.Noted);
    }

    [Theory]
    [InlineData("44.50833,116.25417", "2026-07-14T15:20", 1)]
    [InlineData("44.50833,-116.25417", "2026-07-14T15:20", 0)]
    [InlineData("44.50833,116.25417", "2026-07-14T15:20+08:00", 0)]
    public void Longitudes_that_may_lack_their_sign_are_asked_about(string spot, string time, int asked)
    {
        var log = Read("spot_lat,spot_lon", spot, "landing_distance_m,landing_bearing_deg", "20,90", time);
        Assert.Equal(asked, log.Intake.Points.Count(p => p.StartsWith("All longitudes were read as east", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_coarse_position_is_used_and_told()
    {
        var log = Read("spot_lat,spot_lon", "44.50833,-116.25417", "landing_lat,landing_lon", "44 30.5,116 15.2 W");
        Assert.Single(log.Landings);
        var note = Assert.Single(log.Intake.Noted);
        Assert.Equal(("coarse position", "landing_lat", "landings.csv", 2), (note.Kind, note.Column, note.Source.File, note.Source.Line));
        Assert.Contains("185 m", note.Reason, StringComparison.Ordinal);
        Assert.Contains("coarse position", log.Intake.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Nad83_is_taken_as_wgs84_and_told()
    {
        var log = Read("spot_lat,spot_lon,datum", "44.50833,-116.25417,NAD 83",
            "landing_lat,landing_lon,datum", "44.50900,-116.25417,WGS84");
        Assert.Single(log.Landings);
        Assert.Equal("datum NAD 83", Assert.Single(log.Intake.Noted).Kind);
    }

    [Fact]
    public void Nad27_is_refused_with_the_size_of_the_error()
    {
        var log = Read("spot_lat,spot_lon", "44.50833,-116.25417", "landing_lat,landing_lon,datum", "44.50900,-116.25417,NAD27");
        var problem = Assert.Single(Assert.Single(log.Intake.Quarantine).Problems);
        Assert.Equal(("datum", "datum", "NAD27"), (problem.Kind, problem.Column, problem.Value));
        Assert.Contains("96 m", problem.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_spot_on_nad27_is_set_aside_and_the_drop_kept()
    {
        var log = Read("spot_lat,spot_lon,datum", "44.50833,-116.25417,NAD27", "landing_distance_m,landing_bearing_deg", "20,90");
        Assert.Null(Assert.Single(log.Landings).Drop.Spot);
        Assert.Equal("datum", Assert.Single(log.Intake.SetAside).Kind);
    }

    /// <summary>
    /// WMM2025 tells 12.87° east at 44 N 150 W on 20 July 2025 (the model is checked against its official test values elsewhere).
    /// </summary>
    [Fact]
    public void A_magnetic_bearing_is_turned_with_the_model_for_place_and_date()
    {
        var log = Read("spot_lat,spot_lon", "44,-150", "landing_distance_m,landing_bearing_degm", "20,0", "2025-07-20T12:00-10:00");
        var landing = Assert.Single(log.Landings);
        Assert.Equal(12.874, landing.Miss!.Value.Direction!.Value.Degrees, 0.001);
        Assert.Null(landing.Drop.Declination); // the log gives none
    }

    [Fact]
    public void Without_position_or_in_years_the_model_does_not_hold_for_a_declination_is_needed()
    {
        Assert.Equal("magnetic bearing", Kind(Read("base", "x", "landing_distance_m,landing_bearing_degm", "20,0")));
        Assert.Equal("magnetic bearing",
            Kind(Read("spot_lat,spot_lon", "44,-150", "landing_distance_m,landing_bearing_degm", "20,0", "2024-07-20T12:00-10:00")));
        Assert.Equal("magnetic bearing",
            Kind(Read("spot_lat,spot_lon", "44,-150", "landing_distance_m,landing_bearing_degm", "20,0", "2030-07-20T12:00-10:00")));
        Assert.Single(Read("spot_lat,spot_lon,declination_deg", "44,-150,13.1", "landing_distance_m,landing_bearing_degm", "20,0",
            "2024-07-20T12:00-10:00").Landings);

        static string Kind(JumpLog log) => Assert.Single(Assert.Single(log.Intake.Quarantine).Problems).Kind;
    }

    [Theory]
    [InlineData("13.5", 0)] // within a degree of 12.87, or three standard errors of about 0.35
    [InlineData("-13", 1)] // the sign lost: 25.9° off
    [InlineData("15", 1)]
    public void The_declination_of_the_log_wins_and_is_compared_with_the_model(string given, int notes)
    {
        var log = Read("spot_lat,spot_lon,declination_deg", $"44,-150,{given}", "landing_distance_m,landing_bearing_degm", "20,90",
            "2025-07-20T12:00-10:00");
        Assert.Equal(90 + double.Parse(given, System.Globalization.CultureInfo.InvariantCulture),
            Assert.Single(log.Landings).Miss!.Value.Direction!.Value.Degrees, 1e-9);
        Assert.Equal(notes, log.Intake.Noted.Count(n => n.Kind == "declination"));
    }

    /// <summary>
    /// Fall back in America/Denver on 2026-11-01 at 02:00 (01:30 comes twice), spring forward on 2026-03-08 (02:30
    /// is skipped): IANA database.
    /// </summary>
    [Theory]
    [InlineData("2026-07-14T15:20", "America/Denver", -6, null)]
    [InlineData("2026-01-14T15:20", "america/denver", -7, null)]
    [InlineData("2026-11-01T01:30", "America/Denver", -6, "repeated hour")]
    [InlineData("2026-07-14T15:20-06:00", "America/Denver", -6, null)]
    [InlineData("2026-07-14T15:20-07:00", "America/Denver", -7, "offset and zone")]
    public void A_local_time_gets_the_offset_of_its_zone(string time, string zone, int hours, string? note)
    {
        var log = Read("time_zone", zone, "landing_distance_m,landing_bearing_deg", "20,90", time);
        Assert.Equal(Offset.FromHours(hours), Assert.Single(log.Drops).UtcOffset);
        Assert.Equal(note, log.Intake.Noted.SingleOrDefault()?.Kind);
    }

    [Fact]
    public void A_time_that_the_clocks_skipped_is_refused_and_an_unknown_zone_set_aside()
    {
        var skipped = Read("time_zone", "America/Denver", "landing_distance_m,landing_bearing_deg", "20,90", "2026-03-08T02:30");
        Assert.Equal("skipped hour", skipped.Intake.Quarantine.Single(q => q.Source.File == "drops.csv").Problems[0].Kind);
        var unknown = Read("time_zone", "Mountain", "landing_distance_m,landing_bearing_deg", "20,90");
        Assert.Equal("unknown time zone", Assert.Single(unknown.Intake.SetAside).Kind);
        Assert.Equal(Offset.FromHours(-6), Assert.Single(unknown.Drops).UtcOffset);
    }

    [Theory]
    [InlineData("15:12", "", 8.0, null)]
    [InlineData("15:12", "8", 8.0, null)]
    [InlineData("15:12", "20", 8.0, "streamer age")]
    [InlineData("2026-07-14T21:12Z", "", 8.0, null)] // 15:12 at six hours west
    [InlineData("15:40", "5", 5.0, "streamers after exit")]
    [InlineData("noonish", "5", 5.0, "unreadable time")]
    [InlineData("", "5", 5.0, null)]
    public void The_age_of_the_streamers_comes_from_the_two_times(string streamers, string minutes, double expected, string? told)
    {
        var log = Read("streamer_time,streamer_minutes", $"{streamers},{minutes}", "landing_distance_m,landing_bearing_deg", "20,90");
        Assert.Equal(60 * expected, Assert.Single(log.Drops).StreamerAge!.Value, 1e-9);
        Assert.Equal(told, log.Intake.Noted.Concat(log.Intake.SetAside).SingleOrDefault()?.Kind);
    }
}
