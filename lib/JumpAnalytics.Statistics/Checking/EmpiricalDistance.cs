namespace JumpAnalytics.Statistics;

/// <summary>
/// How far a sample lies from a distribution: statistics of its empirical distribution function. Probabilities below and beyond each value
/// are given in rising order of the values; the second are 1 less the first, with digits of their own in the upper tail.
/// </summary>
internal static class EmpiricalDistance
{
    // What a probability that has rounded to 0 is taken for, so that no statistic is infinite.
    private const double Nearest = 1.1102230246251565e-16;

    /// <summary>Kolmogorov's D: the largest difference between the two distribution functions.</summary>
    public static double Kolmogorov(ReadOnlySpan<double> below)
    {
        double n = below.Length, largest = 0;
        for (var i = 0; i < below.Length; i++)
            largest = Math.Max(largest, Math.Max((i + 1) / n - below[i], below[i] - i / n));
        return largest;
    }

    /// <summary>Cramér and von Mises' W²: n times the mean squared difference.</summary>
    public static double CramerVonMises(ReadOnlySpan<double> below)
    {
        double n = below.Length, sum = 1 / (12 * n);
        for (var i = 0; i < below.Length; i++)
        {
            var gap = below[i] - (i + 0.5) / n;
            sum += gap * gap;
        }
        return sum;
    }

    /// <summary>Anderson and Darling's A²: as W², each difference weighted by its variance, so that the tails count.</summary>
    public static double AndersonDarling(ReadOnlySpan<double> below, ReadOnlySpan<double> beyond)
    {
        var n = below.Length;
        var sum = 0.0;
        for (var i = 0; i < n; i++)
            sum += (2 * i + 1.0) / n * (Log(below[i]) + Log(beyond[n - 1 - i])) + 1;
        return -sum;
    }

    private static double Log(double probability) => Math.Log(probability > 0 ? probability : Nearest);
}
