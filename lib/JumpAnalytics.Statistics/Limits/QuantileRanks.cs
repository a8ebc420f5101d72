using MathNet.Numerics;

namespace JumpAnalytics.Statistics;

/// <summary>Which of the values in rising order is a confidence limit.</summary>
/// <param name="Rank">1 for the least.</param>
/// <param name="Confidence">Confidence that it has, at least what was asked for.</param>
[TypeFormatterSource]
public sealed record QuantileRank(int Rank, double Confidence);

/// <summary>Which two of the values in rising order are confidence limits of the median.</summary>
/// <param name="Lower">Rank of the lower limit, 1 for the least value.</param>
/// <param name="Upper">Rank of the upper limit.</param>
/// <param name="Confidence">Confidence that they have together, at least what was asked for.</param>
[TypeFormatterSource]
public sealed record MedianRanks(int Lower, int Upper, double Confidence);

/// <summary>
/// Confidence limits of a quantile that hold whatever the distribution: one of the n independent values themselves (Thompson 1936;
/// Hahn and Meeker, Statistical Intervals, 1991, chapter 5).
/// </summary>
public static class QuantileRanks
{
    // Confidences that are equal but for the rounding of the incomplete beta function.
    private const double Tie = 1e-11;

    /// <summary>The least value that is an upper confidence limit of a quantile.</summary>
    /// <param name="n">Number of independent values, 0 or more.</param>
    /// <param name="share">The quantile's share, between 0 and 1.</param>
    /// <param name="confidence">Confidence, between 0 and 1.</param>
    /// <returns>
    /// Its rank: the least j for which fewer than j of n values lie below the quantile with at least this confidence; or, when not even the
    /// greatest value is one, the reason with the number of values it takes.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative number, or a share or confidence not between 0 and 1.</exception>
    public static Fit<QuantileRank> Upper(int n, double share, double confidence) => Upper(n, n, share, confidence);

    /// <summary>
    /// Fewest values of which the greatest is an upper confidence limit: the least n with 1 − share^n at least the confidence.
    /// </summary>
    /// <inheritdoc cref="Upper(int, double, double)" path="/param|/exception"/>
    public static int FewestForUpper(double share, double confidence)
    {
        Check(0, share, confidence);
        return Least(Math.Log(1 - confidence) / Math.Log(share), n => 1 - Math.Pow(share, n), confidence);
    }

    /// <summary>
    /// Fewest values of which the least and the greatest hold a share of the distribution between them: the least n with
    /// 1 − n·share^(n−1) + (n−1)·share^n at least the confidence.
    /// </summary>
    /// <inheritdoc cref="Upper(int, double, double)" path="/param|/exception"/>
    public static int FewestForMinMax(double share, double confidence)
    {
        Check(0, share, confidence);
        return Least(Math.Max(2, Math.Log(1 - confidence) / Math.Log(share)),
            n => 1 - n * Math.Pow(share, n - 1) + (n - 1) * Math.Pow(share, n), confidence);
    }

    /// <summary>
    /// The innermost pair of values, as far from the least as from the greatest, that are confidence limits of the median.
    /// </summary>
    /// <inheritdoc cref="Upper(int, double, double)" path="/param|/exception"/>
    /// <returns>Their ranks, or the reason with the number of values it takes.</returns>
    public static Fit<MedianRanks> Median(int n, double confidence)
    {
        Check(n, 0.5, confidence);
        for (var lower = (n + 1) / 2; lower >= 1; lower--)
        {
            // Fewer than lower of n values below the median, or as many above it.
            var within = 2 * ConfidenceOf(n + 1 - lower, n, 0.5) - 1;
            if (within >= confidence - Tie) return Fit<MedianRanks>.Made(new MedianRanks(lower, n + 1 - lower, within));
        }
        var needed = Least(1 - Math.Log2(1 - confidence), m => 1 - Math.Pow(0.5, m - 1), confidence);
        return Fit<MedianRanks>.Refused($"{n} values; limits of the median at {confidence:0.####} need {needed}");
    }

    /// <summary>
    /// The same as <see cref="Upper(int, double, double)"/> where n values tell as much as fewer independent ones:
    /// ranks shrink in proportion.
    /// </summary>
    internal static Fit<QuantileRank> Upper(int n, double effective, double share, double confidence)
    {
        Check(n, share, confidence);
        if (n == 0 || ConfidenceOf(effective, effective, share) < confidence - Tie)
            return Fit<QuantileRank>.Refused($"{(effective == n ? $"{n}" : $"about {effective:0.0}")} independent values; an upper limit "
                + $"of the quantile at {share:0.####} with confidence {confidence:0.####} needs {FewestForUpper(share, confidence)}");
        var rank = Roots.First(r => At(r) < confidence - Tie, 0, n);
        return Fit<QuantileRank>.Made(new QuantileRank(rank, At(rank)));

        double At(int rank) => ConfidenceOf(rank * (effective / n), effective, share);
    }

    /// <summary>
    /// Probability that fewer than <paramref name="rank"/> of n values lie below the quantile; both may be broken numbers.
    /// </summary>
    private static double ConfidenceOf(double rank, double n, double share) =>
        1 - SpecialFunctions.BetaRegularized(rank, n - rank + 1, share);

    private static int Least(double about, Func<int, double> confidenceOf, double confidence)
    {
        var n = Math.Max(1, (int)about - 1);
        while (confidenceOf(n) < confidence - Tie) n++;
        return n;
    }

    private static void Check(int n, double share, double confidence)
    {
        Guard.AtLeast(n, 0);
        Guard.Share(share);
        Guard.Confidence(confidence);
    }
}
