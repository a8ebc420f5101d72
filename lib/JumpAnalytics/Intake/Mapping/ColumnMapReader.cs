using System.Text.Json;

namespace JumpAnalytics;

/// <summary>Reads the JSON of a column map and objects to all that is wrong with it at once.</summary>
internal sealed class ColumnMapReader
{
    /// <summary>How a proposal marks a unit or a code that the user has to fill in.</summary>
    public const string Open = "?";

    private static readonly JsonDocumentOptions _lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };
    private static readonly LogColumn[] _quantities = [.. LogColumns.Drops.Concat(LogColumns.Landings).Distinct()];
    private static readonly Dictionary<string, string> _targets = _quantities.SelectMany(c => c.Headers())
        .ToDictionary(h => h.Text, h => h.Text, StringComparer.OrdinalIgnoreCase);

    private readonly Dictionary<string, IReadOnlyList<string>> _columns = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, IReadOnlyDictionary<string, string>> _values = new(StringComparer.Ordinal);
    private readonly List<string> _ignore = [];
    private readonly List<string> _objections = [];
    private DayOrder _dates;
    private readonly List<string> _open = [];

    /// <exception cref="LogFormatException">The text is no map.</exception>
    public static ColumnMap Read(string json, string name)
    {
        var reader = new ColumnMapReader();
        try
        {
            using var document = JsonDocument.Parse(json, _lenient);
            reader.ReadMap(document.RootElement);
        }
        catch (JsonException e)
        {
            throw new LogFormatException($"{name} is not JSON: line {e.LineNumber + 1}: {e.Message}", e);
        }
        if (reader._objections.Count > 0)
            throw new LogFormatException($"{name} is not a column map:\n  " + string.Join("\n  ", reader._objections));
        if (reader._open.Count > 0)
            throw new LogFormatException($"{name} leaves {reader._open.Count} open, fill in before it is used:\n  "
                + string.Join("\n  ", reader._open));
        return new ColumnMap(name, reader._columns, reader._values, reader._ignore) { Dates = reader._dates };
    }

    private void ReadMap(JsonElement map)
    {
        if (map.ValueKind != JsonValueKind.Object)
        {
            _objections.Add("it must be an object with 'columns', 'values', 'ignore' and 'dates', none of them required.");
            return;
        }
        foreach (var part in Properties(map, "the map"))
        {
            switch (part.Name)
            {
                case "columns": ReadColumns(part.Value); break;
                case "values": ReadValues(part.Value); break;
                case "ignore": ReadIgnore(part.Value); break;
                case "dates": ReadDates(part.Value); break;
                default:
                    _objections.Add($"'{part.Name}' is not known; accepted are 'columns', 'values', 'ignore' and 'dates'.");
                    break;
            }
        }
        foreach (var both in _ignore.Where(_columns.ContainsKey))
            _objections.Add($"'{both}' stands in 'columns' and in 'ignore'; keep one.");
    }

    private void ReadColumns(JsonElement columns)
    {
        foreach (var column in Properties(columns, "'columns'"))
        {
            var targets = column.Value.ValueKind == JsonValueKind.Array ? column.Value.EnumerateArray().ToList() : [column.Value];
            if (targets.Count == 0 || targets.Exists(t => t.ValueKind != JsonValueKind.String))
            {
                _objections.Add($"'{column.Name}' needs a header of the log, or a list of them, as text.");
                continue;
            }
            _columns[column.Name.Trim()] = [.. targets.Select(t => Target(column.Name, t.GetString()!.Trim())).OfType<string>()];
        }
    }

    private string? Target(string header, string target)
    {
        if (_targets.TryGetValue(target, out var known)) return known;
        var bare = target.EndsWith(Open, StringComparison.Ordinal)
            ? target[..^1].Replace("_unit", "", StringComparison.OrdinalIgnoreCase).TrimEnd('_') : null;
        if (bare is not null && _quantities.FirstOrDefault(q => q.Name.Equals(bare, StringComparison.OrdinalIgnoreCase)) is { } quantity)
            _open.Add($"'{header}': '{target}' needs its unit: {quantity.Accepted()}");
        else
            _objections.Add($"'{header}': '{target}' is no header of the log{Hint(target)}");
        return null;
    }

    private static string Hint(string target) => HeaderMap.HintFor(target, _targets.Keys, _quantities) is { } hint ? $"; {hint}"
        : $"; accepted are {string.Join(", ", _quantities.Select(q => q.Accepted()))}";

    private void ReadValues(JsonElement values)
    {
        foreach (var list in Properties(values, "'values'"))
        {
            if (_quantities.FirstOrDefault(q => q.Name.Equals(list.Name, StringComparison.OrdinalIgnoreCase)) is not { } quantity)
            {
                _objections.Add($"'{list.Name}' in 'values' is no quantity of the log; "
                    + $"accepted are {string.Join(", ", _quantities.Select(q => q.Name))}.");
                continue;
            }
            var words = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
            foreach (var code in Properties(list.Value, $"'{list.Name}'"))
            {
                if (code.Value.ValueKind != JsonValueKind.String)
                    _objections.Add($"'{code.Name}' of {quantity.Name} needs a word of the log as text, empty for not recorded.");
                else if (code.Value.GetString()!.Trim() is var word && word == Open)
                    _open.Add($"'{code.Name}' of {quantity.Name} needs "
                        + $"{(quantity.Kind == ColumnKind.YesNo ? "yes, no, or nothing for not recorded" : "its word")}");
                else if (quantity.Kind == ColumnKind.YesNo && word.Length > 0 && YesNo.Read(word) is null)
                    _objections.Add($"'{code.Name}' of {quantity.Name} must become yes or no, not '{word}'.");
                else
                    words[code.Name.Trim()] = word;
            }
            _values[quantity.Name] = words;
        }
    }

    private void ReadDates(JsonElement dates)
    {
        var word = dates.ValueKind == JsonValueKind.String ? dates.GetString()!.Trim() : "";
        if (word == Open) _open.Add("'dates' needs the order of dates such as 6/1/2031: month first, or day first");
        else if (word.Equals("month first", StringComparison.OrdinalIgnoreCase)) _dates = DayOrder.MonthFirst;
        else if (word.Equals("day first", StringComparison.OrdinalIgnoreCase)) _dates = DayOrder.DayFirst;
        else _objections.Add("'dates' must be 'month first' or 'day first'.");
    }

    private void ReadIgnore(JsonElement ignore)
    {
        if (ignore.ValueKind != JsonValueKind.Array || ignore.EnumerateArray().Any(h => h.ValueKind != JsonValueKind.String))
            _objections.Add("'ignore' must be a list of headers.");
        else
            _ignore.AddRange(ignore.EnumerateArray().Select(h => h.GetString()!.Trim()));
    }

    /// <summary>The members of an object; one that is none, and names that come twice, are objected to.</summary>
    private IEnumerable<JsonProperty> Properties(JsonElement element, string what)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            _objections.Add($"{what} must be an object.");
            yield break;
        }
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var property in element.EnumerateObject())
        {
            if (seen.Add(property.Name.Trim())) yield return property;
            else _objections.Add($"'{property.Name}' comes twice in {what}, in this case or another; keep one.");
        }
    }
}
