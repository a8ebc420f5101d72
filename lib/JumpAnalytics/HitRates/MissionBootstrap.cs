using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Intervals by resampling whole missions with replacement.</summary>
/// <remarks>
/// Percentile interval with the small-sample widening of Hesterberg (2015, The American Statistician 69:371-386): the
/// percentiles are taken at Φ(∓√(M/(M−1))·t) for M missions, t on M−1 degrees of freedom, because plain percentiles are
/// too narrow for few missions.
/// </remarks>
internal static class MissionBootstrap
{
    /// <summary>Share of resamples that must yield a value.</summary>
    private const double LeastUsable = 0.95;

    /// <summary>An estimate with its interval.</summary>
    /// <param name="value">The value from the sample itself.</param>
    /// <param name="missions">Number of missions.</param>
    /// <param name="options">Resamples, confidence and seed.</param>
    /// <param name="purpose">Names the stream of random numbers.</param>
    /// <param name="statistic">From how often each mission was drawn to the value; null when it can't be computed.</param>
    public static Estimate Interval(double value, int missions, AccuracyOptions options, string purpose, Func<int[], double?> statistic)
    {
        if (missions < 2) return Estimate.WithoutRange(value, "a single mission");
        var random = SeedStream.For(options.Seed, purpose);
        var draws = new int[missions];
        var values = new List<double>(options.Replicates);
        for (var b = 0; b < options.Replicates; b++)
        {
            Array.Clear(draws);
            for (var m = 0; m < missions; m++) draws[random.Next(missions)]++;
            if (statistic(draws) is { } v) values.Add(v);
        }
        if (values.Count < LeastUsable * options.Replicates)
            return Estimate.WithoutRange(value, $"only {values.Count} of {options.Replicates} resamples of its {missions} missions could be fitted");
        var sorted = values.Order().ToArray();
        var tail = Tail(missions, options.Confidence);
        var (low, high) = (Quantile(sorted, tail), Quantile(sorted, 1 - tail));
        return double.IsFinite(low) && double.IsFinite(high)
            ? Estimate.Of(value, new Interval(low, high))
            : Estimate.WithoutRange(value, "the limit would lie among landings known only as beyond a distance");
    }

    /// <summary>Share of resamples beyond each limit.</summary>
    internal static double Tail(int missions, double confidence) =>
        Normal.CDF(0, 1, -Math.Sqrt(missions / (missions - 1.0)) * StudentT.InvCDF(0, 1, missions - 1, (1 + confidence) / 2));

    private static double Quantile(double[] sorted, double share) => SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R8);
}
