namespace JumpAnalytics.Statistics;

/// <summary>Goes through resamples of clusters: how often each of M clusters was drawn in M draws with replacement.</summary>
internal static class ClusterResamples
{
    /// <summary>Most clusters for which the ways to draw a resample are counted without overflow.</summary>
    private const int MostCounted = 15;

    /// <summary>
    /// Number of resamples that differ in how often a cluster was drawn, (2M−1)! / (M! (M−1)!); infinite where they are too many to count.
    /// </summary>
    public static double Different(int clusters)
    {
        if (clusters > MostCounted) return double.PositiveInfinity;
        var different = 1L;
        for (var k = 1; k < clusters; k++) different = different * (clusters + k) / k;
        return different;
    }

    /// <summary>Every resample that differs, with the number of ways to draw it.</summary>
    /// <param name="draws">Is filled for each call.</param>
    /// <param name="take">Called with the ways, M! / Π draws!.</param>
    /// <returns>The number of all ways, M^M.</returns>
    public static long All(int[] draws, Action<long> take)
    {
        var clusters = draws.Length;
        return From(0, clusters, 1);

        long From(int cluster, int left, long ways)
        {
            if (cluster == clusters - 1)
            {
                draws[cluster] = left;
                take(ways);
                return ways;
            }
            var (all, choices) = (0L, 1L);
            for (var k = 0; k <= left; k++)
            {
                draws[cluster] = k;
                all += From(cluster + 1, left - k, ways * choices);
                choices = choices * (left - k) / (k + 1);
            }
            return all;
        }
    }

    /// <summary>Random resamples, each one way.</summary>
    /// <returns>Their number.</returns>
    public static long Random(int[] draws, int replicates, Random random, Action<long> take)
    {
        for (var b = 0; b < replicates; b++)
        {
            Array.Clear(draws);
            for (var m = 0; m < draws.Length; m++) draws[random.Next(draws.Length)]++;
            take(1);
        }
        return replicates;
    }
}
