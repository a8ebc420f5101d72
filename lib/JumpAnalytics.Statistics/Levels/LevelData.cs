namespace JumpAnalytics.Statistics;

/// <summary>
/// Points as a two-level model sees them: one or two numbers each, a cluster, and perhaps a rater and a number the mean runs along.
/// </summary>
internal sealed class LevelData
{
    /// <summary>Gathers the points of each cluster.</summary>
    /// <param name="axes">For each axis one number a point.</param>
    /// <param name="cluster">Cluster of each point, 0 to <paramref name="clusters"/> − 1.</param>
    /// <param name="clusters">Number of clusters; some may have no point.</param>
    /// <param name="rater">Rater of each point, 0 to <paramref name="raters"/> − 1; null without that level.</param>
    /// <param name="raters">Number of raters.</param>
    /// <param name="along">What the mean runs along, one number a point; null when the mean is constant.</param>
    public LevelData(double[][] axes, ReadOnlySpan<int> cluster, int clusters, int[]? rater = null, int raters = 0, double[]? along = null)
    {
        (Axes, Rater, Raters, Along) = (axes, rater, raters, along);
        Start = new int[clusters + 1];
        foreach (var m in cluster) Start[m + 1]++;
        for (var m = 0; m < clusters; m++)
        {
            if (Start[m + 1] > 0) Clusters++;
            Start[m + 1] += Start[m];
        }
        var next = Start.AsSpan(0, clusters).ToArray();
        Order = new int[cluster.Length];
        for (var i = 0; i < cluster.Length; i++) Order[next[cluster[i]]++] = i;
    }

    public double[][] Axes { get; }
    public int[]? Rater { get; }
    public int Raters { get; }
    public double[]? Along { get; }

    /// <summary>Points by cluster, in the order given within each.</summary>
    public int[] Order { get; }

    /// <summary>Where each cluster begins in <see cref="Order"/>; one more for the end.</summary>
    public int[] Start { get; }

    /// <summary>Clusters that have a point.</summary>
    public int Clusters { get; }

    public int Points => Order.Length;

    /// <summary>Numbers of the mean for each axis: one, or two with a slope.</summary>
    public int Fixed => Along is null ? 1 : 2;

    /// <summary>What points, clusters and raters are called in texts.</summary>
    public SampleNouns Nouns { get; init; } = SampleNouns.Default;

    public ReadOnlySpan<int> PointsOf(int cluster) => Order.AsSpan(Start[cluster]..Start[cluster + 1]);

    /// <summary>Numbers names in order of appearance.</summary>
    public static (IReadOnlyList<string> Names, int[] Number) Numbered(IEnumerable<string> names)
    {
        var (known, number) = (new Dictionary<string, int>(StringComparer.Ordinal), new List<int>());
        foreach (var name in names)
        {
            if (!known.TryGetValue(name, out var n)) known.Add(name, n = known.Count);
            number.Add(n);
        }
        return ([.. known.Keys], [.. number]);
    }
}
