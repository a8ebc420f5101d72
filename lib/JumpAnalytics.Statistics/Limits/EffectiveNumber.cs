namespace JumpAnalytics.Statistics;

/// <summary>
/// As how many independent points the points of a sample count when the share within a distance is asked for.
/// </summary>
/// <remarks>
/// <para>Points over the design effect of that share: the between-cluster variance M/(M−1)·Σ(within_m − share·points_m)²/points²
/// over share·(1 − share)/points (Kish 1965; Korn and Graubard 1998, Survey Methodology 24:193-201, who put the effective number
/// into Clopper and Pearson's limit as is done here). A design effect is not taken below 1.</para>
/// <para>Far out, where one or two points lie beyond the distance, the data can't tell a design effect: one point always looks independent.
/// The greatest of those at a half, three quarters and the share asked for is taken.</para>
/// <para>It is estimated from M clusters: the number is divided by (t/z)², t on M−1 degrees of freedom. It is never less than
/// points² / Σ points_m², the number when points of one cluster all share one fate, which needs no estimate.</para>
/// </remarks>
internal static class EffectiveNumber
{
    private static readonly double[] _levels = [0.5, 0.75];

    // Below this the quotient of the quantiles of t and the normal is ruled by the middle of both.
    private const double LeastConfidence = 0.75;

    /// <summary>The number when points of one cluster share one fate: points² / Σ points_m².</summary>
    public static double Surely(ReadOnlySpan<(int Cluster, double Distance)> points, int clusters)
    {
        var sizes = new double[clusters];
        foreach (var point in points) sizes[point.Cluster]++;
        return (double)points.Length * points.Length / sizes.Sum(s => s * s);
    }

    /// <summary>The effective number.</summary>
    /// <param name="sorted">Cluster and distance of each point, rising.</param>
    /// <param name="clusters">Number of clusters, 2 or more, each with a point.</param>
    /// <param name="share">The share asked for.</param>
    /// <param name="confidence">Confidence of the limit it is for.</param>
    public static double Of(ReadOnlySpan<(int Cluster, double Distance)> sorted, int clusters, double share, double confidence)
    {
        var surely = Surely(sorted, clusters);
        double? greatest = null;
        foreach (var level in _levels.Append(share))
        {
            if (DesignEffect(sorted, clusters, level) is { } effect) greatest = Math.Max(greatest ?? 1, effect);
        }
        if (greatest is null) return surely;
        var c = Math.Max(confidence, LeastConfidence);
        var widening = QuantileOf.T(clusters - 1, TailShare.Below(c)) / QuantileOf.Normal(TailShare.Below(c));
        return Math.Max(surely, sorted.Length / (greatest.Value * widening * widening));
    }

    /// <summary>
    /// Design effect of the share within the distance that a level of the points does not pass; null when all are within it.
    /// </summary>
    private static double? DesignEffect(ReadOnlySpan<(int Cluster, double Distance)> sorted, int clusters, double level)
    {
        var n = sorted.Length;
        var within = (int)Math.Ceiling(level * n);
        while (within < n && sorted[within].Distance == sorted[within - 1].Distance) within++;
        if (within == n) return null;
        var share = (double)within / n;
        var excess = new double[clusters];
        for (var i = 0; i < n; i++) excess[sorted[i].Cluster] += (i < within ? 1 : 0) - share;
        return clusters / (clusters - 1.0) * excess.Sum(e => e * e) / (n * share * (1 - share));
    }
}
