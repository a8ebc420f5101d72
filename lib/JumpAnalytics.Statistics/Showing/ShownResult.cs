using System.Net;
using System.Text;
using System.Text.Json;

namespace JumpAnalytics.Statistics;

/// <summary>
/// A result that can be shown: a plain-language reading, points, and tables. As the last expression of a notebook cell it
/// renders itself; in a terminal its text says the same.
/// </summary>
[TypeFormatterSource(typeof(ShownResultFormatters))]
public abstract class ShownResult
{
    /// <summary>
    /// MIME type under which a shown result carries its tables, and its files if it has any:
    /// <c>{"tables":[{"name":…,"csv":…}],"files":[{"name":…,"text":…}]}</c>.
    /// </summary>
    public const string TablesMimeType = "application/vnd.jumpanalytics.table+json";

    /// <summary>Why the result may not be shown: then this is all that it shows, and it holds no number. Null where it may.</summary>
    public string? Withheld { get; internal set; }

    /// <summary>What the numbers say, in one paragraph; empty when the tables speak for themselves.</summary>
    public abstract string Reading { get; }

    /// <summary>Statements to read one by one.</summary>
    public virtual IReadOnlyList<string> Points => [];

    /// <summary>The tables behind the reading.</summary>
    public virtual IReadOnlyList<TableView> Tables => [];

    /// <summary>Files to use further, which the runner writes beside its report.</summary>
    public virtual IReadOnlyList<ShownFile> Attachments => [];

    /// <summary>Writes the result as an HTML fragment; every text from the records is escaped.</summary>
    /// <param name="writer">Where to.</param>
    public virtual void WriteHtml(TextWriter writer) => WriteHtml(writer, []);

    /// <summary>The same with figures below the reading.</summary>
    internal void WriteHtml(TextWriter writer, IEnumerable<ShownResult> figures)
    {
        writer.Write("<div class=\"ja-result\">");
        if (Withheld is { } why)
        {
            writer.Write($"<p class=\"ja-reading\">{Escape(why)}</p></div>");
            return;
        }
        if (Reading.Length > 0) writer.Write($"<p class=\"ja-reading\">{Escape(Reading)}</p>");
        foreach (var figure in figures) figure.WriteHtml(writer);
        if (Points.Count > 0)
        {
            writer.Write("<ul class=\"ja-points\">");
            foreach (var point in Points) writer.Write($"<li>{Escape(point)}</li>");
            writer.Write("</ul>");
        }
        foreach (var table in Tables) TableHtml.Write(table, writer);
        writer.Write("</div>");
    }

    /// <summary>Tables and files as the JSON of <see cref="TablesMimeType"/>.</summary>
    public string TablesAsJson() => TablesAsJson([]);

    /// <summary>The same with the tables of figures shown with the result.</summary>
    internal string TablesAsJson(IEnumerable<ShownResult> figures)
    {
        if (Withheld is not null) return JsonSerializer.Serialize(new { tables = Array.Empty<string>() });
        var tables = Tables.Concat(figures.SelectMany(f => f.Tables)).DistinctBy(t => t.Name)
            .Select(t => new { name = t.Name, csv = t.ToCsv() });
        return Attachments.Count == 0 ? JsonSerializer.Serialize(new { tables })
            : JsonSerializer.Serialize(new { tables, files = Attachments.Select(f => new { name = f.Name, text = f.Text }) });
    }

    /// <summary>The result as plain text.</summary>
    public sealed override string ToString()
    {
        if (Withheld is { } why) return why + "\n";
        var text = new StringBuilder();
        if (Reading.Length > 0) text.Append(VisibleText.WithoutSequences(Reading)).Append('\n');
        foreach (var point in Points) text.Append("- ").Append(VisibleText.WithoutSequences(point)).Append('\n');
        foreach (var table in Tables) TableText.Write(table, text);
        return text.ToString();
    }

    internal static string Escape(string text) => WebUtility.HtmlEncode(VisibleText.Of(text));
}

/// <summary>A text file that a result gives to use further.</summary>
/// <param name="Name">Lower case letters, digits and hyphens, ending in <c>.json</c>.</param>
/// <param name="Text">What it holds.</param>
[TypeFormatterSource]
public sealed record ShownFile(string Name, string Text);
