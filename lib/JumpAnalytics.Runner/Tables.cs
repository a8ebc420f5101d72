using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Runner;

/// <summary>
/// The tables that a notebook's outputs carry, under the MIME type <see cref="MimeType"/> as
/// <c>{"tables":[{"name":"rates-by-cell","csv":"..."}]}</c>.
/// </summary>
internal static partial class Tables
{
    public const string MimeType = "application/vnd.jumpanalytics.table+json";

    /// <summary>CSV texts by name. One name with two contents is refused.</summary>
    public static SortedDictionary<string, string> Of(Notebook notebook)
    {
        var tables = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var origin = new Dictionary<string, int>();
        for (var number = 1; number <= notebook.CodeCells.Count; number++)
        {
            foreach (var (name, csv) in notebook.CodeCells[number - 1].Outputs.SelectMany(output => Read(output, number)))
            {
                if (!tables.TryAdd(name, csv) && tables[name] != csv)
                    throw new NotebookException($"cells {origin[name]} and {number} give different tables named '{name}'.");
                origin.TryAdd(name, number);
            }
        }

        return tables;
    }

    private static IEnumerable<(string Name, string Csv)> Read(JsonObject output, int number)
    {
        if (output["data"]?[MimeType] is not { } content) yield break;

        if (content is not JsonObject || content["tables"] is not JsonArray tables)
            throw new NotebookException($"cell {number}: an output of type {MimeType} has no list 'tables'.");
        foreach (var table in tables)
        {
            if (table is not JsonObject || table["name"] is not JsonValue name || table["csv"] is not JsonValue csv
                || !name.TryGetValue(out string? key) || !csv.TryGetValue(out string? text))
                throw new NotebookException($"cell {number}: a table needs the texts 'name' and 'csv'.");
            if (!Name().IsMatch(key))
                throw new NotebookException($"cell {number}: the table name '{key}' is not made of a-z, 0-9 and '-'.");
            yield return (key, text);
        }
    }

    [GeneratedRegex(@"\A[a-z0-9-]+\z")]
    private static partial Regex Name();
}
