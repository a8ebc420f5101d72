using System.Text.Json.Nodes;

namespace JumpAnalytics;

/// <summary>
/// A chart with its words: title, alternative text for those who can't see it, caption with method and n, and the table of its data.
/// It draws itself in a page that was opened with <see cref="NotebookHost.Init"/>, without a network.
/// </summary>
public sealed class Figure : ShownResult
{
    internal Figure(string title, string alternativeText, string caption, string json, TableView data, params TableView[] files)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(title);
        ArgumentException.ThrowIfNullOrWhiteSpace(alternativeText);
        (Title, AlternativeText, Caption, Json, Data) = (title, alternativeText, caption, json, data);
        Tables = [data, .. files];
    }

    /// <summary>The same figure without a file of its data: for one of several alike, whose numbers stand in a table of all.</summary>
    internal Figure WithoutFile() => new(Title, AlternativeText, Caption, Json, Data, tables: []);

    private Figure(string title, string alternativeText, string caption, string json, TableView data, IReadOnlyList<TableView> tables) =>
        (Title, AlternativeText, Caption, Json, Data, Tables) = (title, alternativeText, caption, json, data, tables);

    /// <summary>What the chart shows.</summary>
    public string Title { get; }

    /// <summary>What a reader who can't see the chart should know of it.</summary>
    public string AlternativeText { get; }

    /// <summary>Method, n and how to read it.</summary>
    public string Caption { get; }

    /// <summary>The figure in the JSON of plotly.js: <c>data</c> and <c>layout</c>.</summary>
    public string Json { get; }

    /// <summary>The numbers drawn.</summary>
    public TableView Data { get; }

    /// <inheritdoc/>
    public override string Reading => $"{Title}. {AlternativeText}";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables { get; }

    /// <inheritdoc/>
    public override void WriteHtml(TextWriter writer)
    {
        if (Withheld is not null)
        {
            base.WriteHtml(writer);
            return;
        }
        writer.Write("<div class=\"ja-figure\"><figure>");
        WritePlot(writer, Json, AlternativeText);
        writer.Write($"<figcaption><strong>{Escape(Title)}.</strong> {Escape(Caption)}</figcaption></figure>");
        writer.Write("<details><summary>Data of this figure</summary>");
        Data.WriteHtml(writer);
        writer.Write($"</details></div>{Draw}");
    }

    /// <summary>Writes a chart of another maker in the same way, without words and data.</summary>
    internal static void WriteBare(TextWriter writer, string json)
    {
        var figure = JsonNode.Parse(json)!;
        (figure["layout"] as JsonObject)?.Remove("width"); // as wide as the page
        WritePlot(writer, figure.ToJsonString(), "A chart made in this notebook.");
        writer.Write(Draw);
    }

    private const string Draw = "<script>window.jumpDraw && window.jumpDraw();</script>";

    private static void WritePlot(TextWriter writer, string json, string alternativeText)
    {
        writer.Write($"<div class=\"ja-plot\" role=\"img\" aria-label=\"{Escape(alternativeText)}\">{Escape(alternativeText)}</div>");
        writer.Write($"<script type=\"application/json\">{json.Replace("<", "\\u003c", StringComparison.Ordinal)}</script>");
    }
}
