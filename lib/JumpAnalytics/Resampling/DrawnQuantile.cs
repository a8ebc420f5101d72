namespace JumpAnalytics;

/// <summary>Quantiles of landings that each count as often as their mission was drawn.</summary>
internal static class DrawnQuantile
{
    /// <summary>Quantile type 8 (Hyndman and Fan 1996); infinite where it lies among landings known only as beyond a distance.</summary>
    /// <param name="sorted">Mission and distance of each landing, metres, rising; infinite for a landing known only as beyond one.</param>
    /// <param name="draws">How often each mission was drawn.</param>
    /// <param name="share">Between 0 and 1.</param>
    /// <returns>Metres; null when no landing was drawn.</returns>
    public static double? Of((int Mission, double Distance)[] sorted, int[] draws, double share)
    {
        var n = 0L;
        foreach (var landing in sorted) n += draws[landing.Mission];
        if (n == 0) return null;
        var h = Math.Clamp((n + 1 / 3.0) * share + 1 / 3.0, 1, n);
        var (rank, below) = ((long)h, 0L);
        for (var i = 0; i < sorted.Length; i++)
        {
            below += draws[sorted[i].Mission];
            if (below < rank) continue;
            if (below > rank || h == rank) return sorted[i].Distance;
            var next = i + 1;
            while (draws[sorted[next].Mission] == 0) next++;
            return double.IsFinite(sorted[next].Distance) ? sorted[i].Distance + (h - rank) * (sorted[next].Distance - sorted[i].Distance) : double.PositiveInfinity;
        }
        return sorted[^1].Distance;
    }
}
