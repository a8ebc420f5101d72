namespace JumpAnalytics.Tests;

/// <summary>One bound for every way a place is given: 50 km from the spot.</summary>
public sealed class FarPlaceTests
{
    private const string Drop = TempLog.Drop1 + ",44,-116,,,,,,";

    private static readonly string _drops = TempLog.Lines(TempLog.DropsHeader + ",spot_lat,spot_lon,exit_distance_m,exit_bearing_deg,"
        + "exit_east_m,exit_north_m,exit_lat,exit_lon", Drop);

    [Theory]
    [InlineData("landing_distance_km,landing_bearing_deg", "49.9,45", "50.1,45")]
    [InlineData("landing_distance_m,landing_bearing_deg", "50000,45", "1e6,45")]
    [InlineData("landing_east_km,landing_north_km", "30,40", "40,40")] // each part is near, both together are not
    [InlineData("landing_east_m,landing_north_m", "0,-50000", "0,-50001")]
    [InlineData("landing_lat,landing_lon", "44.44,-116", "44.46,-116")]
    [InlineData("landing_position,jumper", "\"44.44, -116\",a", "\"53, -116\",a")]
    [InlineData("landing_beyond_km,jumper", "50,a", "50.1,a")]
    [InlineData("landing_beyond_m,jumper", "200,a", "1e200,a")]
    public void A_landing_beyond_it_is_refused_however_it_is_written(string columns, string near, string far)
    {
        using var log = TempLog.Of(_drops, TempLog.Lines("drop_id," + columns, "d1," + near, "d1," + far.Replace(",a", ",b")));
        var read = log.Read();
        Assert.Single(read.Landings);
        Assert.Equal(ProblemKinds.OutOfRange, Assert.Single(Assert.Single(read.Intake.Quarantine).Problems).Kind);
    }

    [Theory]
    [InlineData("49999,0,,,,", true)]
    [InlineData("50001,0,,,,", false)]
    [InlineData(",,30000,40000,,", true)]
    [InlineData(",,40000,40000,,", false)]
    [InlineData(",,,,44.44,-116", true)]
    [InlineData(",,,,45,-116", false)]
    public void An_exit_beyond_it_is_set_aside(string exit, bool isUsed)
    {
        using var log = TempLog.Of(_drops.Replace(",,,,,,", "," + exit, StringComparison.Ordinal),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        var read = log.Read();
        Assert.Equal(isUsed, Assert.Single(read.Drops).ActualExit is not null);
        Assert.Equal(isUsed ? [] : [ProblemKinds.OutOfRange], read.Intake.SetAside.Select(p => p.Kind));
    }

    [Theory]
    [InlineData("forecast_drift_m,forecast_to_deg", "50000,90", true)]
    [InlineData("forecast_drift_m,forecast_to_deg", "50001,90", false)]
    [InlineData("forecast_east_m,forecast_north_m", "-30000,-40000", true)]
    [InlineData("forecast_east_m,forecast_north_m", "-40000,-40000", false)]
    public void A_forecast_beyond_it_is_refused(string columns, string forecast, bool isUsed)
    {
        using var log = TempLog.Of(TempLog.Lines("drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph," + columns,
            "d1,m1,2031-07-14T15:20,timber,25,8," + forecast), TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        Assert.Equal(isUsed ? 1 : 0, log.Read().Drops.Count);
    }

    /// <summary>1,000 km by distance and bearing among 30 landings moved the mean by 36 km and raised no flag.</summary>
    [Fact]
    public void A_landing_out_of_reach_is_flagged_with_what_it_does_to_the_mean()
    {
        var landings = Enumerable.Range(0, 29).Select(i => $"d1,{10 + i},{12 * i}").Append("d1,8800,90");
        using var log = TempLog.Of(_drops, TempLog.Lines([TempLog.LandingsHeader, .. landings]));
        var flag = Assert.Single(RecordChecks.Of(log.Read()).Flags, f => f.Check == "landings out of reach");
        Assert.Equal([new RowSource("landings.csv", 31)], flag.Rows);
        Close.Relative(8800.0 / 30, flag.Harm.Value, 1e-9);
        Assert.Contains("moves the mean miss by 293 yd (n = 30 landings)", flag.Harm.Sentence, StringComparison.Ordinal);
        // Twice 300 yd of drift and three times 1,067 m of height are 4,101 yd: the most of this log.
        Assert.Contains(", the farthest ", flag.Found, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4100", 0)]
    [InlineData("4102", 1)]
    public void The_bound_of_reach_is_drift_and_height(string yards, int flags)
    {
        using var log = TempLog.Of(_drops, TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1, $"d1,{yards},90"));
        Assert.Equal(flags, RecordChecks.Of(log.Read()).Flags.Count(f => f.Check == "landings out of reach"));
    }
}
