using System.Text;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>
/// What a reader sees of a report, as text: headings, prose, readings, points, the words of figures, and of each table its caption,
/// its headers and its first rows. Code and drawings are left out, and so is what differs from run to run or from machine to machine.
/// </summary>
internal static partial class GoldenPage
{
    /// <summary>Rows of a table that stand in the text.</summary>
    private const int FirstRows = 3;

    /// <summary>Letters of a cell that stand in the text.</summary>
    private const int LongestCell = 60;

    public static string TextOf(string html)
    {
        var text = new StringBuilder();
        Write(new HtmlParser().ParseDocument(html).QuerySelector("main")!, text);
        return Version().Replace(text.ToString(), "JumpAnalytics (version)");
    }

    private static void Write(IElement element, StringBuilder text)
    {
        switch (element.LocalName)
        {
            case "script" or "style" or "nav" or "svg" or "button" or "summary":
            case "details" when element.ClassList.Contains("code"):
                break;
            case "h1" or "h2" or "h3" or "h4" or "h5":
                text.Append('\n').Append(new string('#', element.LocalName[1] - '0')).Append(' ').Append(Words(element)).Append("\n\n");
                break;
            case "table":
                WriteTable(element, text);
                break;
            case "li":
                WriteSentences("- " + Words(element), text, indent: "  ");
                break;
            case "p" or "figcaption" or "blockquote" or "pre" or "dt" or "dd":
                WriteSentences(Words(element), text);
                text.Append('\n');
                break;
            default:
                if (element.GetAttribute("role") == "img")
                    WriteSentences("[figure] " + Plain(element.GetAttribute("aria-label") ?? ""), text, indent: "  ");
                foreach (var child in element.Children) Write(child, text);
                if (element.LocalName is "ul" or "ol") text.Append('\n');
                break;
        }
    }

    private static void WriteTable(IElement table, StringBuilder text)
    {
        var rows = table.QuerySelectorAll("tbody tr").ToList();
        text.Append($"[table] {Words(table.QuerySelector("caption"))} ({rows.Count} rows)\n");
        foreach (var row in table.QuerySelectorAll("thead tr").Concat(rows.Take(FirstRows)))
            text.Append("    ").AppendJoin(" | ", row.Children.Select(Cell)).Append('\n');
        text.Append('\n');
    }

    private static string Words(IElement? element) => Plain(element?.TextContent ?? "");

    private static string Plain(string text) => Blanks().Replace(text, " ").Trim();

    private static string Cell(IElement cell)
    {
        var words = Words(cell);
        return words.Length > LongestCell ? words[..LongestCell] + "…" : words;
    }

    /// <summary>A sentence a line, so that a change shows the sentence and no more.</summary>
    private static void WriteSentences(string paragraph, StringBuilder text, string indent = "") =>
        text.Append(BetweenSentences().Replace(paragraph, "\n" + indent)).Append('\n');

    [GeneratedRegex(@"(?<=[.?!]) (?=\p{Lu}|\d)")]
    private static partial Regex BetweenSentences();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"JumpAnalytics \d+(\.\d+)+")]
    private static partial Regex Version();
}
