namespace JumpAnalytics.Statistics;

/// <summary>A share of points as a model has it and as it was observed.</summary>
/// <param name="Radius">Distance from the origin on either side of which points are counted, metres.</param>
/// <param name="Modelled">Share on the side asked for under the model.</param>
/// <param name="Observed">Share of the points that were there.</param>
/// <param name="StandardError">
/// Between-cluster standard error of the observed share (linearised, as a ratio of two totals over clusters: Cochran, Sampling Techniques,
/// 1977, section 6); null with a single cluster.
/// </param>
/// <param name="Points">Points whose side is known: all but those known only as beyond a shorter distance.</param>
[TypeFormatterSource]
public sealed record ModelledShare(double Radius, double Modelled, double Observed, double? StandardError, int Points)
{
    // Standard errors that a difference must reach to be called one.
    private const double Clear = 2;

    /// <summary>
    /// +1 when clearly more points were there than the model has, −1 when clearly fewer, 0 when it can't be told (two standard errors).
    /// </summary>
    public int Direction =>
        StandardError is { } error && Math.Abs(Observed - Modelled) > Clear * error ? Math.Sign(Observed - Modelled) : 0;

    /// <summary>The share of points no farther than a radius; null when no point's side is known.</summary>
    internal static ModelledShare? Within(PlaneSample sample, double radius, double modelled)
    {
        var (within, total) = (new int[sample.Clusters], new int[sample.Clusters]);
        for (var i = 0; i < sample.Places.Length; i++)
        {
            total[sample.ClusterOfPlaced[i]]++;
            if (sample.Places[i].Length <= radius) within[sample.ClusterOfPlaced[i]]++;
        }
        for (var i = 0; i < sample.Beyond.Count; i++)
        {
            if (sample.Beyond[i] >= radius) total[sample.ClusterOfBeyond[i]]++;
        }
        var points = total.Sum();
        if (points == 0) return null;
        var (share, clusters, sum) = ((double)within.Sum() / points, total.Count(t => t > 0), 0.0);
        for (var m = 0; m < total.Length; m++) sum += Math.Pow(within[m] - share * total[m], 2);
        double? error = clusters > 1 ? Math.Sqrt(sum * clusters / (clusters - 1.0)) / points : null;
        return new ModelledShare(radius, modelled, share, error, points);
    }

    /// <summary>The share farther than the radius.</summary>
    internal ModelledShare Others() => this with { Modelled = 1 - Modelled, Observed = 1 - Observed };
}
