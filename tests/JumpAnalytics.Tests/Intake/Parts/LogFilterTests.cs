namespace JumpAnalytics.Tests;

/// <summary>Filters as they are typed on the command line.</summary>
public sealed class LogFilterTests
{
    private static readonly JumpLog _demo = Demo.DemoLog.Log;

    private static string Refused(string filter) => Assert.Throws<ArgumentException>(() => _demo.Where(filter)).Message;

    private static void Same(Func<Landing, bool> holds, string filter)
    {
        var expected = _demo.Landings.Where(holds).ToList();
        Assert.NotEmpty(expected);
        Assert.True(expected.Count < _demo.Landings.Count);
        Assert.Equal(expected, _demo.Where(filter).Landings);
    }

    [Fact]
    public void Conditions_hold_as_they_are_written()
    {
        Same(l => l.Drop.Terrain == "meadow", "terrain=meadow");
        Same(l => l.Drop.Terrain is "meadow" or "open timber", " Terrain = MEADOW|open timber ");
        Same(l => l.Drop.Terrain == "meadow" && l.Canopy == "ram-air", "terrain=meadow, canopy=ram-air");
        Same(l => l.MeasuredBy is not null and not "estimate", "measured_by!=estimate");
        Same(l => l.HungUp == true, "hung_up=yes");
        Same(l => l.ExitOrder is 1, "exit_order=1");
        Same(l => l.Drop.StreamerAge > 600, "streamer_minutes>10");
        Same(l => l.Drop.Time.Month == 7 && l.Drop.Time.Year == 2025, "time>=2025-07-01, time<2025-08-01");
        var mph = MeasureUnit.Speed("mph");
        Same(l => l.Drop.WindSpeed >= mph.ToSi(10) * (1 - 1e-9) && l.Drop.WindSpeed < mph.ToSi(12) * (1 - 1e-9),
            "wind_speed_mph>=10, WIND_SPEED_MPH<12");
        Same(l => Math.Abs(l.Drop.TargetRadius - MeasureUnit.Distance("yd").ToSi(45)) < 1e-6, "target_radius_yd=45");
        Same(l => l.MissDistance <= 20, "landing_distance_m<=20");
        Same(l => l.Drop.Base == "Quillmark" && l.Drop.Season == "2025", "base=Quillmark,season=2025");
        Assert.Equal(_demo.Where("base=Quillmark").Landings, _demo.ForBase("quillmark").Landings);
    }

    [Fact]
    public void What_was_not_recorded_meets_no_condition()
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1), TempLog.Lines(
            TempLog.LandingsHeader + ",canopy,exit_order",
            "d1,12,45,round,1", "d1,13,45,,", "d1,14,45,square,3"));
        var read = log.Read();
        Assert.Equal("square", Assert.Single(read.Where("canopy!=round").Landings).Canopy);
        Assert.Equal(3, Assert.Single(read.Where("exit_order>1").Landings).ExitOrder);
        Assert.Contains("has a hung_up recorded", Assert.Throws<ArgumentException>(() => read.Where("hung_up=no")).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_filter_is_refused_with_what_there_is_and_the_nearest()
    {
        Assert.Contains("can't be cut by a column 'terain'; did you mean terrain? There are drop_id, mission,",
            Refused("terain=meadow"), StringComparison.Ordinal);
        Assert.Contains("wind_speed_kt|mph|mps", Refused("wind=3"), StringComparison.Ordinal);
        Assert.Contains("'wind_speed' needs its unit: wind_speed_kt, wind_speed_mph, wind_speed_mps.",
            Refused("wind_speed>=10"), StringComparison.Ordinal);
        Assert.Contains("'medow' is no terrain of data-demo; did you mean meadow? There are ",
            Refused("terrain=medow"), StringComparison.Ordinal);
        Assert.Contains("did you mean Quillmark?", Assert.Throws<ArgumentException>(() => _demo.ForBase("Quilmark")).Message,
            StringComparison.Ordinal);
        Assert.Contains("is a number, not 'ten'", Refused("wind_speed_mph>=ten"), StringComparison.Ordinal);
        Assert.Contains("takes one value", Refused("wind_speed_mph>=1|2"), StringComparison.Ordinal);
        Assert.Contains("is a text: compare it with = or !=", Refused("terrain>meadow"), StringComparison.Ordinal);
        Assert.Contains("is yes or no, not 'maybe'", Refused("hung_up=maybe"), StringComparison.Ordinal);
        Assert.Contains("is cut between two moments", Refused("time=2025-07-01"), StringComparison.Ordinal);
        Assert.Contains("is a day or a time", Refused("time>=July"), StringComparison.Ordinal);
        Assert.Contains("'terrain' is no condition", Refused("terrain"), StringComparison.Ordinal);
        Assert.Contains("'' is no condition", Refused("terrain=meadow,"), StringComparison.Ordinal);
        Assert.Contains("all of them by none", Refused("wind_speed_mph>=10, wind_speed_mph<10"), StringComparison.Ordinal);
    }

    [Fact]
    public void Codes_of_people_are_not_listed()
    {
        Assert.Equal("'S99' is no spotter of data-demo. Codes of people are not listed here.", Refused("spotter=S99"));
        Same(l => l.Drop.Spotter == "S01", "spotter=s01");
    }
}
