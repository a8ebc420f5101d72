namespace JumpAnalytics;

/// <summary>The margins of one base on one page to print and hang up: black on white, letter or A4, cautions included.</summary>
public sealed class MarginCard : ShownResult
{
    /// <summary>Rows that fit on the page; <c>margins.csv</c> holds all.</summary>
    internal const int MostRows = 30;

    private const string Style = """
        @page { size: auto; margin: 10mm 12mm; }
        body { margin: 0; color: #000; background: #fff; font: 8pt/1.28 system-ui, sans-serif; font-variant-numeric: tabular-nums; }
        main { box-sizing: border-box; max-width: 190mm; margin: 0 auto; padding: 1mm; }
        h1 { margin: 0 0 1mm; font-size: 14pt; line-height: 1.2; }
        p, ul { margin: 1mm 0; }
        ul { padding-left: 4mm; }
        li { margin: .4mm 0; }
        .ja-table { overflow-x: auto; }
        table { width: 100%; border-collapse: collapse; font-size: 7.5pt; line-height: 1.2; margin: 2mm 0; }
        th, td { padding: .45mm 0 .45mm 1.5mm; border-bottom: .2mm solid #000; text-align: left; vertical-align: top; }
        td { white-space: nowrap; }
        th:first-child, td:first-child { padding-left: 0; }
        thead th { border-bottom: .5mm solid #000; vertical-align: bottom; }
        .ja-num { text-align: right; }
        .warn { border: .5mm solid #000; padding: 1mm 2mm; }
        .note { font-size: 7pt; }
        """;

    private readonly IReadOnlyList<string> _headings;
    private readonly IReadOnlyList<string[]> _rows;
    private readonly IReadOnlyList<string> _cautions;
    private readonly string _note;

    internal MarginCard(string place, string file, string scope, IReadOnlyList<string> headings, IReadOnlyList<string[]> rows, string note,
        IReadOnlyList<string> points, IReadOnlyList<string> cautions)
    {
        (Place, Reading, _headings, _note, Points, _cautions) = (place, scope, headings, note, points, cautions);
        _rows = [.. rows.Take(MostRows)];
        Omitted = rows.Count - _rows.Count;
        File = new ShownFile(file, Page());
    }

    /// <summary>The base.</summary>
    public string Place { get; }

    /// <summary>What the card rests on.</summary>
    public override string Reading { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    /// <summary>Rows that the page has no room for.</summary>
    public int Omitted { get; }

    /// <summary>The card as a page of its own.</summary>
    public ShownFile File { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<ShownFile> Attachments => [File];

    /// <inheritdoc/>
    public override void WriteHtml(TextWriter writer)
    {
        writer.Write("<div class=\"ja-result\">");
        WriteBody(writer, "ja-reading", "ja-note");
        writer.Write($"<p class=\"ja-note\">To print: {Escape(File.Name)} beside this report.</p></div>");
    }

    private string Page()
    {
        var page = new StringWriter { NewLine = "\n" };
        page.Write("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
            + "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
            + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
            + $"<title>{Escape($"Spotting margins, {Place}")}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n"
            + $"<main><h1>{Escape($"Spotting margins: {Place}")}</h1>\n<p class=\"warn\"><strong>Statistics of finished jumps, "
            + "not a rule and no authority to jump.</strong> The agency's current guides and the qualified spotter, jumper and staff on "
            + "the spot decide; where this card and they differ, follow them.</p>\n");
        WriteBody(page, "scope", "note");
        page.Write("<p><strong>Read before use</strong></p>");
        WriteList(page, _cautions);
        page.Write("\n</main>\n</body>\n</html>\n");
        return page.ToString();
    }

    private void WriteBody(TextWriter writer, string scopeClass, string noteClass)
    {
        writer.Write($"<p class=\"{scopeClass}\">{Escape(Reading)}</p><div class=\"ja-table\" role=\"group\" tabindex=\"0\" "
            + $"aria-label=\"{Escape($"Margins of {Place}")}\"><table><thead><tr>");
        for (var i = 0; i < _headings.Count; i++) writer.Write($"<th scope=\"col\"{Align(i)}>{Escape(_headings[i])}</th>");
        writer.Write("</tr></thead><tbody>");
        foreach (var row in _rows)
        {
            writer.Write("<tr>");
            for (var i = 0; i < row.Length; i++) writer.Write($"<td{Align(i)}>{Escape(row[i])}</td>");
            writer.Write("</tr>");
        }
        writer.Write($"</tbody></table></div><p class=\"{noteClass}\">{Escape(_note)}"
            + $"{(Omitted > 0 ? Escape($" {Rounding.Count(Omitted, "more row")} in margins.csv.") : "")}</p>");
        WriteList(writer, Points);
    }

    private static void WriteList(TextWriter writer, IReadOnlyList<string> points)
    {
        if (points.Count == 0) return;
        writer.Write("<ul>");
        foreach (var point in points) writer.Write($"<li>{Escape(point)}</li>");
        writer.Write("</ul>");
    }

    /// <summary>The first two columns name the cell.</summary>
    private static string Align(int column) => column < 2 ? "" : " class=\"ja-num\"";
}
