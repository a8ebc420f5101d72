namespace JumpAnalytics.Tests;

public sealed class LandingOutcomeTests
{
    [Theory]
    [InlineData(29.99, LandingOutcome.Hit)]
    [InlineData(30, LandingOutcome.Hit)]
    [InlineData(30.001, LandingOutcome.Miss)]
    public void A_landing_on_the_rim_is_a_hit(double distance, LandingOutcome expected) =>
        Assert.Equal(expected, Made.Landing(Made.Drop(targetRadius: 30), 0, distance).Outcome);

    [Theory]
    [InlineData(29.9, LandingOutcome.Undecided)]
    [InlineData(30, LandingOutcome.Miss)]
    [InlineData(100, LandingOutcome.Miss)]
    [InlineData(0, LandingOutcome.Undecided)]
    public void Beyond_the_radius_is_a_miss_and_beyond_less_is_undecided(double beyond, LandingOutcome expected)
    {
        var landing = Made.Beyond(Made.Drop(targetRadius: 30), beyond);
        Assert.True(landing.IsCensored);
        Assert.Equal(expected, landing.Outcome);
        Assert.Null(landing.MissDownwind);
    }

    /// <summary>
    /// Distances are heaped on round numbers. One that equals the target radius in another unit is on the rim, on whichever side the
    /// two conversions round: hit when it is the landing's place, miss when the landing lies beyond it.
    /// </summary>
    [Fact]
    public void A_distance_equal_to_the_radius_in_any_two_units_is_on_the_rim()
    {
        var units = MeasureUnit.Distances.Values.ToList();
        var tried = 0;
        foreach (var radiusUnit in units)
        {
            foreach (var distanceUnit in units)
            {
                for (var n = 1; n <= 120; n++)
                {
                    var radius = radiusUnit.ToSi(n);
                    var distance = distanceUnit.ToSi(distanceUnit.FromSi(radius));
                    var drop = Made.Drop(targetRadius: radius);
                    foreach (var bearing in new[] { 0.0, 45, 137, 263 })
                    {
                        var miss = LocalVector.FromPolar(distance, Bearing.FromDegrees(bearing));
                        Assert.Equal(LandingOutcome.Hit, Made.Landing(drop, miss).Outcome);
                    }
                    Assert.Equal(LandingOutcome.Miss, Made.Beyond(drop, distance).Outcome);
                    tried++;
                }
            }
        }
        Assert.Equal(7 * 7 * 120, tried);
    }

    [Theory]
    [InlineData("target_radius_yd", "25", "landing_distance_ft", "75")]
    [InlineData("target_radius_ft", "75", "landing_distance_yd", "25")]
    [InlineData("target_radius_ft", "75", "landing_distance_ft", "75")]
    [InlineData("target_radius_ch", "1", "landing_distance_yd", "22")]
    [InlineData("target_radius_m", "30", "landing_distance_km", "0.03")]
    public void A_heaped_distance_in_the_log_equal_to_the_radius_is_a_hit(string radius, string r, string distance, string d)
    {
        using var log = TempLog.Of(
            TempLog.Lines(TempLog.DropsHeader.Replace("target_radius_yd", radius, StringComparison.Ordinal),
                $"d1,m1,2031-07-14T15:20,timber,{r},8,300,90"),
            TempLog.Lines($"drop_id,{distance},landing_bearing_deg", $"d1,{d},33"));
        Assert.Equal(LandingOutcome.Hit, Assert.Single(log.Read().Landings).Outcome);
    }

    [Fact]
    public void Beyond_75_ft_is_a_miss_for_a_radius_of_25_yd_and_beyond_74_ft_is_undecided()
    {
        using var log = TempLog.Of(
            TempLog.Lines(TempLog.DropsHeader, "d1,m1,2031-07-14T15:20,timber,25,8,300,90"),
            TempLog.Lines("drop_id,landing_beyond_ft", "d1,75", "d1,74"));
        Assert.Equal([LandingOutcome.Miss, LandingOutcome.Undecided], log.Read().Landings.Select(l => l.Outcome));
    }
}
