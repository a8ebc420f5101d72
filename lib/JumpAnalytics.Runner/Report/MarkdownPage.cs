using System.Net;
using System.Text;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace JumpAnalytics.Runner;

/// <summary>
/// The markdown cells of one page: exactly one heading of level one, an anchor on each section, a list of the sections.
/// </summary>
internal sealed class MarkdownPage
{
    private const int SectionsWorthAList = 3;

    private readonly Dictionary<Cell, MarkdownDocument> _documents = [];

    public MarkdownPage(Notebook notebook)
    {
        var sections = new List<string>();
        var hasTitle = false;
        foreach (var cell in notebook.Cells.Where(cell => cell.IsMarkdown))
        {
            var document = _documents[cell] = MarkdownText.Parse(cell.Source);
            foreach (var heading in document.Descendants<HeadingBlock>())
            {
                if (heading.Level == 1 && hasTitle)
                    heading.Level = 2;
                hasTitle |= heading.Level == 1;
                if (heading.Level != 2) continue;
                sections.Add(heading.PlainText());
                heading.GetAttributes().Id = $"section-{sections.Count}";
            }

            foreach (var image in document.Descendants<LinkInline>().Where(link => link.IsImage))
                image.Url = Lint.AttachedImage(cell, image) ?? "";
        }

        MissingTitle = hasTitle ? "" : $"<h1>{WebUtility.HtmlEncode(notebook.Title)}</h1>\n";
        Contents = sections.Count < SectionsWorthAList ? "" : List(sections);
    }

    /// <summary>The title, when no cell has one.</summary>
    public string MissingTitle { get; }

    /// <summary>The list of sections, empty for a short page.</summary>
    public string Contents { get; }

    /// <summary>The cell's HTML; wide tables scroll in a box of their own.</summary>
    public string ToHtml(Cell cell) => MarkdownText.ToHtml(_documents[cell])
        .Replace("<table>", "<div class=\"scroll\"><table>", StringComparison.Ordinal)
        .Replace("</table>", "</table></div>", StringComparison.Ordinal);

    private static string List(List<string> sections)
    {
        var html = new StringBuilder("<nav aria-label=\"Contents\">\n<ol>\n");
        for (var i = 0; i < sections.Count; i++)
            html.Append($"<li><a href=\"#section-{i + 1}\">{WebUtility.HtmlEncode(sections[i])}</a></li>\n");
        return html.Append("</ol>\n</nav>\n").ToString();
    }
}
