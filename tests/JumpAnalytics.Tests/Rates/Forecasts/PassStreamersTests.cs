namespace JumpAnalytics.Tests;

/// <summary>What the streamers of one pass tell of the wind, and of a canopy's drift.</summary>
public sealed class PassStreamersTests
{
    private static readonly CanopyFlight _canopy = new("made", 4, 4.5, "made up");

    private static readonly Drop _drop = Made.Drop(forecastDrift: new LocalVector(0, 400)) with
    {
        ExitHeight = 457.2, SpotElevation = 800, StreamerAge = 300, RunHeading = Bearing.FromDegrees(180), GroundSpeed = 45,
    };

    /// <summary>
    /// The drift over the time aloft is the wind; its error is that of the reading and of the rate: 12 % and 7 % of it along, 5° across.
    /// </summary>
    [Fact]
    public void The_wind_is_the_drift_over_the_time_aloft()
    {
        var told = PassStreamers.Of(_drop).Value!;
        var seconds = told.Set.Descent.Seconds(0, 457.2, 800);
        Close.Absolute(new LocalVector(0, 400 / seconds), told.Wind.Over(1), 1e-12);
        var (floor, wind) = (15 * 0.9144, 400 / seconds);
        Close.Relative(Math.Sqrt(floor * floor + 48 * 48 + 28 * 28) / seconds, told.WindError.SdAlong(Bearing.FromDegrees(0)), 1e-9);
        Close.Relative(double.Hypot(floor, 400 * Math.PI / 36) / seconds, told.WindError.SdAlong(Bearing.FromDegrees(90)), 1e-9);
        Assert.InRange(wind, 4.4, 4.8); // 16.7 ft/s from 1,500 ft take 90 s at sea level, and 4 % less up here
    }

    /// <summary>
    /// A canopy at the streamers' rate goes where they went; one that falls slower goes farther by as much. It is thrown against the
    /// drift here, by 45 m/s × 0.97 s. The error is that of the streamers, of the canopy's own rate, and of a wind that changed in five
    /// minutes.
    /// </summary>
    [Fact]
    public void A_canopy_drifts_by_the_streamers_wind_at_its_own_rate()
    {
        var still = PassStreamers.Of(_drop with { RunHeading = null }).Value!;
        var alike = still.DriftOf(_canopy with { DescentRate = still.Figures.DescentRate });
        Close.Absolute(_drop.ForecastDrift, alike.Drift, 1e-9);
        var slower = still.DriftOf(_canopy);
        Close.Absolute(still.Figures.DescentRate / 4.5 * _drop.ForecastDrift, slower.Drift, 1e-9);
        var thrown = PassStreamers.Of(_drop).Value!.DriftOf(_canopy);
        Close.Absolute(slower.Drift - new LocalVector(0, 45 * still.Figures.ThrowSeconds), thrown.Drift, 1e-6);

        var seconds = slower.Forecast.Canopy.Seconds;
        var blown = 0.8 * MeasureUnit.Speed("mph").Si * seconds;
        var none = PassStreamers.Of(_drop with { RunHeading = null }, sources: ForecastErrorSources.None).Value!.DriftOf(_canopy);
        Close.Absolute(0, none.Error.Trace, 1e-9);
        var reading = still.WindError.SdAlong(Bearing.FromDegrees(90)) * seconds;
        // across the drift no rate counts; layers of the changed wind cancel in part, the shared 70 % do not
        var across = slower.Error.SdAlong(Bearing.FromDegrees(90));
        Assert.InRange(across, double.Hypot(reading, Math.Sqrt(0.7) * blown), double.Hypot(reading, blown));
        Assert.True(slower.Error.SdAlong(Bearing.FromDegrees(0)) > 0.07 * slower.Drift.Length);
    }

    [Fact]
    public void The_wind_near_the_ground_tells_its_change_with_height_and_not_its_mean()
    {
        var met = PassStreamers.Of(_drop with { WindSpeed = 5, SurfaceWindSpeed = 3 }).Value!;
        Assert.Equal((WindLaw.Power, true), (met.Shape.Law, met.MeetsSurface));
        Close.Absolute(_drop.ForecastDrift, met.DriftOf(_canopy with { DescentRate = met.Figures.DescentRate }).Forecast.Canopy.Drift
            - new LocalVector(0, -45 * met.Figures.ThrowSeconds), 1e-6);
        Assert.Equal((1 / 7.0, (bool?)null), (PassStreamers.Of(_drop).Value!.Shape.Exponent, PassStreamers.Of(_drop).Value!.MeetsSurface));
        Assert.Equal(false, PassStreamers.Of(_drop with { WindSpeed = 5, SurfaceWindSpeed = 7 }).Value!.MeetsSurface);
    }

    [Fact]
    public void What_is_missing_is_said()
    {
        Assert.Contains("exit height", PassStreamers.Of(_drop with { ExitHeight = null }).Reason, StringComparison.Ordinal);
        Assert.Contains("no length", PassStreamers.Of(_drop with { ForecastDrift = default }).Reason, StringComparison.Ordinal);
        foreach (var odd in new[] { _drop with { ExitHeight = 20_000 }, _drop with { SpotElevation = -2000 } })
            Assert.Contains("standard atmosphere", PassStreamers.Of(odd).Reason, StringComparison.Ordinal);
    }
}
