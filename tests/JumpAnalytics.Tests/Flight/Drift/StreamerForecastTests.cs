namespace JumpAnalytics.Tests;

/// <summary>The canopy's drift as streamers tell it, and what their own vector would have missed.</summary>
public sealed class StreamerForecastTests
{
    private static readonly CanopyDescent _streamer = new(6), _canopy = new(4.5);

    /// <summary>
    /// Streamers flown from 457 m through a power law, and a canopy from 914 m: where the shape is the true one, the forecast is the
    /// canopy's drift through the true wind. The drift itself agrees with mpmath to 1e-9 (tests/reference/drift), so this holds the way
    /// back from streamers to the wind to it.
    /// </summary>
    [Theory]
    [InlineData(1 / 7.0, 0)]
    [InlineData(0.3, 1800)]
    public void With_the_true_shape_the_forecast_is_the_true_drift(double exponent, double elevation)
    {
        var shape = new WindFill(WindLaw.Power, exponent);
        var truth = WindProfile.Through([new(6.096, new WindVector(2, -3))], shape, shape);
        var flown = DriftModel.Drift(truth, _streamer, 457.2, elevation).Drift;
        var streamers = new StreamerSet(457.2, _streamer, flown, PlaneCovariance.Round(15));
        var forecast = StreamerForecast.Of(streamers, shape, _canopy, 914.4, elevation);
        var drift = DriftModel.Drift(truth, _canopy, 914.4, elevation).Drift;
        Close.Relative(drift.East, forecast.Canopy.Drift.East, 1e-9);
        Close.Relative(drift.North, forecast.Canopy.Drift.North, 1e-9);
        // the reading's error grows as the drift does
        Close.Relative(15 * drift.Length / forecast.Raw.Length, forecast.Canopy.Error!.AxisSds.Longest, 1e-9);
    }

    /// <summary>
    /// One wind for all heights: nothing is left for the wind's change. The rule of thumb is too long by the density, whose root falls by
    /// 2.1 % from 750 to 2,250 ft (standard atmosphere), half of it in the mean.
    /// </summary>
    [Fact]
    public void In_one_wind_for_all_heights_the_drift_scales_with_height_and_rate()
    {
        var (wind, raw) = (new WindVector(3, 4), new LocalVector(240, 320));
        var seconds = _streamer.Seconds(0, 457.2, 0);
        var forecast = StreamerForecast.Of(new(457.2, _streamer, wind.Over(seconds)), WindFill.Constant, _canopy, 914.4);
        Close.Absolute(wind.Over(seconds * 6 / 4.5 * 2), forecast.Scaled, 1e-9);
        Close.Absolute(wind.Over(_canopy.Seconds(0, 914.4, 0)), forecast.Canopy.Drift, 1e-9);
        Close.Absolute(default, forecast.ByWindChange, 1e-9);
        Assert.InRange(forecast.Scaled.Length / forecast.Canopy.Drift.Length, 1.010, 1.012);
        // from a height and at a rate like the canopy's nothing is missing
        var alike = StreamerForecast.Of(new(457.2, _canopy, raw), WindFill.Constant, _canopy, 457.2);
        Close.Absolute(raw, alike.Canopy.Drift, 1e-9);
        Close.Absolute(default, alike.Missing, 1e-9);
    }

    /// <summary>
    /// Seventh-root law (AMS Glossary): mean to 3,000 ft over that to 1,500 ft = 2^(1/7) = 1.104; that the lower half counts a little
    /// longer changes it by less than 0.2 %.
    /// </summary>
    [Fact]
    public void The_parts_of_what_is_missing_add_up_and_are_named_for_what_they_are()
    {
        var thrown = new ExitThrow(45, Bearing.FromDegrees(0), 1);
        var forecast = StreamerForecast.Of(
            new(457.2, _streamer, new LocalVector(300, 0)), new WindFill(WindLaw.Power), _canopy, 914.4, exitThrow: thrown);
        Close.Absolute(new LocalVector(100, 0), forecast.ByRate, 1e-9);
        Close.Absolute(new LocalVector(800, 0), forecast.Scaled, 1e-9);
        var longer = 400 * _canopy.Seconds(0, 914.4, 0) / _canopy.Seconds(0, 457.2, 0);
        Close.Absolute(new LocalVector(longer - 400, 0), forecast.ByHeight, 1e-9);
        Close.Absolute(new LocalVector(0, 45), forecast.ByThrow, 1e-9);
        Close.Relative(Math.Pow(2, 1 / 7.0), (longer + forecast.ByWindChange.East) / longer, 0.002);
        Close.Absolute(forecast.Missing, forecast.ByRate + forecast.ByHeight + forecast.ByWindChange + forecast.ByThrow, 1e-9);
        Close.Absolute(forecast.Canopy.Drift, forecast.Raw + forecast.Missing, 1e-9);
    }

    [Fact]
    public void What_makes_no_forecast_is_refused()
    {
        Assert.Throws<ArgumentException>(() => StreamerForecast.Of(new(0, _streamer, default), WindFill.Constant, _canopy, 900));
        Assert.Throws<ArgumentOutOfRangeException>(() => StreamerForecast.Of(new(400, _streamer, default), WindFill.Constant, _canopy, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ExitThrow(45, Bearing.FromDegrees(0), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ExitThrow(double.NaN, Bearing.FromDegrees(0), 1));
    }
}
