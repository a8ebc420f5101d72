namespace JumpAnalytics;

/// <summary>One point of a descent track.</summary>
/// <param name="Seconds">Seconds since <see cref="DescentTrack.Start"/>.</param>
/// <param name="Place">Metres east and north of the spot.</param>
/// <param name="Height">Metres above the landing ground.</param>
[TypeFormatterSource]
public readonly record struct TrackPoint(double Seconds, LocalVector Place, double Height);
