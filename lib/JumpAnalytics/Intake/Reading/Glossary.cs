namespace JumpAnalytics;

/// <summary>What the columns mean: those a log may have, and those of the tables that the library writes.</summary>
public static class Glossary
{
    /// <summary>Letters that may differ between a word and the column it was meant to be.</summary>
    private const int MostSlips = 3;

    /// <summary>The columns of the log: accepted headers, what needs them, and what they mean.</summary>
    public static TableView Log { get; } = new TableOf<LogColumn>("log-columns", "Columns of the log", OfLog)
    {
        { Columns.ColumnName, c => c.Name }, { Columns.AcceptedHeaders, c => c.Accepted() }, { Columns.Holds, Holds },
        { Columns.Needed, Needed }, { Columns.Meaning, c => LogColumnMeanings.Of(c) + Kind(c.Kind) },
    };

    /// <summary>The columns of the tables that reports write.</summary>
    public static TableView Tables { get; } =
        new TableOf<TableColumn>("table-columns", "Columns of the tables", TableColumns.OrderBy(c => c.Name, StringComparer.Ordinal))
        {
            { Columns.ColumnName, c => string.Join(", ", c.FileNames) }, { Columns.Label, c => c.Label },
            { Columns.Meaning, c => c.Meaning },
        };

    /// <summary>What a column means, in the log and in the tables; for a word that is neither, the nearest columns.</summary>
    /// <param name="column">A header or a name of a column, in any case, with or without its unit.</param>
    public static ShownResult Explain(string column)
    {
        var word = column.Trim();
        var (log, tables) = Find(word);
        if (log.Count + tables.Count == 0) return new Brief($"'{word}' is no column of the log or of a table. {Nearest(word)}", []);
        return new Brief($"{word}:", [.. log.Select(LogSentence), .. tables.Select(c => $"In tables ({c.Name}, shown as "
            + $"'{c.Label}'{(c.FileNames.Count > 1 ? $"; files hold {string.Join(", ", c.FileNames)}" : "")}): {c.Meaning}")]);
    }

    /// <summary>Whether a word is a column of the log or of a table.</summary>
    /// <param name="column">A header or a name of a column, in any case, with or without its unit.</param>
    public static bool Knows(string column) => Find(column.Trim()) is var (log, tables) && log.Count + tables.Count > 0;

    private static (List<LogColumn> Log, List<TableColumn> Tables) Find(string word) =>
        ([.. OfLog.Where(c => Is(c.Name, word) || c.Headers().Any(h => Is(h.Text, word)))],
            [.. TableColumns.Where(c => Is(c.Name, word) || Is(c.Label, word) || c.FileNames.Any(n => Is(n, word)))]);

    private static IEnumerable<LogColumn> OfLog => LogColumns.Drops.Concat(LogColumns.Landings).Distinct();

    private static IEnumerable<TableColumn> TableColumns => Columns.All.DistinctBy(c => (c.Name, c.Meaning));

    private static bool Is(string name, string word) => name.Equals(word, StringComparison.OrdinalIgnoreCase);

    private static string LogSentence(LogColumn column) =>
        $"In the log ({Holds(column)}; {Needed(column)}): {LogColumnMeanings.Of(column)} Headers: {column.Accepted()}.{Kind(column.Kind)}";

    private static string Holds(LogColumn column) =>
        string.Join(" and ", new[] { ("drops", LogColumns.Drops), ("landings", LogColumns.Landings) }
            .Where(t => t.Item2.Contains(column)).Select(t => t.Item1));

    private static string Needed(LogColumn column)
    {
        var sets = LogColumns.RequiredOfDrops.Concat(LogColumns.RequiredOfLandings).Where(r => r.Any(s => s.Contains(column))).ToList();
        return sets.Count == 0 ? "may be left out" : sets.Any(r => r.Length == 1) ? "required"
            : "required, or instead " + string.Join(" or ",
                sets.SelectMany(r => r).Where(s => !s.Contains(column)).Select(s => string.Join(" + ", s.Select(c => c.Name))).Distinct());
    }

    private static string Kind(ColumnKind kind) => kind switch
    {
        ColumnKind.Bearing => " Degrees clockwise from true north (_deg) or magnetic north (_degm).",
        ColumnKind.YesNo => " Yes or no.",
        ColumnKind.Whole => " A whole number.",
        _ => "",
    };

    private static string Nearest(string word)
    {
        var names = OfLog.Select(c => c.Name).Concat(TableColumns.Select(c => c.Name)).Distinct();
        var near = names.Select(n => (Name: n, Slips: HeaderMap.EditDistance(n, word.ToLowerInvariant()))).Where(n =>
            n.Slips <= Math.Min(MostSlips, word.Length / 3) || word.Length > 2 && n.Name.Contains(word, StringComparison.OrdinalIgnoreCase))
            .OrderBy(n => n.Slips).ThenBy(n => n.Name, StringComparer.Ordinal).Take(6).Select(n => n.Name).ToList();
        return near.Count == 0 ? "All columns: explain without a word." : $"Near to it: {string.Join(", ", near)}.";
    }
}
