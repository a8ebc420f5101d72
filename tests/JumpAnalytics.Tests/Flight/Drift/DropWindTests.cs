namespace JumpAnalytics.Tests;

/// <summary>The wind by height of a drop's record.</summary>
public sealed class DropWindTests
{
    private static readonly Drop _drop = Made.Drop() with { WindSpeed = 5, WindFrom = Bearing.FromDegrees(270), ExitHeight = 457.2,
        ForecastDrift = new LocalVector(0, 400), SurfaceWindSpeed = null };

    private static WindProfile Of(Drop drop, WindFill? shape = null) => DropWind.Of(drop, shape ?? new WindFill(WindLaw.Power)).Value!;

    [Fact]
    public void The_drift_wind_is_the_mean_to_the_exit()
    {
        foreach (var drop in new[] { _drop, _drop with { SurfaceWindSpeed = 3 } })
            Close.Absolute(new LocalVector(5, 0), Of(drop).Mean(0, 457.2).Over(1), 1e-9);
        Assert.Equal("Known: a drift wind of 5.0 m/s, taken for the mean from the ground to the exit at 457 m. "
            + "Filled in: its change with height by a power law with exponent 0.143, because no wind near the ground was recorded; "
            + "no turn with height. The record tells no error of the wind.", Of(_drop).Account);
    }

    /// <summary>
    /// By the seventh-root law (AMS Glossary) the mean of 1,500 ft is 75^(1/7)·7/8 = 1.62 times the wind at 20 ft; that ratio has to give
    /// 1/7 back.
    /// </summary>
    [Theory]
    [InlineData(1 / 7.0)]
    [InlineData(0.3)]
    [InlineData(0.05)]
    public void A_wind_near_the_ground_tells_the_exponent(double exponent)
    {
        var profile = Of(_drop with { SurfaceWindSpeed = 5 * (1 + exponent) / Math.Pow(75, exponent) }, WindFill.Constant);
        Close.Absolute(exponent, profile.Below.Exponent, 1e-9);
        Close.Relative(5 * (1 + exponent) / Math.Pow(75, exponent), profile.At(DropWind.StandardHeight).Speed, 1e-9);
        Assert.Contains("taken to stand at 6.1 m and to blow the same way", profile.Account, StringComparison.Ordinal);
    }

    /// <summary>
    /// At 20 ft under 1,500 ft the ratio of an exponent of 1 is 37.5, so that 0.1 m/s under 5 m/s is beyond it; a wind near the ground as
    /// strong as the drift wind or stronger, or none, has no exponent above 0.
    /// </summary>
    [Theory]
    [InlineData(7)]
    [InlineData(0.1)]
    [InlineData(0)]
    public void A_wind_near_the_ground_that_fits_no_power_law_is_left_out_and_said_so(double surface)
    {
        var profile = Of(_drop with { SurfaceWindSpeed = surface }, WindFill.Constant);
        Assert.Equal(WindLaw.Constant, profile.Below.Law);
        Assert.Contains("it was left out", profile.Account, StringComparison.Ordinal);
        Close.Absolute(new LocalVector(5, 0), profile.At(3).Over(1), 1e-9);
    }

    [Fact]
    public void A_direction_that_was_not_recorded_is_that_of_the_forecast_drift()
    {
        var profile = Of(_drop with { WindFrom = null });
        Close.Absolute(new LocalVector(0, 5), profile.Mean(0, 457.2).Over(1), 1e-9);
        Assert.Contains("its direction was not recorded", profile.Account, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_height_or_any_direction_there_is_no_profile()
    {
        Assert.Contains("exit height", DropWind.Of(_drop with { ExitHeight = null }, WindFill.Constant).Reason, StringComparison.Ordinal);
        Assert.Contains("direction", DropWind.Of(_drop with { WindFrom = null, ForecastDrift = default }, WindFill.Constant).Reason,
            StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => DropWind.Of(_drop, WindFill.Constant, 0));
    }
}
