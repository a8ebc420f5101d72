using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>What the values of accepted rows become, and which of them are set aside.</summary>
public sealed class RowValuesTests
{
    private static JumpLog Read(string moreHeaders, string moreValues, string landingsHeader = TempLog.LandingsHeader,
        params string[] landings)
    {
        using var log = TempLog.Of(TempLog.Lines($"{TempLog.DropsHeader},{moreHeaders}", $"{TempLog.Drop1},{moreValues}"),
            TempLog.Lines([landingsHeader, .. landings]));
        return log.Read();
    }

    [Theory]
    [InlineData("2031-07-14T15:20", 0, 0, null)]
    [InlineData("2031-07-14 15:20", 0, 0, null)]
    [InlineData("2031-07-14T15:20:30", 30, 0, null)]
    [InlineData("2031-07-14 15:20:30.5", 30, 500, null)]
    [InlineData("2031-07-14T15:20Z", 0, 0, 0.0)]
    [InlineData("2031-07-14T15:20:30z", 30, 0, 0.0)]
    [InlineData("2031-07-14T15:20-06:00", 0, 0, -6.0)]
    [InlineData("2031-07-14 15:20-06", 0, 0, -6.0)]
    [InlineData("2031-07-14T15:20:30+05:30", 30, 0, 5.5)]
    public void Times_are_wall_clock_with_their_offset(string text, int second, int millisecond, double? offsetHours)
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, $"d1,m1,{text},timber,25,8,300,90"), TempLog.LandingsHeader);
        var drop = Assert.Single(log.Read().Drops);
        Assert.Equal(new LocalDateTime(2031, 7, 14, 15, 20, second, millisecond), drop.Time);
        Assert.Equal(offsetHours is { } h ? Offset.FromSeconds((int)(h * 3600)) : null, drop.UtcOffset);
        Assert.Equal("2031", drop.Season);
    }

    [Theory]
    [InlineData("Z")]
    [InlineData("2031-13-14T15:20")]
    [InlineData("2031-02-29T15:20")]
    [InlineData("2031-07-14T25:00")]
    [InlineData("2031-07-14T15:20 MDT")]
    [InlineData("2031-07-14T15:20-25:00")]
    [InlineData("2031-07-14T15:20+")]
    [InlineData("+-:")]
    public void Other_times_are_refused(string text)
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, $"d1,m1,{text},timber,25,8,300,90"), TempLog.LandingsHeader);
        Assert.Equal("unreadable time", Assert.Single(log.Read().Intake.Quarantine).Problems[0].Kind);
    }

    [Theory]
    [InlineData("landing_distance_m,landing_bearing_deg", "50,53.13010235415598", 40, 30)]
    [InlineData("landing_distance_m,landing_bearing_deg", "0,", 0, 0)]
    [InlineData("landing_distance_m,landing_bearing_deg", "50,360", 0, 50)]
    [InlineData("landing_east_m,landing_north_m", "-40,30", -40, 30)]
    public void Places_by_distance_and_bearing_or_east_and_north(string header, string values, double east, double north)
    {
        var landing = Assert.Single(Read("base", "x", "drop_id," + header, "d1," + values).Landings);
        Close.Absolute(new LocalVector(east, north), landing.Miss!.Value, 1e-12);
        Close.Absolute(double.Hypot(east, north), landing.MissDistance!.Value, 1e-12);
    }

    /// <summary>The first 30 m line of tests/reference/geodesy: 12.6374328 m east, 27.2083667 m north of the spot, at height 0.</summary>
    [Fact]
    public void Places_by_position()
    {
        var log = Read("spot_lat,spot_lon,exit_lat,exit_lon", "35.139100000,-79.006000000,35.139345246,-79.005861330",
            "drop_id,landing_lat,landing_lon", "d1,35.139345246,-79.005861330");
        Close.Absolute(new LocalVector(12.6374328, 27.2083667), Assert.Single(log.Landings).Miss!.Value, 1e-6);
        Close.Absolute(new LocalVector(12.6374328, 27.2083667), log.Drops[0].ActualExit!.Value, 1e-6);
    }

    [Fact]
    public void The_spots_elevation_stretches_positions()
    {
        var high = Read("spot_lat,spot_lon,spot_elevation_m", "35.139100000,-79.006000000,2000", "drop_id,landing_lat,landing_lon",
            "d1,35.139345246,-79.005861330");
        Assert.InRange(high.Landings[0].MissDistance!.Value / double.Hypot(12.6374328, 27.2083667) - 1, 2000 / 6.400e6, 2000 / 6.335e6);
    }

    [Theory]
    [InlineData("landing_bearing_degm,declination_deg", "80,15", "", "", 95)]
    [InlineData("landing_bearing_degm,declination_deg", "80,-15", "", "", 65)]
    [InlineData("landing_bearing_degm,declination_deg", "350,15", "", "", 5)]
    [InlineData("landing_bearing_degm,jumper", "80,j1", ",declination_deg", ",15", 95)]
    [InlineData("landing_bearing_degm,declination_deg", "80,10", ",declination_deg", ",15", 90)] // the landing's own goes first
    public void Magnetic_bearings_are_turned_by_the_declination(string header, string values,
        string dropHeader, string dropValue, double bearing)
    {
        var log = Read("base" + dropHeader, "x" + dropValue, "drop_id,landing_distance_m," + header, "d1,100," + values);
        Close.Absolute(LocalVector.FromPolar(100, Bearing.FromDegrees(bearing)), Assert.Single(log.Landings).Miss!.Value, 1e-9);
    }

    [Fact]
    public void Every_direction_of_a_drop_may_be_magnetic()
    {
        using var files = TempLog.Of(
            TempLog.Lines("drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,forecast_drift_m,forecast_to_degm,wind_from_degm,"
                + "run_heading_degm,exit_distance_m,exit_bearing_degm,declination_deg",
                "d1,m1,2031-07-14T15:20,timber,25,8,100,75,255,165,50,345,15"), TempLog.LandingsHeader);
        var drop = Assert.Single(files.Read().Drops);
        Close.Absolute(new LocalVector(100, 0), drop.ForecastDrift, 1e-12);
        Assert.Equal(270, drop.WindFrom!.Value.Degrees);
        Assert.Equal(180, drop.RunHeading!.Value.Degrees);
        Close.Absolute(new LocalVector(0, 50), drop.ActualExit!.Value, 1e-12);
        Assert.Equal(15, drop.Declination);
    }

    [Fact]
    public void No_forecast_drift_needs_no_direction()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, "d1,m1,2031-07-14T15:20,timber,25,0,0,"),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        var landing = Assert.Single(files.Read().Landings);
        Assert.Equal(default, landing.Drop.ForecastDrift);
        Assert.Null(landing.MissDownwind);
        Assert.Equal(LandingOutcome.Hit, landing.Outcome);
    }

    [Fact]
    public void Two_columns_of_one_quantity_that_agree_are_one()
    {
        var log = Read("target_radius_ft", "75",
            "drop_id,landing_distance_yd,landing_distance_ft,landing_bearing_deg,landing_east_m,landing_north_m", "d1,12,36.1,90,11,0.5");
        Assert.Equal(25 * 0.9144, log.Drops[0].TargetRadius);
        Close.Relative(12 * 0.9144, Assert.Single(log.Landings).MissDistance!.Value, 1e-14); // the first is taken
    }

    [Fact]
    public void A_place_nearer_than_a_distance_beyond_goes_before_it()
    {
        var landing =
            Assert.Single(Read("base", "x", "drop_id,landing_distance_yd,landing_bearing_deg,landing_beyond_yd", "d1,90,10,75").Landings);
        Assert.False(landing.IsCensored);
        Assert.NotNull(landing.Miss);
    }

    /// <summary>A place on a distance it is said to lie beyond is no contradiction, in whatever units the two are written.</summary>
    [Fact]
    public void A_place_at_the_distance_beyond_is_no_contradiction()
    {
        var log = Read("base", "x", "drop_id,landing_distance_yd,landing_bearing_deg,landing_beyond_ft",
            [.. Enumerable.Range(1, 120).Select(n => $"d1,{n},10,{3 * n}")]);
        Assert.Empty(log.Intake.Quarantine);
        Assert.Equal(120, log.Landings.Count);
    }

    [Theory]
    [InlineData("spot_elevation_ft", "high", "not a number")]
    [InlineData("exit_height_ft", "0", "out of range")]
    [InlineData("surface_wind_speed_kt", "-1", "out of range")]
    [InlineData("streamer_minutes", "-1", "out of range")]
    [InlineData("wind_from_deg", "west", "not a bearing")]
    [InlineData("wind_from_degm", "270", "magnetic bearing")]
    [InlineData("declination_deg", "15E", "not an angle")]
    [InlineData("spot_lat", "46.95", "half a position")]
    [InlineData("exit_bearing_deg,exit_distance_m", "90,-5", "out of range")]
    [InlineData("exit_east_m", "12", "half a place")]
    [InlineData("exit_north_m", "12", "half a place")]
    [InlineData("exit_distance_m", "12", "half a place")]
    [InlineData("exit_bearing_deg", "12", "half a place")]
    [InlineData("exit_lat,exit_lon", "46.95,-116.3", "spot without position")]
    [InlineData("spot_elevation_mi", "1e308", "out of range")]
    public void An_optional_value_of_a_drop_that_can_not_be_used_is_set_aside_and_told(string headers, string values, string kind)
    {
        var log = Read(headers, values);
        Assert.Single(log.Drops);
        Assert.Empty(log.Intake.Quarantine);
        var problem = Assert.Single(log.Intake.SetAside);
        Assert.Equal(kind, problem.Kind);
        Assert.Equal(new RowSource("drops.csv", 2), problem.Source);
        Assert.NotEqual("", problem.Value);
        Assert.Null(log.Drops[0].ActualExit);
        Assert.Contains(log.Intake.Points,
            p => p.StartsWith("1 value in accepted rows could not be read and counts as not recorded", StringComparison.Ordinal));
        Assert.Single(log.Intake.SetAsideTable.Rows);
    }

    [Theory]
    [InlineData("exit_order", "first", "not a whole number")]
    [InlineData("exit_order", "0", "not a whole number")]
    [InlineData("hung_up", "perhaps", "not yes or no")]
    [InlineData("injured", "2", "not yes or no")]
    [InlineData("measured_sd_m", "-1", "out of range")]
    [InlineData("declination_deg", "200", "not an angle")]
    public void An_optional_value_of_a_landing_that_can_not_be_used_is_set_aside(string header, string value, string kind)
    {
        var log = Read("base", "x", TempLog.LandingsHeader + "," + header, $"d1,12,45,{value}");
        Assert.Single(log.Landings);
        Assert.Equal((kind, value, header),
            (Assert.Single(log.Intake.SetAside).Kind, log.Intake.SetAside[0].Value, log.Intake.SetAside[0].Column));
    }

    [Theory]
    [InlineData("d1,1e308,45")]
    [InlineData("d1,1.7e307,45")]
    [InlineData("d1,1e150,45")]
    [InlineData("d1,63000,45")] // 101,000 km
    public void A_number_larger_than_anything_a_log_can_hold_is_out_of_range(string landing)
    {
        var log = Read("base", "x", "drop_id,landing_distance_mi,landing_bearing_deg", landing);
        Assert.Equal("out of range", Assert.Single(Assert.Single(log.Intake.Quarantine).Problems).Kind);
    }

    [Fact]
    public void Yes_and_no_come_in_many_spellings()
    {
        var log = Read("base", "x", TempLog.LandingsHeader + ",hung_up",
            [.. new[] { "yes", "Y", "TRUE", "1", "no", "N", "False", "0", "", "NA" }.Select(v => $"d1,12,45,{v}")]);
        Assert.Equal([true, true, true, true, false, false, false, false, null, null], log.Landings.Select(l => l.HungUp));
        Assert.Empty(log.Intake.SetAside);
    }

    [Fact]
    public void Texts_and_the_rest_are_kept_as_written()
    {
        var log = Read("base,spotter,aircraft,remarks,exit_spacing_s,ground_speed_kt,wind_from_deg,spot_lat,spot_lon",
            "Alder,S7,DC3,\"calm, clear\",1,90,270,46.95,-116.3",
            TempLog.LandingsHeader + ",jumper,exit_order,canopy,measured_by,track,injured,remarks", "d1,12,45,j9,3,round,gps,j9.gpx,no,ok");
        var (drop, landing) = (log.Drops[0], Assert.Single(log.Landings));
        Assert.Equal(("Alder", "S7", "DC3", "calm, clear"), (drop.Base, drop.Spotter, drop.Aircraft, drop.Remarks));
        Assert.Equal((1.0, 270.0, new GeoPosition(46.95, -116.3)),
            (drop.ExitSpacing!.Value, drop.WindFrom!.Value.Degrees, drop.Spot!.Value));
        Assert.Equal(("j9", 3, "round", "gps", "j9.gpx", false, "ok"), (landing.Jumper, landing.ExitOrder!.Value, landing.Canopy,
            landing.MeasuredBy, landing.Track, landing.Injured!.Value, landing.Remarks));
        Assert.Equal("landings.csv:2", landing.Source.ToString());
    }
}
