namespace JumpAnalytics;

/// <summary>The words of the log for the codes of one quantity.</summary>
internal sealed class CodeList(IReadOnlyDictionary<string, string> words)
{
    private readonly HashSet<string> _words = words.Values.ToHashSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>The word for a code; a code that is not in the list is kept as it is.</summary>
    public string WordFor(string code) => words.TryGetValue(code, out var word) ? word : code;

    /// <summary>Whether a text is a code of the list or already one of its words.</summary>
    public bool Knows(string text) => words.ContainsKey(text) || _words.Contains(text);
}

/// <summary>Counts the codes that a map's lists do not hold, row by row.</summary>
internal sealed class KeptCodes
{
    private readonly SortedDictionary<(string Quantity, string Code), int> _rows = [];

    public void Count(HeaderMap map, RawRow row)
    {
        foreach (var bound in map.Bound)
        {
            if (bound.Codes is not { } codes || bound.Written(row) is not { Length: > 0 } text || codes.Knows(text)) continue;
            if (bound.Column.Kind == ColumnKind.YesNo && YesNo.Read(text) is not null) continue;
            _rows[(bound.Column.Name, text)] = _rows.GetValueOrDefault((bound.Column.Name, text)) + 1;
        }
    }

    /// <summary>One sentence for each quantity; codes of people are counted and not named.</summary>
    public IEnumerable<string> Notes(string map) => _rows.GroupBy(r => r.Key.Quantity).Select(g =>
        $"{g.Key}: codes that are not in the list of {map} were kept as written: "
        + (g.Key == LogColumns.Jumper.Name || g.Key == LogColumns.Spotter.Name
            ? $"{Rounding.Count(g.Count(), "code")} in {Rounding.Count(g.Sum(r => r.Value), "row")}."
            : $"{string.Join(", ", g.Select(r => $"'{r.Key.Code}' ({Rounding.Count(r.Value, "row")})"))}."));
}
