using System.Text.Json.Nodes;

namespace JumpAnalytics.Notebooks.Tests.Figures;

/// <summary>Parts of a figure's JSON.</summary>
internal static class FigureParts
{
    public static JsonNode Layout(this Figure figure) => JsonNode.Parse(figure.Json)!["layout"]!;

    public static JsonArray Traces(this Figure figure) => JsonNode.Parse(figure.Json)!["data"]!.AsArray();

    public static JsonNode Trace(this Figure figure, string name) => figure.Traces().Single(t => (string?)t!["name"] == name)!;

    public static double[] Numbers(this JsonNode? array) => [.. array!.AsArray().Select(n => (double)n!)];

    public static double?[] Gaps(this JsonNode? array) => [.. array!.AsArray().Select(n => (double?)n)];

    public static string?[] Texts(this JsonNode? array) => [.. array!.AsArray().Select(n => (string?)n)];

    public static string Html(this ShownResult result)
    {
        using var writer = new StringWriter();
        result.WriteHtml(writer);
        return writer.ToString();
    }

    public static void Near(double[] expected, double[] actual, double tolerance = 1e-9)
    {
        Assert.Equal(expected.Length, actual.Length);
        for (var i = 0; i < expected.Length; i++) Assert.Equal(expected[i], actual[i], tolerance);
    }
}
