namespace JumpAnalytics.Tests;

/// <summary>Winds come from, air goes to; errors have axes.</summary>
public sealed class WindVectorTests
{
    [Theory]
    [InlineData(0, 0, -5)]
    [InlineData(90, -5, 0)]
    [InlineData(225, 3.5355339059327378, 3.5355339059327378)]
    public void A_wind_from_a_direction_moves_the_air_the_other_way(double from, double east, double north)
    {
        var wind = WindVector.FromDirection(5, Bearing.FromDegrees(from));
        Close.Absolute(new LocalVector(east, north), wind.Over(1), 1e-12);
        Close.Absolute(5, wind.Speed, 1e-12);
        Close.Absolute(from, wind.From!.Value.Degrees, 1e-9);
        Close.Absolute((from + 180) % 360, wind.To!.Value.Degrees, 1e-9);
        Close.Absolute(wind.Over(30) - wind.Over(20), wind.Over(10), 1e-9);
    }

    [Fact]
    public void Calm_has_no_direction()
    {
        Assert.Null(default(WindVector).From);
        Assert.Null(default(WindVector).To);
        Assert.Equal(default, new WindVector(1, 2) - new WindVector(1, 2));
        Assert.Equal(new WindVector(2, 4), new WindVector(1, 2) + 1 * new WindVector(1, 2));
    }

    [Fact]
    public void An_error_has_a_longest_and_a_shortest_axis_and_a_size_in_every_direction()
    {
        // variance 9 along 30 degrees, 4 across it
        var (sin, cos) = (0.5, Math.Sqrt(0.75));
        var error = new PlaneCovariance(9 * sin * sin + 4 * cos * cos, 9 * cos * cos + 4 * sin * sin, (9 - 4) * sin * cos);
        Close.Absolute(3, error.AxisSds.Longest, 1e-12);
        Close.Absolute(2, error.AxisSds.Shortest, 1e-12);
        Close.Absolute(3, error.SdAlong(Bearing.FromDegrees(210)), 1e-12);
        Close.Absolute(2, error.SdAlong(Bearing.FromDegrees(120)), 1e-12);
        Close.Absolute(Math.Sqrt(13), (PlaneCovariance.Round(2) + PlaneCovariance.Round(3)).AxisSds.Shortest, 1e-12);
        Close.Absolute(6, (4 * error).AxisSds.Longest, 1e-12);
        Close.Absolute(4, error.SquaredLength(6 * sin, 6 * cos)!.Value, 1e-12);
        Assert.Null(PlaneCovariance.OfMultiples(3, 4).SquaredLength(3, 4));
    }

    /// <summary>
    /// In the frame of a drift along its long axis an error has no covariance; in one turned by 40° it leans to the left.
    /// </summary>
    [Fact]
    public void An_error_is_turned_into_the_frame_of_the_drift()
    {
        var error = new PlaneCovariance(5.25, 7.75, 2.5 * Math.Sqrt(0.75)); // variance 9 along 30 degrees, 4 across it
        PlaneCovariance Seen(double degrees) =>
            DownwindFrame.Along(LocalVector.FromPolar(300, Bearing.FromDegrees(degrees)))!.ErrorDownwind(error);
        var (straight, turned) = (Seen(30), Seen(70));
        Close.Absolute(9, straight.VarianceAlong, 1e-12);
        Close.Absolute(4, straight.VarianceAcross, 1e-12);
        Close.Absolute(0, straight.Covariance, 1e-12);
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(40));
        Close.Absolute(9 * cos * cos + 4 * sin * sin, turned.VarianceAlong, 1e-12);
        Close.Absolute(-5 * sin * cos, turned.Covariance, 1e-12);
    }
}
