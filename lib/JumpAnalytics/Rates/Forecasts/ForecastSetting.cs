namespace JumpAnalytics;

/// <summary>The pass that a forecast is made for.</summary>
/// <param name="Layers">What an unsteered canopy does by the forecast, from the ground up.</param>
/// <param name="Age">Seconds between streamers and exit.</param>
/// <param name="Run">Direction of the run; null when not known, and the exit's errors then count in every direction alike.</param>
/// <param name="GroundSpeed">Metres per second on the run.</param>
/// <param name="TargetRadius">Metres.</param>
[TypeFormatterSource]
public sealed record ForecastSetting(IReadOnlyList<DescentLayer> Layers, double Age, Bearing? Run, double GroundSpeed, double TargetRadius)
{
    /// <summary>Seconds: the age a forecast is taken to have where the record has none; 8 minutes.</summary>
    internal const double UsualAge = 480;

    /// <summary>The drift that the layers add up to, metres.</summary>
    public LocalVector Drift => Layers.Select(l => l.Wind.Over(l.Seconds)).Aggregate(default(LocalVector), (a, b) => a + b);

    /// <summary>
    /// The setting of a pass on record. Its log has one wind, so the descent is one layer in which that wind makes the forecast drift; what
    /// is not recorded is taken as 8 minutes of age and 45 m/s of ground speed.
    /// </summary>
    /// <param name="drop">The pass.</param>
    /// <returns>The setting, or what is missing.</returns>
    public static Fit<ForecastSetting> Of(Drop drop)
    {
        if (!(drop.WindSpeed > 0) || drop.ForecastDrift.Length == 0)
            return Fit<ForecastSetting>.Refused("a calm forecast tells no time aloft");
        var seconds = drop.ForecastDrift.Length / drop.WindSpeed;
        var wind = new WindVector(drop.ForecastDrift.East / seconds, drop.ForecastDrift.North / seconds);
        return Fit<ForecastSetting>.Made(new ForecastSetting(
            [new DescentLayer(0, drop.ExitHeight ?? 450, seconds, wind)], drop.StreamerAge ?? UsualAge, drop.RunHeading,
            drop.GroundSpeed ?? 45, drop.TargetRadius));
    }
}
