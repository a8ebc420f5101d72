namespace JumpAnalytics.Internals;

/// <summary>Hits and landings of one mission in one cell.</summary>
internal readonly record struct CellCount(int Cell, int Hits, int Landings) : IComparable<CellCount>
{
    public int CompareTo(CellCount other) => (Cell, Hits, Landings).CompareTo((other.Cell, other.Hits, other.Landings));
}

/// <summary>
/// The counts of missions, each different pattern of counts kept once with the number of missions that show it, in an order that does
/// not depend on the order of the missions.
/// </summary>
internal sealed class MissionPatterns
{
    private MissionPatterns(int cells, int[] start, int[] cell, double[] hits, double[] landings, double[] times, int[] patternOf) =>
        (Cells, Start, Cell, Hits, Landings, Times, PatternOf) = (cells, start, cell, hits, landings, times, patternOf);

    /// <summary>Number of cells.</summary>
    public int Cells { get; }

    /// <summary>Number of patterns.</summary>
    public int Count => Times.Length;

    /// <summary>First group of each pattern, and the end.</summary>
    public int[] Start { get; }

    /// <summary>Cell of each group.</summary>
    public int[] Cell { get; }

    /// <summary>Hits of each group.</summary>
    public double[] Hits { get; }

    /// <summary>Landings of each group.</summary>
    public double[] Landings { get; }

    /// <summary>How many missions show each pattern.</summary>
    public double[] Times { get; }

    /// <summary>The pattern of each mission.</summary>
    public int[] PatternOf { get; }

    /// <summary>Gathers the patterns of missions.</summary>
    /// <param name="missions">The counts of each mission, each cell at most once, with at least one landing.</param>
    /// <param name="cells">Number of cells.</param>
    public static MissionPatterns Of(IReadOnlyList<CellCount[]> missions, int cells)
    {
        var sorted = missions.Select(m => m.Order().ToArray()).ToArray();
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
        return new MissionPatterns(cells, [.. start], [.. groups.Select(g => g.Cell)], [.. groups.Select(g => (double)g.Hits)],
            [.. groups.Select(g => (double)g.Landings)], [.. times], patternOf);
    }
}
