namespace JumpAnalytics;

/// <summary>Finds the row of the headers where a title or a date of printing may stand above it.</summary>
internal static class HeaderSearch
{
    /// <summary>Rows in which the headers are looked for.</summary>
    public const int Rows = 20;

    /// <summary>Headers of a log that tell a row, unless it holds two and nothing else; fewer may be words among values.</summary>
    private const int FewestKnown = 3;

    private static readonly LogColumn[] _columns = [.. LogColumns.Drops.Union(LogColumns.Landings)];

    /// <summary>
    /// The first of the rows with the most headers of a log; where no row has enough, the first that fills at least half as many cells
    /// as the
    /// fullest.
    /// </summary>
    /// <param name="rows">The first rows of a table, blank ones too.</param>
    /// <returns>Place of the row of headers, from 0.</returns>
    public static int Among(IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var filled = rows.Select(r => r.Count(c => c.Trim().Length > 0)).ToList();
        var known = rows.Select((r, i) => HeaderMap.Of("", r, _columns).Bound.Count is var n
            && (n >= FewestKnown || (n == 2 && n == filled[i])) ? n : 0).ToList();
        if (known.Max() is > 0 and var most) return known.IndexOf(most);
        return Math.Max(0, filled.FindIndex(f => f > 0 && 2 * f >= filled.Max()));
    }
}
