using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>What a figure becomes when one cluster is left out.</summary>
/// <param name="Cluster">Its place among the clusters, 0 for the first.</param>
/// <param name="Label">Its label.</param>
/// <param name="ValueWithout">The figure of the other clusters, in the figure's unit.</param>
/// <param name="Change">That less the figure of all: negative for a cluster that pulls the figure up.</param>
/// <param name="Standardised">
/// <paramref name="ValueWithout"/> less the mean over all clusters left out in turn, in units of the root mean square of these differences.
/// Efron (1992, Journal of the Royal Statistical Society B 54:83-127) looks twice at what lies beyond ±2; with M clusters it is
/// never beyond ±√(M−1).
/// </param>
[TypeFormatterSource]
public sealed record ClusterInfluence(int Cluster, string Label, double ValueWithout, double Change, double Standardised);

/// <summary>
/// A figure with each cluster left out in turn: which clusters drive it, its standard error, and its bias (Quenouille, Tukey; Efron and
/// Tibshirani 1993, chapter 11). Clusters are the units, because points of one cluster are not independent.
/// </summary>
/// <remarks>
/// The standard error of a figure that is not smooth, like a quantile, is not to be trusted (Efron and Tibshirani, section 11.6); the
/// influences still tell which clusters matter.
/// </remarks>
[TypeFormatterSource]
public sealed record ClusterJackknife
{
    /// <summary>Fewest clusters: of two, each weighs as much as the other, whatever they are.</summary>
    public const int FewestClusters = 3;

    private ClusterJackknife()
    {
    }

    /// <summary>The figure of all clusters.</summary>
    public required double Value { get; init; }

    /// <summary>Number of clusters.</summary>
    public required int Clusters { get; init; }

    /// <summary>Estimated bias of the figure: (M−1)·(mean with one left out − value).</summary>
    public required double Bias { get; init; }

    /// <summary>Standard error: √((M−1)/M·Σ(value without − mean)²).</summary>
    public required double StandardError { get; init; }

    /// <summary>
    /// Acceleration of the figure: Σu³ / 6(Σu²)^1.5, u the mean less the value without a cluster (Efron and Tibshirani, equation 14.15).
    /// </summary>
    public required double Acceleration { get; init; }

    /// <summary>The clusters, the one with the greatest influence first; equal ones in their order.</summary>
    public required IReadOnlyList<ClusterInfluence> Ranked { get; init; }

    /// <summary>Leaves out each cluster in turn.</summary>
    /// <param name="clusters">Number of clusters, M.</param>
    /// <param name="figure">
    /// From how often each cluster counts (here 0 or 1) to the figure; null when it can't be computed. The array is
    /// used again for the next call.
    /// </param>
    /// <param name="labels">What the clusters are called; their numbers from 0 when left out.</param>
    /// <param name="nouns">What clusters are called in a reason; so when left out.</param>
    /// <returns>The influences, or the reason why there are none.</returns>
    /// <exception cref="ArgumentException">Not as many labels as clusters.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of clusters.</exception>
    public static Fit<ClusterJackknife> Of(
        int clusters, Func<int[], double?> figure, IReadOnlyList<string>? labels = null, SampleNouns? nouns = null)
    {
        nouns ??= SampleNouns.Default;
        Guard.AtLeast(clusters, 0);
        if (labels is not null && labels.Count != clusters)
            throw new ArgumentException($"There must be a label for each {nouns.Cluster}; found {labels.Count} for "
                + $"{nouns.CountedClusters(clusters)}.", nameof(labels));
        if (clusters < FewestClusters)
            return Fit<ClusterJackknife>.Refused($"{nouns.CountedClusters(clusters)}; which of them drive a figure can be told from "
                + $"{FewestClusters} on");
        var counts = new int[clusters];
        Array.Fill(counts, 1);
        if (figure(counts) is not { } value || !double.IsFinite(value))
            return Fit<ClusterJackknife>.Refused($"the figure can't be computed from all {nouns.Clusters}");
        var without = new double[clusters];
        for (var m = 0; m < clusters; m++)
        {
            counts[m] = 0;
            if (figure(counts) is not { } left || !double.IsFinite(left))
                return Fit<ClusterJackknife>.Refused($"without {nouns.Cluster} {LabelOf(m)} the figure can't be computed");
            (without[m], counts[m]) = (left, 1);
        }
        var mean = without.Average();
        var squares = without.Sum(w => (w - mean) * (w - mean));
        var rounding = 1e-13 * without.Max(Math.Abs);
        if (squares <= clusters * rounding * rounding)
            return Fit<ClusterJackknife>.Refused($"leaving out a {nouns.Cluster} changes nothing, whichever it is");
        var rms = Math.Sqrt(squares / clusters);
        return Fit<ClusterJackknife>.Made(new ClusterJackknife
        {
            Value = value,
            Clusters = clusters,
            Bias = (clusters - 1) * (mean - value),
            StandardError = Math.Sqrt((clusters - 1.0) / clusters * squares),
            Acceleration = without.Sum(w => Math.Pow((mean - w) / rms, 3)) / (6 * Math.Pow(clusters, 1.5)),
            Ranked = [.. without.Select((w, m) => new ClusterInfluence(m, LabelOf(m), w, w - value, (w - mean) / rms))
                .OrderByDescending(i => Math.Abs(i.Standardised))],
        });

        string LabelOf(int m) => labels?[m] ?? m.ToString(CultureInfo.InvariantCulture);
    }
}
