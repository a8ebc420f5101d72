using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.DotNet.Interactive.Events;
using Microsoft.DotNet.Interactive.Formatting;

namespace JumpAnalytics.Runner;

/// <summary>Turns the kernel's events into nbformat outputs.</summary>
internal static partial class KernelOutputs
{
    public static JsonArray From(IEnumerable<KernelEvent> events, int number)
    {
        var outputs = new JsonArray();
        var displays = new Dictionary<string, JsonObject>();
        JsonObject? latest = null;
        foreach (var display in events.OfType<DisplayEvent>())
        {
            var id = display.ValueId ?? "";
            switch (display)
            {
                case StandardOutputValueProduced:
                    Append(outputs, "stdout", display);
                    break;
                case StandardErrorValueProduced:
                    Append(outputs, "stderr", display);
                    break;
                case ReturnValueProduced { Value: DisplayedValue }:
                    break; // the handle of a display that is shown already, with a new identifier in each run
                case ReturnValueProduced:
                    var result = Bundle("execute_result", display);
                    result["execution_count"] = number;
                    outputs.Add(result);
                    break;
                case DisplayedValueUpdated when (displays.GetValueOrDefault(id) ?? latest) is { } shown:
                    // The kernel names an update otherwise than what it updates: then it means the latest display.
                    shown["data"] = Data(display);
                    displays[id] = shown;
                    break;
                case DisplayedValueProduced or DisplayedValueUpdated:
                    outputs.Add(displays[id] = latest = Bundle("display_data", display));
                    break;
            }
        }

        return outputs;
    }

    private static void Append(JsonArray outputs, string name, DisplayEvent display)
    {
        var text = string.Concat(display.FormattedValues.Select(value => value.Value));
        if (outputs.LastOrDefault() is JsonObject last && (string?)last["name"] == name)
            last["text"] = NotebookCell.Lines(NotebookCell.Text(last["text"]) + text);
        else
            outputs.Add(new JsonObject { ["output_type"] = "stream", ["name"] = name, ["text"] = NotebookCell.Lines(text) });
    }

    private static JsonObject Bundle(string type, DisplayEvent display) => new()
    {
        ["output_type"] = type,
        ["data"] = Data(display),
        ["metadata"] = new JsonObject(),
    };

    private static JsonObject Data(DisplayEvent display) =>
        new(display.FormattedValues.Select(value => KeyValuePair.Create<string, JsonNode?>(value.MimeType, Content(value))));

    private static JsonNode? Content(FormattedValue value) =>
        IsJson(value.MimeType) ? JsonNode.Parse(value.Value)
        : NotebookCell.Lines((value.MimeType == "text/html" ? HostStyle().Replace(value.Value, "") : value.Value)
            .Replace("\r\n", "\n", StringComparison.Ordinal));

    private static bool IsJson(string mimeType) =>
        mimeType == "application/json" || mimeType.EndsWith("+json", StringComparison.Ordinal);

    /// <summary>The page-wide style that the host repeats in every output; the report has its own.</summary>
    [GeneratedRegex(@"<style>[^<]*\bdni-[^<]*</style>\s*")]
    private static partial Regex HostStyle();
}
