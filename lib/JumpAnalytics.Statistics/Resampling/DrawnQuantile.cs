namespace JumpAnalytics.Statistics;

/// <summary>Quantiles of points that each count as often as their cluster was drawn.</summary>
internal static class DrawnQuantile
{
    /// <summary>Quantile type 8 (Hyndman and Fan 1996); infinite where it lies among points known only as beyond a distance.</summary>
    /// <param name="sorted">Cluster and distance of each point, metres, rising; infinite for a point known only as beyond one.</param>
    /// <param name="draws">How often each cluster was drawn.</param>
    /// <param name="share">Between 0 and 1.</param>
    /// <returns>Metres; null when no point was drawn.</returns>
    public static double? Of((int Cluster, double Distance)[] sorted, int[] draws, double share)
    {
        var n = 0L;
        foreach (var point in sorted) n += draws[point.Cluster];
        if (n == 0) return null;
        var h = Math.Clamp((n + 1 / 3.0) * share + 1 / 3.0, 1, n);
        // The first point up to which as many are counted as the rank, found from the nearer end.
        var rank = (long)h;
        int at;
        long upTo;
        if (share < 0.5)
        {
            (at, upTo) = (0, draws[sorted[0].Cluster]);
            while (upTo < rank) upTo += draws[sorted[++at].Cluster];
        }
        else
        {
            (at, upTo) = (sorted.Length - 1, n);
            while (upTo - draws[sorted[at].Cluster] >= rank) upTo -= draws[sorted[at--].Cluster];
        }
        if (upTo > rank || h == rank) return sorted[at].Distance;
        var next = at + 1;
        while (draws[sorted[next].Cluster] == 0) next++;
        return double.IsFinite(sorted[next].Distance)
            ? sorted[at].Distance + (h - rank) * (sorted[next].Distance - sorted[at].Distance) : double.PositiveInfinity;
    }
}
