namespace JumpAnalytics.Statistics;

/// <summary>
/// Exact confidence limits of points that follow a Rayleigh distribution: no bias, the same spread along and across, points independent.
/// 2n·(estimate/sigma)² is then chi-square on 2n degrees of freedom, the estimate √(Σ distance²/2n).
/// </summary>
public static class RayleighLimit
{
    /// <summary>
    /// Upper confidence limit of sigma, the standard deviation along each axis, metres. The lower limit is the one at 1 − confidence.
    /// </summary>
    /// <param name="sigma">Maximum-likelihood estimate √(Σ distance²/2n), metres, more than 0.</param>
    /// <param name="points">Number of points n behind it, 1 or more.</param>
    /// <param name="confidence">One-sided confidence, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument that can't be.</exception>
    public static double OfSigma(double sigma, int points, double confidence)
    {
        Guard.Positive(sigma);
        Guard.AtLeast(points, 1);
        Guard.Confidence(confidence);
        return sigma * Math.Sqrt(2.0 * points / QuantileOf.ChiSquared(2.0 * points, TailShare.Below(1 - confidence)));
    }

    /// <summary>
    /// Upper confidence limit of the radius that holds a share of points, metres: that of sigma times √(−2 ln(1 − share)).
    /// </summary>
    /// <inheritdoc cref="OfSigma" path="/exception"/>
    /// <param name="sigma">Maximum-likelihood estimate √(Σ distance²/2n), metres, more than 0.</param>
    /// <param name="points">Number of points n behind it, 1 or more.</param>
    /// <param name="share">Share of points that the radius holds, between 0 and 1.</param>
    /// <param name="confidence">One-sided confidence, between 0 and 1.</param>
    public static double OfRadius(double sigma, int points, double share, double confidence) =>
        OfSigma(sigma, points, confidence) * RadiusPerSigma(share);

    /// <summary>The radius that holds a share of points, in units of sigma.</summary>
    internal static double RadiusPerSigma(double share) => Math.Sqrt(-2 * Kernels.Log1p(-Guard.Share(share)));
}
