namespace JumpAnalytics;

/// <summary>What a jumper flew, as a descent track tells it.</summary>
/// <param name="Vector">Metres east and north.</param>
/// <param name="Error">Covariance of its error, m².</param>
/// <param name="Exit">Where the jumper left by the track, metres east and north of the spot; null when it does not show it.</param>
[TypeFormatterSource]
public readonly record struct KnownSteering(LocalVector Vector, PlaneCovariance Error, LocalVector? Exit = null);
