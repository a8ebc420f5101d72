using MathNet.Numerics;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Quantiles of the distributions that intervals need. Tails are taken in logarithms and on their own side, so that a confidence next to
/// 1 keeps its digits; degrees of freedom from below 1 to 1e9 and beyond; relative error below 1e-10, mostly 1e-13.
/// </summary>
/// <remarks>
/// Chi-square, F, Student's t and beta are gamma and beta variables on the scale of the logarithm and of the log-odds, where their
/// densities have one peak and logarithms that are concave: Newton's method on the logarithm of the tail then ends from any place beyond
/// the root (<see cref="TailIntegral.Place"/>). The ends of a distribution are given for shares of 0 and 1.
/// </remarks>
internal static class QuantileOf
{
    private const double LeastLogOfErfc = -700; // its quantile needs the share itself, a double

    /// <summary>Of the standard normal.</summary>
    public static double Normal(TailShare share)
    {
        var lesser = share.LogLesser;
        var z = lesser > LeastLogOfErfc
            ? Constants.Sqrt2 * SpecialFunctions.ErfcInv(Math.Min(1, 2 * Math.Exp(lesser))) : FarNormal(lesser);
        return share.IsUpper ? z : -z;
    }

    /// <summary>Of Student's t.</summary>
    /// <param name="freedom">Degrees of freedom, above 0; may be infinite.</param>
    /// <param name="share">Where.</param>
    /// <exception cref="ArgumentOutOfRangeException">Degrees of freedom that are not above 0.</exception>
    public static double T(double freedom, TailShare share)
    {
        Guard.Above(freedom, 0);
        if (double.IsPositiveInfinity(freedom)) return Normal(share);
        var both = Math.Min(0, share.LogLesser + Math.Log(2));
        if (both == 0) return 0;
        var t = Math.Exp(BetaKernel.Place(0.5, freedom / 2, TailShare.OfLogAbove(both)) / 2);
        return share.IsUpper ? t : -t;
    }

    /// <summary>Of chi-square.</summary>
    /// <param name="freedom">Degrees of freedom, above 0 and finite.</param>
    /// <param name="share">Where.</param>
    /// <exception cref="ArgumentOutOfRangeException">Degrees of freedom that are not above 0.</exception>
    public static double ChiSquared(double freedom, TailShare share) =>
        freedom * Math.Exp(GammaKernel.Integral(Guard.Positive(freedom) / 2).Place(share));

    /// <summary>Of Fisher's F.</summary>
    /// <param name="above">Degrees of freedom of the numerator, above 0 and finite.</param>
    /// <param name="below">Those of the denominator.</param>
    /// <param name="share">Where.</param>
    /// <exception cref="ArgumentOutOfRangeException">Degrees of freedom that are not above 0.</exception>
    public static double F(double above, double below, TailShare share) =>
        Math.Exp(BetaKernel.Place(Guard.Positive(above) / 2, Guard.Positive(below) / 2, share));

    /// <summary>Of the beta distribution.</summary>
    /// <param name="a">The exponent at 0, above 0 and finite.</param>
    /// <param name="b">The exponent at 1.</param>
    /// <param name="share">Where.</param>
    /// <exception cref="ArgumentOutOfRangeException">Exponents that are not above 0.</exception>
    public static double Beta(double a, double b, TailShare share)
    {
        var t = BetaKernel.Place(Guard.Positive(a), Guard.Positive(b), share);
        return t > 0 ? a / (a + b * Math.Exp(-t)) : a * Math.Exp(t) / (b + a * Math.Exp(t));
    }

    /// <summary>Newton's method on Mills' asymptotic series, which beyond 37 has every digit.</summary>
    private static double FarNormal(double logTail)
    {
        if (double.IsNegativeInfinity(logTail)) return double.PositiveInfinity;
        var z = Math.Sqrt(-2 * logTail);
        for (var step = 0; step < 20; step++)
        {
            var s = 1 / (z * z);
            var series = 1 - s * (1 - 3 * s * (1 - 5 * s * (1 - 7 * s * (1 - 9 * s))));
            var move = (-z * z / 2 - GammaKernel.LogRoot2Pi - Math.Log(z) + Math.Log(series) - logTail) * series / z;
            z += move;
            if (Math.Abs(move) <= 1e-15 * z) break;
        }
        return z;
    }
}
