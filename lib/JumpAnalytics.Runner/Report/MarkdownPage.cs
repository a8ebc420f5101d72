using System.Net;
using System.Text;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace JumpAnalytics.Runner;

/// <summary>
/// The markdown cells of one page: exactly one heading of level one, an anchor on each section, and below the title a
/// list of the sections.
/// </summary>
internal sealed class MarkdownPage
{
    private const int SectionsWorthAList = 3;

    private readonly Dictionary<NotebookCell, MarkdownDocument> _documents = [];
    private readonly NotebookCell? _titleCell;
    private readonly string _contents;

    public MarkdownPage(Notebook notebook)
    {
        var sections = new List<string>();
        foreach (var cell in notebook.Cells.Where(cell => cell.IsMarkdown))
        {
            var document = _documents[cell] = MarkdownText.Parse(cell.Source);
            foreach (var heading in document.Descendants<HeadingBlock>())
            {
                if (heading.Level == 1 && _titleCell is null)
                    _titleCell = cell;
                else if (heading.Level == 1)
                    heading.Level = 2;
                if (heading.Level != 2) continue;
                sections.Add(heading.PlainText());
                heading.GetAttributes().Id = $"section-{sections.Count}";
            }

            foreach (var image in document.Descendants<LinkInline>().Where(link => link.IsImage))
                image.Url = Lint.AttachedImage(cell, image) ?? "";
        }

        _contents = sections.Count < SectionsWorthAList ? "" : List(sections);
        Opening = _titleCell is null ? $"<h1>{WebUtility.HtmlEncode(notebook.Title)}</h1>\n{_contents}" : "";
    }

    /// <summary>What comes before the first cell: the title and the sections, when no cell has a title.</summary>
    public string Opening { get; }

    /// <summary>The cell's HTML; wide tables scroll in a box of their own.</summary>
    public string ToHtml(NotebookCell cell) => MarkdownText.ToHtml(_documents[cell])
        .Replace("<table>", "<div class=\"scroll\"><table>", StringComparison.Ordinal)
        .Replace("</table>", "</table></div>", StringComparison.Ordinal)
        + (cell == _titleCell ? _contents : "");

    private static string List(List<string> sections)
    {
        var html = new StringBuilder("<nav aria-label=\"Contents\">\n<ol>\n");
        for (var i = 0; i < sections.Count; i++)
            html.Append($"<li><a href=\"#section-{i + 1}\">{WebUtility.HtmlEncode(sections[i])}</a></li>\n");
        return html.Append("</ol>\n</nav>\n").ToString();
    }
}
