namespace JumpAnalytics;

/// <summary>The wind at one height.</summary>
/// <param name="Height">Metres above the landing ground.</param>
/// <param name="Wind">Metres per second east and north, the way the air goes.</param>
/// <param name="Error">Covariance of its error, m²/s²; null when it is not known.</param>
[TypeFormatterSource]
public sealed record WindLevel(double Height, WindVector Wind, LocalCovariance? Error = null)
{
    /// <summary>A wind aloft as weather offices give it.</summary>
    /// <param name="altitude">Metres above sea level.</param>
    /// <param name="groundElevation">Metres above sea level of the landing ground.</param>
    /// <param name="speed">Metres per second.</param>
    /// <param name="from">Where it comes from, true: winds aloft are.</param>
    /// <param name="sd">Standard deviation of its error per axis, m/s; null when not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is not above the ground.</exception>
    public static WindLevel Aloft(double altitude, double groundElevation, double speed, Bearing from, double? sd = null) => altitude > groundElevation
        ? new WindLevel(altitude - groundElevation, WindVector.FromDirection(speed, from), sd is { } error ? LocalCovariance.Round(error) : null)
        : throw new ArgumentOutOfRangeException(nameof(altitude), altitude, $"The wind stands at or below the landing ground, which lies at {groundElevation} m; leave it out.");
}
