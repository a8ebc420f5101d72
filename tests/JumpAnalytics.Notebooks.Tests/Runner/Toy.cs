using System.Text.Json.Nodes;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

/// <summary>Small notebooks, written where they are used.</summary>
internal static class Toy
{
    public static JsonObject Code(string source, string? tag = null, params JsonObject[] outputs) => new()
    {
        ["cell_type"] = "code",
        ["execution_count"] = null,
        ["metadata"] = new JsonObject { ["tags"] = tag is null ? [] : new JsonArray(tag) },
        ["outputs"] = new JsonArray([.. outputs]),
        ["source"] = source,
    };

    public static JsonObject Markdown(string source) => new()
    {
        ["cell_type"] = "markdown",
        ["metadata"] = new JsonObject(),
        ["source"] = source,
    };

    public static JsonObject Display(string mimeType, JsonNode content) => new()
    {
        ["output_type"] = "display_data",
        ["data"] = new JsonObject { [mimeType] = content },
        ["metadata"] = new JsonObject(),
    };

    public static string Json(params JsonObject[] cells) => new JsonObject
    {
        ["cells"] = new JsonArray([.. cells]),
        ["metadata"] = new JsonObject(),
        ["nbformat"] = 4,
        ["nbformat_minor"] = 5,
    }.ToJsonString();

    public static Notebook Notebook(params JsonObject[] cells) =>
        JumpAnalytics.Runner.Notebook.Parse("toy", Json(cells));

    public static IReadOnlyList<Parameter> Parameters(string source) =>
        Parameter.Of(Notebook(Code(source, NotebookCell.ParametersTag)));
}
