using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>
/// Exact confidence limits of misses that follow a Rayleigh distribution: no bias, the same spread along and across, landings independent.
/// 2n·(estimate/sigma)² is then chi-square on 2n degrees of freedom, the estimate √(Σ distance²/2n).
/// </summary>
public static class RayleighLimit
{
    /// <summary>Upper confidence limit of sigma, the standard deviation along each axis, metres. The lower limit is the one at 1 − confidence.</summary>
    /// <param name="sigma">Maximum-likelihood estimate √(Σ distance²/2n), metres, more than 0.</param>
    /// <param name="landings">Number of landings n behind it, 1 or more.</param>
    /// <param name="confidence">One-sided confidence, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument that can't be.</exception>
    public static double OfSigma(double sigma, int landings, double confidence)
    {
        if (!(sigma > 0 && double.IsFinite(sigma))) throw new ArgumentOutOfRangeException(nameof(sigma), sigma, "Sigma in metres, more than 0.");
        ArgumentOutOfRangeException.ThrowIfLessThan(landings, 1);
        if (!(confidence > 0 && confidence < 1)) throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence between 0 and 1, for instance 0.9.");
        return sigma * Math.Sqrt(2.0 * landings / ChiSquared.InvCDF(2 * landings, 1 - confidence));
    }

    /// <summary>Upper confidence limit of the radius that holds a share of landings, metres: that of sigma times √(−2 ln(1 − share)).</summary>
    /// <inheritdoc cref="OfSigma" path="/exception"/>
    /// <param name="sigma">Maximum-likelihood estimate √(Σ distance²/2n), metres, more than 0.</param>
    /// <param name="landings">Number of landings n behind it, 1 or more.</param>
    /// <param name="share">Share of landings that the radius holds, between 0 and 1.</param>
    /// <param name="confidence">One-sided confidence, between 0 and 1.</param>
    public static double OfRadius(double sigma, int landings, double share, double confidence) =>
        OfSigma(sigma, landings, confidence) * RadiusPerSigma(share);

    /// <summary>The radius that holds a share of landings, in units of sigma.</summary>
    internal static double RadiusPerSigma(double share) => share > 0 && share < 1 ? Math.Sqrt(-2 * SpecialFunctions.Log1p(-share))
        : throw new ArgumentOutOfRangeException(nameof(share), share, "A share between 0 and 1, for instance 0.9.");
}
