namespace JumpAnalytics.Statistics;

/// <summary>Successes and points of one cluster in one cell.</summary>
internal readonly record struct CellCount(int Cell, int Successes, int Points) : IComparable<CellCount>
{
    public int CompareTo(CellCount other) => (Cell, Successes, Points).CompareTo((other.Cell, other.Successes, other.Points));
}

/// <summary>
/// The counts of clusters, each different pattern of counts kept once with the number of clusters that show it, in an order that does
/// not depend on the order of the clusters.
/// </summary>
internal sealed class ClusterPatterns
{
    private ClusterPatterns(int cells, int[] start, int[] cell, double[] successes, double[] points, double[] times, int[] patternOf) =>
        (Cells, Start, Cell, Successes, Points, Times, PatternOf) = (cells, start, cell, successes, points, times, patternOf);

    /// <summary>Number of cells.</summary>
    public int Cells { get; }

    /// <summary>Number of patterns.</summary>
    public int Count => Times.Length;

    /// <summary>First group of each pattern, and the end.</summary>
    public int[] Start { get; }

    /// <summary>Cell of each group.</summary>
    public int[] Cell { get; }

    /// <summary>Successes of each group.</summary>
    public double[] Successes { get; }

    /// <summary>Points of each group.</summary>
    public double[] Points { get; }

    /// <summary>How many clusters show each pattern.</summary>
    public double[] Times { get; }

    /// <summary>The pattern of each cluster.</summary>
    public int[] PatternOf { get; }

    /// <summary>Gathers the patterns of clusters.</summary>
    /// <param name="clusters">The counts of each cluster, each cell at most once, with at least one point.</param>
    /// <param name="cells">Number of cells.</param>
    public static ClusterPatterns Of(IReadOnlyList<CellCount[]> clusters, int cells)
    {
        var sorted = clusters.Select(m => m.Order().ToArray()).ToArray();
        var order = Enumerable.Range(0, sorted.Length).ToArray();
        Array.Sort(order, (a, b) => sorted[a].AsSpan().SequenceCompareTo(sorted[b]) is var c and not 0 ? c : a.CompareTo(b));
        var (start, groups, times, patternOf) = (new List<int>(), new List<CellCount>(), new List<double>(), new int[sorted.Length]);
        CellCount[]? last = null;
        foreach (var m in order)
        {
            if (last is null || !last.AsSpan().SequenceEqual(sorted[m]))
            {
                start.Add(groups.Count);
                groups.AddRange(sorted[m]);
                times.Add(0);
                last = sorted[m];
            }
            times[^1]++;
            patternOf[m] = times.Count - 1;
        }
        start.Add(groups.Count);
        return new ClusterPatterns(cells, [.. start], [.. groups.Select(g => g.Cell)], [.. groups.Select(g => (double)g.Successes)],
            [.. groups.Select(g => (double)g.Points)], [.. times], patternOf);
    }
}
