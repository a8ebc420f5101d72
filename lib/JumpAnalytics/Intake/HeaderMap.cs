namespace JumpAnalytics;

/// <summary>A header of a file bound to the quantity it holds.</summary>
internal sealed record BoundColumn(int Index, string Header, LogColumn Column, MeasureUnit? Unit, bool IsMagnetic);

/// <summary>Which field of a file holds which quantity, and which headers nobody knows.</summary>
internal sealed class HeaderMap
{
    /// <summary>Letters; a longer header is no slip of the pen, and comparing it with every known one would take long.</summary>
    private const int LongestHinted = 60;

    private readonly ILookup<LogColumn, BoundColumn> _byColumn;

    private HeaderMap(IReadOnlyList<string> header, IReadOnlyList<BoundColumn> bound, IReadOnlyList<UnknownColumn> unknown)
    {
        (Header, Bound, Unknown) = (header, bound, unknown);
        _byColumn = bound.ToLookup(b => b.Column);
    }

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<BoundColumn> Bound { get; }

    public IReadOnlyList<UnknownColumn> Unknown { get; }

    public IEnumerable<BoundColumn> For(LogColumn column) => _byColumn[column];

    public bool Has(LogColumn column) => _byColumn.Contains(column);

    public static HeaderMap Of(IReadOnlyList<string> header, IEnumerable<LogColumn> columns)
    {
        var known = new Dictionary<string, (LogColumn Column, ColumnHeader Header)>(StringComparer.OrdinalIgnoreCase);
        foreach (var column in columns.Distinct())
        {
            foreach (var h in column.Headers()) known[h.Text] = (column, h);
        }
        var bound = new List<BoundColumn>();
        var unknown = new List<UnknownColumn>();
        for (var i = 0; i < header.Count; i++)
        {
            if (known.TryGetValue(header[i], out var hit))
                bound.Add(new BoundColumn(i, header[i], hit.Column, hit.Header.Unit, hit.Header.IsMagnetic));
            else
                unknown.Add(new UnknownColumn(header[i], HintFor(header[i], known.Keys, columns)));
        }
        return new HeaderMap(header, bound, unknown);
    }

    /// <summary>One sentence for each required quantity that no header holds.</summary>
    public IReadOnlyList<string> Missing(IEnumerable<LogColumn[][]> required) =>
        [.. from sets in required
            where !sets.Any(set => set.All(Has))
            select string.Join(", or ", sets.Select(set => string.Join(" + ", set.Select(c => c.Accepted()))))];

    private static string? HintFor(string header, IEnumerable<string> known, IEnumerable<LogColumn> columns)
    {
        if (header.Length > LongestHinted) return null;
        var column = columns.FirstOrDefault(c => c.Name.Equals(header, StringComparison.OrdinalIgnoreCase));
        if (column is not null) return $"needs its unit in the header: {column.Accepted()}";
        column = columns.FirstOrDefault(c => c.Headers().Any(h => h.Unit is not null || h.Text != c.Name)
            && header.StartsWith(c.Name + "_", StringComparison.OrdinalIgnoreCase));
        if (column is not null) return $"accepted are {column.Accepted()}";
        var near = known.Where(k => EditDistance(k, header.ToLowerInvariant()) <= 2).Order(StringComparer.Ordinal).FirstOrDefault();
        return near is null ? null : $"did you mean {near}?";
    }

    /// <summary>Least number of single-letter changes between two texts (Levenshtein).</summary>
    private static int EditDistance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var corner = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
                corner = row[j];
                row[j] = Math.Min(change, Math.Min(row[j], row[j - 1]) + 1);
            }
        }
        return row[b.Length];
    }
}

/// <summary>A column that was not read because its header is not one of the log's.</summary>
/// <param name="Header">The header as the file spells it.</param>
/// <param name="Hint">What it may have been meant for; null when nothing is near.</param>
public sealed record UnknownColumn(string Header, string? Hint);
