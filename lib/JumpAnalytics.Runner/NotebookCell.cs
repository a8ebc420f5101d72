using System.Text.Json.Nodes;

namespace JumpAnalytics.Runner;

/// <summary>One cell of a <see cref="Notebook"/>, a view on its JSON.</summary>
internal sealed class NotebookCell(JsonObject json)
{
    public const string ParametersTag = "parameters";
    public const string InjectedTag = "injected-parameters";

    public bool IsCode => (string?)json["cell_type"] == "code";

    public bool IsMarkdown => (string?)json["cell_type"] == "markdown";

    /// <summary>The text, whether stored as one string or as lines.</summary>
    public string Source => Text(json["source"]);

    public IEnumerable<string> Tags => json["metadata"]?["tags"] is JsonArray tags ? tags.Select(tag => (string)tag!) : [];

    public IEnumerable<JsonObject> Outputs => json["outputs"] is JsonArray outputs ? outputs.Select(output => output!.AsObject()) : [];

    /// <summary>The attached file of that name as a data address, or null.</summary>
    public string? Attachment(string name) =>
        json["attachments"]?[name] is JsonObject bundle && bundle.FirstOrDefault() is { Key: { } type, Value: { } content }
            ? $"data:{type};base64,{Text(content).ReplaceLineEndings("")}"
            : null;

    /// <summary>Forgets the outputs.</summary>
    public void Clear() => SetOutputs(null, []);

    /// <summary>Stores what the cell gave when it ran as code cell <paramref name="number"/>.</summary>
    public void SetOutputs(int? number, IEnumerable<JsonNode> outputs)
    {
        json["execution_count"] = number;
        json["outputs"] = new JsonArray([.. outputs.Select(output => output.DeepClone())]);
    }

    /// <summary>A text of nbformat: a string or a list of lines.</summary>
    public static string Text(JsonNode? node) => node switch
    {
        JsonArray lines => string.Concat(lines.Select(line => (string?)line)),
        null => "",
        _ => (string)node!,
    };

    /// <summary>The way nbformat stores a text of several lines.</summary>
    public static JsonArray Lines(string text)
    {
        var lines = text.Split('\n');
        return new JsonArray([.. lines.Select((line, i) => i < lines.Length - 1 ? line + "\n" : line)
            .Where(line => line.Length > 0).Select(line => (JsonNode)line)]);
    }

    public static JsonObject Injected(string source) => new()
    {
        ["cell_type"] = "code",
        ["execution_count"] = null,
        ["id"] = InjectedTag,
        ["metadata"] = new JsonObject
        {
            ["polyglot_notebook"] = new JsonObject { ["kernelName"] = "csharp" },
            ["tags"] = new JsonArray(InjectedTag),
        },
        ["outputs"] = new JsonArray(),
        ["source"] = Lines(source),
    };
}
