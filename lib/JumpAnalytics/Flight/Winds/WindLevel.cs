namespace JumpAnalytics;

/// <summary>The wind at one height.</summary>
/// <param name="Height">Metres above the landing ground.</param>
/// <param name="Wind">Metres per second east and north, the way the air goes.</param>
/// <param name="Error">Covariance of its error, m²/s²; null when it is not known.</param>
[TypeFormatterSource]
public sealed record WindLevel(double Height, WindVector Wind, PlaneCovariance? Error = null);
