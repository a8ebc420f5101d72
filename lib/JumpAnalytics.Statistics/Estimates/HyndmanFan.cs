namespace JumpAnalytics.Statistics;

/// <summary>
/// The quantile of a sample that is used throughout: the definition numbered 8 by Hyndman and Fan (1996, Sample Quantiles in Statistical
/// Packages, The American Statistician 50:361-365), which is about unbiased for the median of the quantile whatever the distribution.
/// </summary>
/// <remarks>
/// Of n values in rising order it lies at place h = (n + 1/3)·share + 1/3, between neighbours in proportion, and is the least or the
/// greatest value beyond the ends. R's <c>quantile(x, share, type = 8)</c>.
/// </remarks>
public static class HyndmanFan
{
    /// <summary>The quantile of some values.</summary>
    /// <param name="values">
    /// Values in any order and unit, for instance distances in metres; infinite for one known only as beyond every other.
    /// </param>
    /// <param name="share">Share of the distribution below it, from 0 to 1.</param>
    /// <returns>In the unit of the values; infinite where it lies among infinite ones.</returns>
    /// <exception cref="ArgumentException">There is no value, or one is not a number.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The share is not from 0 to 1.</exception>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        double[] sorted = [.. values.Order()];
        if (sorted.Length == 0) throw new ArgumentException("No value; a quantile needs one or more.", nameof(values));
        if (double.IsNaN(sorted[0])) throw new ArgumentException("A value is not a number.", nameof(values));
        return OfSorted(sorted, share);
    }

    /// <summary>The quantile of one value or more in rising order.</summary>
    internal static double OfSorted(ReadOnlySpan<double> sorted, double share)
    {
        var h = (sorted.Length + 1 / 3.0) * Guard.Probability(share) + 1 / 3.0;
        var below = (int)h;
        if (below < 1) return sorted[0];
        if (below >= sorted.Length) return sorted[^1];
        var (low, high) = (sorted[below - 1], sorted[below]);
        return low == high || h == below ? low : low + (h - below) * (high - low);
    }
}
