namespace JumpAnalytics;

/// <summary>A header of a file bound to the quantity it holds.</summary>
internal sealed record BoundColumn(int Index, string Header, LogColumn Column, MeasureUnit? Unit, bool IsMagnetic, CodeList? Codes = null)
{
    /// <summary>The field of a row as the log understands it: codes in its words, nothing when it is blank.</summary>
    public string TextIn(RawRow row) => Written(row) is var text && Codes is { } codes && text.Length > 0 ? codes.WordFor(text) : text;

    /// <summary>The field as it was written; nothing when it is blank.</summary>
    public string Written(RawRow row) => Index < row.Fields.Length && row.Fields[Index].Trim() is var text && text != "NA" ? text : "";
}

/// <summary>Which field of a file holds which quantity, and which headers nobody knows.</summary>
internal sealed class HeaderMap
{
    /// <summary>Letters; a longer header is no slip of the pen, and comparing it with every known one would take long.</summary>
    private const int LongestHinted = 60;

    private readonly BoundColumn[][] _byColumn; // by number of the column

    private HeaderMap(IReadOnlyList<string> header, IReadOnlyList<BoundColumn> bound, IReadOnlyList<UnknownColumn> unknown)
    {
        (Header, Bound, Unknown) = (header, bound, unknown);
        _byColumn = new BoundColumn[LogColumn.Made][];
        Array.Fill(_byColumn, []);
        foreach (var columns in bound.GroupBy(b => b.Column.Number)) _byColumn[columns.Key] = [.. columns];
    }

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<BoundColumn> Bound { get; }

    public IReadOnlyList<UnknownColumn> Unknown { get; }

    public BoundColumn[] For(LogColumn column) => column.Number < _byColumn.Length ? _byColumn[column.Number] : [];

    public bool Has(LogColumn column) => For(column).Length > 0;

    /// <summary>Whether a bearing of a quantity stands under a magnetic header.</summary>
    public bool IsMagnetic(LogColumn column) => Array.Exists(For(column), b => b.IsMagnetic);

    /// <exception cref="LogFormatException">A map makes one column of several, or two of one.</exception>
    public static HeaderMap Of(string table, IReadOnlyList<string> header, IEnumerable<LogColumn> columns, ColumnMap? map = null)
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
            if (map?.Ignores(header[i]) == true) continue;
            var targets = map?.TargetsOf(header[i]);
            var hits = (targets ?? [header[i]]).Where(known.ContainsKey).Select(t => known[t]).ToList();
            if (hits.Count > 1)
                throw new LogFormatException($"{table}: {map!.Name} makes '{header[i]}' {string.Join(" and ", targets!)}, "
                    + "and this table may hold both; name one.");
            if (hits is [var hit])
                bound.Add(new BoundColumn(i, header[i], hit.Column, hit.Header.Unit, hit.Header.IsMagnetic, map?.CodesOf(hit.Column)));
            else
                unknown.Add(new UnknownColumn(header[i],
                    targets is null ? HintFor(header[i], known.Keys, columns) : $"{string.Join(", ", targets)} belongs to another table"));
        }
        if (map is not null) RefuseTwice(table, map, bound);
        return new HeaderMap(header, bound, unknown);
    }

    private static void RefuseTwice(string table, ColumnMap map, IEnumerable<BoundColumn> bound)
    {
        var twice = bound.GroupBy(b => (b.Column, b.Unit, b.IsMagnetic))
            .FirstOrDefault(g => g.Count() > 1 && g.Any(b => map.TargetsOf(b.Header) is not null));
        if (twice is null) return;
        var target = twice.Key.Column.Headers().First(h => (h.Unit, h.IsMagnetic) == (twice.Key.Unit, twice.Key.IsMagnetic)).Text;
        throw new LogFormatException($"{table}: with {map.Name} the headers {string.Join(" and ", twice.Select(b => $"'{b.Header}'"))} are "
            + $"all {target}; keep one and put the others into 'ignore'.");
    }

    /// <summary>One sentence for each required quantity that no header holds.</summary>
    public IReadOnlyList<string> Missing(IEnumerable<LogColumn[][]> required) =>
        [.. from sets in required
            where !sets.Any(set => set.All(Has))
            select string.Join(", or ", sets.Select(set => string.Join(" + ", set.Select(c => c.Accepted()))))];

    /// <summary>What an unknown header may have been meant for; null when nothing is near.</summary>
    public static string? HintFor(string header, IEnumerable<string> known, IEnumerable<LogColumn> columns)
    {
        if (header.Length > LongestHinted) return null;
        var column = columns.FirstOrDefault(c => c.Name.Equals(header, StringComparison.OrdinalIgnoreCase));
        if (column is not null) return $"needs its unit in the header: {column.Accepted()}";
        column = columns.FirstOrDefault(c => c.Headers().Any(h => h.Unit is not null || h.Text != c.Name)
            && header.StartsWith(c.Name + "_", StringComparison.OrdinalIgnoreCase));
        if (column is not null) return $"accepted are {column.Accepted()}";
        var near = known.Where(k => IsSlip(header.ToLowerInvariant(), k)).Order(StringComparer.Ordinal).FirstOrDefault();
        return near is null ? null : $"did you mean {near}?";
    }

    /// <summary>One letter in a short word, two in a longer one or where two changed places: Tiem may be time, Name is not base.</summary>
    private static bool IsSlip(string header, string known) => EditDistance(known, header) is var slips
        && (slips <= 1 || (slips == 2 && (header.Length >= 6 || header.Order().SequenceEqual(known.Order()))));

    /// <summary>Least number of single-letter changes between two texts (Levenshtein).</summary>
    public static int EditDistance(string a, string b)
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
