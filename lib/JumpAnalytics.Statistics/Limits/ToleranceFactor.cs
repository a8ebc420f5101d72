using JumpAnalytics.Internals;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.RootFinding;

namespace JumpAnalytics;

/// <summary>
/// Factors k of normal tolerance limits: of n independent normal values with mean m and standard deviation s (divisor n − 1), a share
/// of the values to come lies within the limits, with a confidence. Along one axis of the miss, say, m + k·s. No unit.
/// </summary>
/// <remarks>
/// Landings of one mission are not independent: n is then a number of missions, each with one value (Hahn and Meeker, Statistical
/// Intervals, 1991, section 4.6; Odeh and Owen, Tables for Normal Tolerance Limits, 1980).
/// </remarks>
public static class ToleranceFactor
{
    // Step, in standard errors of the mean, of the sum over where the mean may lie; 0.05 gives the same digits.
    private const double Step = 0.1;
    private const double Farthest = 8.8;

    /// <summary>Factor of a one-sided limit m + k·s, exact: the noncentral t quantile at √n·Φ⁻¹(share), over √n.</summary>
    /// <param name="n">Number of values, 2 or more.</param>
    /// <param name="share">Share of the values to come that lie within the limit, between 0 and 1.</param>
    /// <param name="confidence">Confidence, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 2 values, or a share or confidence not between 0 and 1.</exception>
    public static double OneSided(int n, double share, double confidence)
    {
        Check(n, share, confidence);
        return NoncentralT.Quantile(confidence, n - 1, Math.Sqrt(n) * Normal.InvCDF(0, 1, share)) / Math.Sqrt(n);
    }

    /// <summary>
    /// Factor of a pair of limits m ± k·s, exact: the confidence is the mean, over where m may lie, of the probability that s is wide
    /// enough for the share (Wald and Wolfowitz 1946, without their approximation).
    /// </summary>
    /// <inheritdoc cref="OneSided" path="/param|/exception"/>
    public static double TwoSided(int n, double share, double confidence)
    {
        Check(n, share, confidence);
        var widths = Widths(n, share);
        var guess = Howe(n, share, confidence);
        double low = guess, high = guess;
        while (Confidence(low) > confidence) low /= 1.2;
        while (Confidence(high) < confidence) high *= 1.2;
        return Brent.FindRoot(k => Confidence(k) - confidence, low, high, 1e-16, 200);

        double Confidence(double k)
        {
            double sum = 0, all = 0;
            for (var i = 0; i < widths.Length; i++)
            {
                var weight = Math.Exp(-0.5 * (i * Step) * (i * Step)) * (i == 0 ? 1 : 2);
                all += weight;
                sum += weight * SpecialFunctions.GammaUpperRegularized(0.5 * (n - 1), 0.5 * (n - 1) * (widths[i] / k) * (widths[i] / k));
            }
            return sum / all;
        }
    }

    /// <summary>
    /// Factor of a pair of limits m ± k·s by Howe's (1969) approximation, Φ⁻¹((1 + share)/2)·√((n − 1)(1 + 1/n) / χ²), χ² the lower quantile
    /// of chi-square on n − 1 degrees of freedom; for shares of 0.9 to 0.99 and confidences of 0.9 and 0.95 within 2 % of <see cref="TwoSided"/> from 5 values on. For checking against tables.
    /// </summary>
    /// <inheritdoc cref="OneSided" path="/param|/exception"/>
    public static double Howe(int n, double share, double confidence)
    {
        Check(n, share, confidence);
        return Normal.InvCDF(0, 1, (1 + share) / 2) * Math.Sqrt((n - 1) * (1 + 1.0 / n) / ChiSquared.InvCDF(n - 1, 1 - confidence));
    }

    /// <summary>Half widths, in standard deviations, that hold the share when the middle is i steps from the mean.</summary>
    private static double[] Widths(int n, double share)
    {
        var widths = new double[(int)(Farthest / Step) + 1];
        var centred = Normal.InvCDF(0, 1, (1 + share) / 2);
        for (var i = 0; i < widths.Length; i++)
        {
            var x = i * Step / Math.Sqrt(n);
            widths[i] = i == 0 ? centred : Brent.FindRoot(r => Inside(x, r) - share, centred, x + centred, 1e-16, 200);
        }
        return widths;

        // Both tails from the far side, where they keep their digits.
        static double Inside(double x, double r) => 1 - NormalInterval.Below(-x - r) - NormalInterval.Below(x - r);
    }

    private static void Check(int n, double share, double confidence)
    {
        if (n < 2) throw new ArgumentOutOfRangeException(nameof(n), n, "A tolerance limit needs at least 2 values.");
        if (!(share > 0 && share < 1)) throw new ArgumentOutOfRangeException(nameof(share), share, "A share between 0 and 1, for instance 0.9.");
        if (!(confidence > 0 && confidence < 1)) throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence between 0 and 1, for instance 0.9.");
    }
}
