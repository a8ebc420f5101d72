using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Runner;

/// <summary>
/// The tables, and the files to use further, that a notebook's outputs carry under the MIME type <see cref="MimeType"/> as
/// <c>{"tables":[{"name":"rates-by-cell","csv":"..."}],"files":[{"name":"column-map.json","text":"..."}]}</c>;
/// <c>files</c> may be left out.
/// </summary>
internal static partial class Tables
{
    public const string MimeType = "application/vnd.jumpanalytics.table+json";

    private sealed record Part(string List, string Noun, string Text, bool IsRequired, Regex Name, string NameRule);

    private static readonly Part _tables = new("tables", "table", "csv", true, TableName(), "made of a-z, 0-9 and '-'");
    private static readonly Part _files = new("files", "file", "text", false, FileName(),
        "made of a-z, 0-9 and '-' with the ending .json or .html, or a plain file name with the ending .csv");

    /// <summary>
    /// CSV texts by name. The second of one name with other contents becomes <c>name-2</c>: a cell shown again with
    /// other settings loses nothing.
    /// </summary>
    public static SortedDictionary<string, string> Of(Notebook notebook) => Collect(notebook, _tables);

    /// <summary>
    /// Texts of files by name, for the folder of the report. One name with two contents is refused: a reader looks for it by its name.
    /// </summary>
    public static SortedDictionary<string, string> FilesOf(Notebook notebook) => Collect(notebook, _files);

    private static SortedDictionary<string, string> Collect(Notebook notebook, Part part)
    {
        var found = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var origin = new Dictionary<string, int>();
        for (var number = 1; number <= notebook.CodeCells.Count; number++)
        {
            foreach (var (name, text) in notebook.CodeCells[number - 1].Outputs.SelectMany(output => Read(output, number, part)))
            {
                if (part == _tables)
                {
                    AddNumbered(found, name, text);
                    continue;
                }
                if (!found.TryAdd(name, text) && found[name] != text)
                    throw new NotebookException($"cells {origin[name]} and {number} give different {part.List} named '{name}'.");
                origin.TryAdd(name, number);
            }
        }

        return found;
    }

    /// <summary>Jupyter keeps as a text what the kernel sends as one.</summary>
    private static JsonNode? AsJson(JsonNode? content)
    {
        try
        {
            return content is JsonArray or JsonValue && NotebookCell.Text(content) is { Length: > 0 } text ? JsonNode.Parse(text) : content;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return content;
        }
    }

    private static void AddNumbered(SortedDictionary<string, string> found, string name, string text)
    {
        var free = name;
        for (var number = 2; found.TryGetValue(free, out var there) && there != text; number++) free = $"{name}-{number}";
        found[free] = text;
    }

    private static IEnumerable<(string Name, string Text)> Read(JsonObject output, int number, Part part)
    {
        if (AsJson(output["data"]?[MimeType]) is not { } content) yield break;

        if (content is JsonObject && content[part.List] is null && !part.IsRequired) yield break;
        if (content is not JsonObject || content[part.List] is not JsonArray items)
            throw new NotebookException($"cell {number}: an output of type {MimeType} has no list '{part.List}'.");
        foreach (var item in items)
        {
            if (item is not JsonObject || item["name"] is not JsonValue name || item[part.Text] is not JsonValue value
                || !name.TryGetValue(out string? key) || !value.TryGetValue(out string? text))
                throw new NotebookException($"cell {number}: a {part.Noun} needs the texts 'name' and '{part.Text}'.");
            if (!part.Name.IsMatch(key))
                throw new NotebookException($"cell {number}: the {part.Noun} name '{key}' is not {part.NameRule}.");
            yield return (key, text);
        }
    }

    [GeneratedRegex(@"\A[a-z0-9-]+\z")]
    private static partial Regex TableName();

    [GeneratedRegex(@"\A([a-z0-9-]+\.(json|html)|[A-Za-z0-9][A-Za-z0-9 _().-]*\.csv)\z")]
    private static partial Regex FileName();
}
