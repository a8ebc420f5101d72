using System.Text.Json;
using System.Text.Json.Nodes;
using Plotly.NET;

namespace JumpAnalytics;

/// <summary>
/// From Plotly.NET charts to the JSON of one figure. Each trace comes from the chart bindings; what they don't cover, and the layout, are
/// properties merged in. One look for all figures: colours that colour-blind readers can tell apart and that print in grey.
/// </summary>
internal static class FigureJson
{
    public const string Blue = "#0b5394", Orange = "#c65a00", Grey = "#5f6b76", Line = "#d9dee3";

    /// <summary>One trace: a chart and properties to set on it.</summary>
    public sealed record Trace(GenericChart Chart, object Properties);

    public static string Of(object layout, params IEnumerable<Trace> traces)
    {
        var data = new JsonArray();
        foreach (var trace in traces)
        {
            var chart = JsonNode.Parse(GenericChart.toFigureJson(trace.Chart))!;
            foreach (var made in chart["data"]!.AsArray())
                data.Add(Merge(made!.DeepClone().AsObject(), Node(trace.Properties)));
        }
        var figure = new JsonObject { ["data"] = data, ["layout"] = Merge(Node(Base()), Node(layout)) };
        return figure.ToJsonString();
    }

    private static object Base() => new
    {
        autosize = true,
        font = new { family = "system-ui, sans-serif", size = 13, color = "#1d252c" },
        paper_bgcolor = "rgba(255,255,255,1)",
        plot_bgcolor = "rgba(255,255,255,1)",
        margin = new { l = 10, r = 10, t = 10, b = 10 },
        hovermode = "closest",
        legend = new { orientation = "h", y = 1.02, yanchor = "bottom", x = 0 },
        xaxis = Axis(),
        yaxis = Axis(),
    };

    private static object Axis() => new { automargin = true, gridcolor = Line, zerolinecolor = Grey, linecolor = Grey, fixedrange = true };

    private static JsonObject Node(object properties) => JsonSerializer.SerializeToNode(properties)!.AsObject();

    private static JsonObject Merge(JsonObject target, JsonObject extra)
    {
        foreach (var (key, value) in extra)
        {
            if (value is JsonObject inner && target[key] is JsonObject there) Merge(there, inner);
            else target[key] = value?.DeepClone();
        }
        return target;
    }
}
