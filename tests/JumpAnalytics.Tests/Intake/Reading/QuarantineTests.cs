namespace JumpAnalytics.Tests;

/// <summary>Each way a row can be refused: file, line, column, value, kind, reason, and what to try.</summary>
public sealed class QuarantineTests
{
    private const string DropsHeader =
        TempLog.DropsHeader + ",forecast_to_degm,wind_from_degm,declination_deg,target_radius_ft,spot_lat,spot_lon";
    private const string LandingsHeader = "drop_id,landing_distance_yd,landing_bearing_deg,landing_bearing_degm,declination_deg,"
        + "landing_east_m,landing_north_m,landing_lat,landing_lon,landing_beyond_yd,jumper,hung_up";

    private const string GoodDrop = "d1,m1,2031-07-14T15:20,timber,25,8,300,90,,,,,,";
    private const string PlacedDrop = "d2,m1,2031-07-14T15:30,timber,25,8,300,90,,,,,46.95,-116.3";
    private const string RefusedDrop = "d3,m1,later,timber,25,8,300,90,,,,,,";
    private const string GoodLanding = "d1,12,45,,,,,,,,j1,no";

    [Theory]
    [InlineData(",m1,2031-07-14T15:20,timber,25,8,300,90,,,,,,", "drop_id", "", "blank", "is blank", "load record")]
    [InlineData("x,  ,2031-07-14T15:20,timber,25,8,300,90,,,,,,", "mission", "", "blank", "is blank", "load record")]
    [InlineData("x,NA,2031-07-14T15:20,timber,25,8,300,90,,,,,,", "mission", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,,timber,25,8,300,90,,,,,,", "time", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,2031-07-14T15:20,,25,8,300,90,,,,,,", "terrain", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,2031-07-14T15:20,All,25,8,300,90,,,,,,", "terrain", "All", "reserved word",
        "every terrain together", "class of ground")]
    [InlineData("x,m1,2031-07-14T15:20,timber,,8,300,90,,,,,,", "target_radius_yd", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,,300,90,,,,,,", "wind_speed_mph", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,,90,,,,,,", "forecast_drift_yd", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,,,,,,,", "forecast_to_deg", "", "blank", "is blank", "load record")]
    [InlineData("x,m1,31/31/2031 15:20,timber,25,8,300,90,,,,,,", "time", "31/31/2031 15:20", "unreadable time",
        "ISO 8601", "2031-07-14T15:20-06:00")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25 rods,8,300,90,,,,,,", "target_radius_yd", "25 rods", "not a number",
        "is not a number", "decimal point")]
    [InlineData("x,m1,2031-07-14T15:20,timber,\"25,5\",8,300,90,,,,,,", "target_radius_yd", "25,5",
        "not a number", "decimal comma?", "decimal point")]
    [InlineData("x,m1,2031-07-14T15:20,timber,Infinity,8,300,90,,,,,,", "target_radius_yd", "Infinity", "not a number",
        "is not a number", "decimal point")]
    [InlineData("x,m1,2031-07-14T15:20,timber,20,8,300,90,,,,-1,,", "target_radius_ft", "-1", "out of range", "more than 0", "sign")]
    [InlineData("x,m1,2031-07-14T15:20,timber,0,8,300,90,,,,,,", "target_radius_yd", "0", "out of range", "must be more than 0", "sign")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,-8,300,90,,,,,,", "wind_speed_mph", "-8", "out of range", "must be at least 0", "sign")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,-300,90,,,,,,", "forecast_drift_yd", "-300",
        "out of range", "must be at least 0", "sign")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,361,,,,,,", "forecast_to_deg", "361", "not a bearing",
        "between 0 and 360", "degrees clockwise from north")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,-5,,,,,,", "forecast_to_deg", "-5", "not a bearing",
        "between 0 and 360", "degrees clockwise from north")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,E,,,,,,", "forecast_to_deg", "E", "not a bearing",
        "between 0 and 360", "degrees clockwise from north")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,,90,,,,,", "forecast_to_degm", "90", "magnetic bearing",
        "no declination is known", "declination_deg")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,,90,,200,,,", "forecast_to_degm", "90", "magnetic bearing",
        "no declination is known", "declination_deg")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,90,,,,80,,", "target_radius_yd / target_radius_ft", "80", "columns disagree",
        "differ by more than 1 %", "leave one of them blank")]
    [InlineData("d1,m1,2031-07-14T15:20,timber,25,8,300,90,,,,,,", "drop_id", "d1", "repeated drop_id",
        "drops.csv:2 with the same values", "delete this row")]
    [InlineData("d1,m1,2031-07-14T15:20,timber,25,9,300,90,,,,,,", "drop_id", "d1", "repeated drop_id",
        "drops.csv:2 with other values", "its own id")]
    [InlineData("x,m1,2031-07-14T15:20,timber,25,8,300,90", "(row)", "x,m1,2031-07-14T15:20,timber,25,8,300,90", "ragged row",
        "8 fields where the header has 14", "quote fields")]
    public void A_drop(string row, string column, string value, string kind, string reason, string fix)
    {
        using var log = TempLog.Of(TempLog.Lines(DropsHeader, GoodDrop, row), TempLog.Lines(LandingsHeader, GoodLanding));
        AssertRefused(log.Read(), "drops.csv", 3, column, value, kind, reason, fix);
    }

    [Theory]
    [InlineData(",12,45,,,,,,,,j2,", "drop_id", "", "blank", "is blank", "load record")]
    [InlineData("d9,12,45,,,,,,,,j2,", "drop_id", "d9", "no such drop", "is not among the drops", "correct the id")]
    [InlineData("D1,12,45,,,,,,,,j2,", "drop_id", "D1", "no such drop", "is not among the drops", "correct the id")]
    [InlineData("d3,12,45,,,,,,,,j2,", "drop_id", "d3", "drop refused", "refused at drops.csv:4", "repair that drop")]
    [InlineData("d1,12,,,,,,,,,j2,", "landing_distance_yd", "12", "distance without bearing",
        "no bearing beside it", "landing_bearing_deg")]
    [InlineData("d1,,45,,,,,,,,j2,", "landing_bearing_deg", "45", "bearing without distance", "no distance beside it", "landing_beyond_*")]
    [InlineData("d1,-12,45,,,,,,,,j2,", "landing_distance_yd", "-12", "out of range", "at least 0", "sign")]
    [InlineData("d1,twelve,45,,,,,,,,j2,", "landing_distance_yd", "twelve", "not a number", "is not a number", "decimal point")]
    [InlineData("d1,12,400,,,,,,,,j2,", "landing_bearing_deg", "400", "not a bearing", "between 0 and 360", "clockwise")]
    [InlineData("d1,12,,45,,,,,,,j2,", "landing_bearing_degm", "45", "magnetic bearing", "no declination is known", "declination_deg")]
    [InlineData("d1,,,,,5,,,,,j2,", "landing_north_m", "", "blank", "is blank", "load record")]
    [InlineData("d1,,,,,,5,,,,j2,", "landing_east_m", "", "blank", "is blank", "load record")]
    [InlineData("d2,,,,,,,46.95,,,j2,", "landing_lat", "46.95", "half a position", "no landing_lon beside it", "both or neither")]
    [InlineData("d2,,,,,,,,-116.3,,j2,", "landing_lon", "-116.3", "half a position", "no landing_lat beside it", "both or neither")]
    [InlineData("d2,,,,,,,95,-116.3,,j2,", "landing_lat", "95", "not a position", "90", "decimal degrees")]
    [InlineData("d2,,,,,,,46.95,116 78 W,,j2,", "landing_lon", "116 78 W", "not a position", "60", "decimal degrees")]
    [InlineData("d2,,,,,,,46.95,116.3,,j2,", "landing_lat", "46.950000, 116.300000", "out of range",
        "km from the spot of drop d2", "order of latitude and longitude")]
    [InlineData("d1,,,,,,,46.95,-116.3,,j2,", "landing_lat", "46.950000, -116.300000", "spot without position",
        "drop d1 has none", "spot_lat and spot_lon")]
    [InlineData("d1,12,45,,,50,50,,,,j2,", "landing_distance_yd / landing_east_m", "", "columns disagree",
        "m apart", "keep the one that is right")]
    [InlineData("d1,12,45,,,,,,,90,j2,", "landing_beyond_yd", "90", "columns disagree",
        "farther than the place recorded beside it (landing_distance_yd)", "keep the one that is right")]
    [InlineData("d1,,,,,,,,,far,j2,", "landing_beyond_yd", "far", "not a number", "is not a number", "decimal point")]
    [InlineData("d1,,,,,,,,,,j2,no", "landing_distance_yd / landing_bearing_deg / landing_bearing_degm / landing_east_m / landing_north_m "
        + "/ landing_lat / landing_lon / landing_beyond_yd", "", "no landing place", "neither a place nor a distance", "landing_beyond_*")]
    [InlineData("d1,,,,,,,,,,j2,YES", "landing_distance_yd / landing_bearing_deg / landing_bearing_degm / landing_east_m / landing_north_m "
        + "/ landing_lat / landing_lon / landing_beyond_yd", "", "hang-up without distance", "hung up", "landing_beyond_*")]
    [InlineData("d1,14,45,,,,,,,,j1,", "jumper", "j1", "repeated landing", "drop d1 at landings.csv:2", "delete the row")]
    public void A_landing(string row, string column, string value, string kind, string reason, string fix)
    {
        using var log = TempLog.Of(TempLog.Lines(DropsHeader, GoodDrop, PlacedDrop, RefusedDrop),
            TempLog.Lines(LandingsHeader, GoodLanding, row));
        var read = log.Read();
        AssertRefused(read, "landings.csv", 3, column, value, kind, reason, fix);
        var refused = read.Intake.RefusedLandings(read.Seasons);
        Assert.Equal(kind == "repeated landing" ? 0 : 1, refused.Count);
        Assert.Equal(kind == "hang-up without distance" ? 1 : 0, refused.Count(r => r.IsHangUpWithoutDistance));
    }

    [Fact]
    public void A_row_tells_all_its_troubles_and_keeps_its_fields()
    {
        const string Row = "x,,when,timber,-1,fast,300,400,,,,,,";
        using var log = TempLog.Of(TempLog.Lines(DropsHeader, GoodDrop, Row), TempLog.Lines(LandingsHeader, GoodLanding));
        var refused = Assert.Single(log.Read().Intake.Quarantine);
        Assert.Equal(["mission", "time", "target_radius_yd", "wind_speed_mph", "forecast_to_deg"], refused.Problems.Select(p => p.Column));
        Assert.Equal(Row.Split(','), refused.Fields);
    }

    [Fact]
    public void Drops_without_a_usable_landing_are_listed()
    {
        using var log = TempLog.Of(TempLog.Lines(DropsHeader, GoodDrop, PlacedDrop),
            TempLog.Lines(LandingsHeader, GoodLanding, "d2,x,45,,,,,,,,j1,no"));
        var intake = log.Read().Intake;
        Assert.Equal("d2", Assert.Single(intake.DropsWithoutLandings).Id);
        Assert.Contains(intake.Points, p => p.Contains("1 drop without any usable landing: d2", StringComparison.Ordinal));
        Assert.Single(intake.DropsWithoutLandingsTable.Rows);
    }

    [Fact]
    public void A_repeat_of_a_refused_drop_may_still_be_the_right_one()
    {
        using var log = TempLog.Of(TempLog.Lines(DropsHeader, RefusedDrop, "d3,m1,2031-07-14T15:20,timber,25,8,300,90,,,,,,"),
            TempLog.Lines(LandingsHeader, "d3,12,45,,,,,,,,j1,no"));
        Assert.Equal("d3", Assert.Single(log.Read().Landings).Drop.Id);
    }

    private static void AssertRefused(JumpLog log, string file, int line, string column, string value,
        string kind, string reason, string fix)
    {
        var refused = Assert.Single(log.Intake.Quarantine, q => q.Source.File == file && q.Source.Line == line);
        var problem = refused.Problems[0];
        Assert.Equal((column, value, kind), (problem.Column, problem.Value, problem.Kind));
        Assert.Contains(reason, problem.Reason, StringComparison.Ordinal);
        Assert.Contains(fix, problem.Try, StringComparison.Ordinal);
        Assert.Equal(refused.Source, problem.Source);
        var intake = log.Intake.Files.Single(f => f.File == file);
        Assert.Equal(intake.RowsRead, intake.RowsAccepted + intake.RowsQuarantined);
    }
}
