namespace JumpAnalytics;

/// <summary>One layer of a descent: what an unsteered canopy does between two heights.</summary>
/// <param name="Bottom">Metres above the landing ground.</param>
/// <param name="Top">Metres above the landing ground, above <paramref name="Bottom"/>.</param>
/// <param name="Seconds">Time spent in the layer.</param>
/// <param name="Wind">Mean wind over that time, metres per second, the way the air goes.</param>
[TypeFormatterSource]
public readonly record struct DescentLayer(double Bottom, double Top, double Seconds, WindVector Wind);
