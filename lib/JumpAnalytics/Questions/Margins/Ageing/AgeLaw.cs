namespace JumpAnalytics;

/// <summary>
/// How the squared spread of the misses grows with the age of the forecast, in units of the spread of all misses:
/// s² = base + growth · (age / 10 min)^exponent + wind · (wind / median wind)².
/// </summary>
/// <param name="Base">What has neither to do with age nor with wind, the jumpers' own part included; zero or more.</param>
/// <param name="Growth">What 10 minutes add; zero or more, for a forecast does not improve with age.</param>
/// <param name="Exponent">Power of the age; zero or more, zero for no growth.</param>
/// <param name="Wind">What the median wind adds; zero or more.</param>
[TypeFormatterSource]
public readonly record struct AgeLaw(double Base, double Growth, double Exponent, double Wind)
{
    /// <summary>The squared spread.</summary>
    /// <param name="age">Seconds from streamers to exit, zero or more.</param>
    /// <param name="windTerm">Squared wind over the squared median wind.</param>
    internal double At(double age, double windTerm) => Base + Growth * Math.Pow(age / AgedLandings.Unit, Exponent) + Wind * windTerm;
}
