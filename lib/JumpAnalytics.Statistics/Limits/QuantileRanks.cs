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
    // Logarithms of chances to fail that are equal but for the rounding of the incomplete beta function.
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
    public static long FewestForUpper(double share, double confidence)
    {
        Check(0, share, confidence);
        return Least(n => n * Math.Log(share), confidence);
    }

    /// <summary>
    /// Fewest values of which the least and the greatest hold a share of the distribution between them: the least n with
    /// 1 − n·share^(n−1) + (n−1)·share^n at least the confidence.
    /// </summary>
    /// <inheritdoc cref="Upper(int, double, double)" path="/param|/exception"/>
    public static long FewestForMinMax(double share, double confidence)
    {
        Check(0, share, confidence);
        return Least(n => (n - 1) * Math.Log(share) + Kernels.Log1p((n - 1) * (1 - share)), confidence);
    }

    /// <summary>
    /// The innermost pair of values, as far from the least as from the greatest, that are confidence limits of the median.
    /// </summary>
    /// <inheritdoc cref="Upper(int, double, double)" path="/param|/exception"/>
    /// <returns>Their ranks, or the reason with the number of values it takes.</returns>
    public static Fit<MedianRanks> Median(int n, double confidence)
    {
        Check(n, 0.5, confidence);
        // Fewer than lower of n values below the median, or as many above it.
        var lower = Roots.First(r => IsSure(Failure(r), confidence), 0, n / 2 + n % 2 + 1) - 1;
        return lower > 0
            ? Fit<MedianRanks>.Made(new MedianRanks(lower, n - lower + 1, -Kernels.Expm1(Failure(lower))))
            : Fit<MedianRanks>.Refused($"{n} values; limits of the median at {confidence:0.####} need "
                + $"{Least(m => (1 - m) * Math.Log(2), confidence)}");

        double Failure(int rank) => Math.Log(2) + LogFailure(n + 1.0 - rank, n, 0.5);
    }

    /// <summary>
    /// The same as <see cref="Upper(int, double, double)"/> where n values tell as much as fewer independent ones:
    /// ranks shrink in proportion.
    /// </summary>
    internal static Fit<QuantileRank> Upper(int n, double effective, double share, double confidence)
    {
        Check(n, share, confidence);
        if (n == 0 || !IsSure(LogFailure(effective, effective, share), confidence))
            return Fit<QuantileRank>.Refused($"{(effective == n ? $"{n}" : $"about {effective:0.0}")} independent values; an upper limit "
                + $"of the quantile at {share:0.####} with confidence {confidence:0.####} needs {FewestForUpper(share, confidence)}");
        var rank = Roots.First(r => !IsSure(At(r), confidence), 0, n);
        return Fit<QuantileRank>.Made(new QuantileRank(rank, -Kernels.Expm1(At(rank))));

        double At(int rank) => LogFailure(rank * (effective / n), effective, share);
    }

    /// <summary>
    /// Logarithm of the probability that <paramref name="rank"/> or more of n values lie below the quantile; both may be broken numbers.
    /// </summary>
    private static double LogFailure(double rank, double n, double share) => BetaKernel.LogTail(rank, n - rank + 1, share, beyond: false);

    private static bool IsSure(double logFailure, double confidence) => logFailure <= Kernels.Log1p(-confidence) + Tie;

    /// <summary>The least number at which a falling logarithm of the chance to fail is low enough: doubled, then halved.</summary>
    private static long Least(Func<double, double> logFailure, double confidence)
    {
        var high = 1L;
        while (!IsSure(logFailure(high), confidence)) high *= 2; // a share below 1 has failed at 2^63
        var low = high / 2;
        while (high - low > 1)
        {
            var middle = low + (high - low) / 2;
            if (IsSure(logFailure(middle), confidence)) high = middle;
            else low = middle;
        }
        return high;
    }

    private static void Check(int n, double share, double confidence)
    {
        Guard.AtLeast(n, 0);
        Guard.Share(share);
        Guard.Confidence(confidence);
    }
}
