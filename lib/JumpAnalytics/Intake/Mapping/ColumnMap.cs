namespace JumpAnalytics;

/// <summary>
/// Names a base's own headers, units and codes in the words of the log, so that its spreadsheet is read as it is. A small JSON file:
/// <c>{"columns": {"Wind (kts)": "wind_speed_kt"}, "values": {"terrain": {"TBR": "closed timber"}}, "ignore": ["Load sheet"],
/// "dates": "month first"}</c>; comments and trailing commas are allowed, headers and codes match in any case.
/// </summary>
[TypeFormatterSource]
public sealed partial class ColumnMap
{
    /// <summary>The file that is used by itself when it lies in the log's folder.</summary>
    public const string FileName = "columns.json";

    internal ColumnMap(string name, IReadOnlyDictionary<string, IReadOnlyList<string>> columns,
        IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>> values, IReadOnlyList<string> ignore)
    {
        (Name, Columns, Values, Ignore) = (name, columns, values, ignore);
        _codes = values.ToDictionary(v => v.Key, v => new CodeList(v.Value), StringComparer.Ordinal);
        _ignored = ignore.ToHashSet(StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The order of day and month as the map's <c>dates</c> says: <c>month first</c> or <c>day first</c>.</summary>
    internal DayOrder Dates { get; init; }

    private readonly Dictionary<string, CodeList> _codes;
    private readonly HashSet<string> _ignored;

    /// <summary>Name of the file without its folder, for messages and reports.</summary>
    public string Name { get; }

    /// <summary>
    /// The headers of the log by the base's own. One has several when tables use it differently, as a bearing of the drift in one
    /// and of the landing in another.
    /// </summary>
    public IReadOnlyDictionary<string, IReadOnlyList<string>> Columns { get; }

    /// <summary>
    /// The words of the log by the base's codes, by quantity (<c>terrain</c>, <c>hung_up</c>). An empty word means not recorded.
    /// </summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>> Values { get; }

    /// <summary>Headers that are left out on purpose and not reported as unread.</summary>
    public IReadOnlyList<string> Ignore { get; }

    /// <summary>Reads a map from a file.</summary>
    /// <param name="file">Path of the JSON file.</param>
    /// <exception cref="LogFormatException">
    /// The file can't be opened or is no map; the message lists every objection with what is accepted.
    /// </exception>
    public static ColumnMap Load(string file)
    {
        try
        {
            return Parse(File.ReadAllText(file), Path.GetFileName(file));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{Path.GetFileName(file)} can't be opened: {e.Message}", e);
        }
    }

    /// <summary>Reads a map from its JSON text.</summary>
    /// <param name="json">The text.</param>
    /// <param name="name">What messages and reports call it.</param>
    /// <exception cref="LogFormatException">The text is no map; the message lists every objection with what is accepted.</exception>
    public static ColumnMap Parse(string json, string name = "the column map") => ColumnMapReader.Read(json, name);

    /// <summary>The map that lies in a log's folder, or beside a log's single file; null when there is none.</summary>
    /// <exception cref="LogFormatException">It is there and is no map.</exception>
    internal static ColumnMap? Beside(string path)
    {
        var folder = Directory.Exists(path) ? path : Path.GetDirectoryName(Path.GetFullPath(path));
        if (folder is null || !Directory.Exists(folder)) return null;
        var anyCase = new EnumerationOptions { MatchCasing = MatchCasing.CaseInsensitive, AttributesToSkip = 0 };
        return Directory.GetFiles(folder, FileName, anyCase).Order(StringComparer.Ordinal).FirstOrDefault() is { } file ? Load(file) : null;
    }

    internal IReadOnlyList<string>? TargetsOf(string header) => Columns.GetValueOrDefault(header);

    internal bool Ignores(string header) => _ignored.Contains(header);

    internal CodeList? CodesOf(LogColumn column) => _codes.GetValueOrDefault(column.Name);

    /// <exception cref="LogFormatException">The map names a header that stands in no table.</exception>
    internal void RequireHeaders(IReadOnlyList<ILogTable> tables)
    {
        var there = tables.SelectMany(t => t.Header).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var absent = Columns.Keys.Where(h => !there.Contains(h)).ToList();
        if (absent.Count == 0) return;
        throw new LogFormatException($"{Name} names {Rounding.Count(absent.Count, "header")} that no table has: "
            + $"{string.Join(", ", absent.Select(h => $"'{h}'"))}."
            + string.Concat(tables.Select(t => $"\n{t.Name} has: {string.Join(", ", t.Header)}."))
            + "\nSpell them as the table does (any case), or take them out of the map.");
    }

    /// <summary>What a report says of the map.</summary>
    internal IEnumerable<string> Notes(IReadOnlyList<ILogTable> tables)
    {
        yield return $"Headers were read through {Name}: {Rounding.Count(Columns.Count, "column")}, "
            + $"{Rounding.Count(Values.Count, "code list")}.";
        var left = tables.SelectMany(t => t.Header).Where(Ignores).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        if (left.Count > 0) yield return $"Left out as {Name} says: {string.Join(", ", left)}.";
    }
}
