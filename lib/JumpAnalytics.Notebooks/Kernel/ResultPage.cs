using System.Text;

namespace JumpAnalytics;

/// <summary>
/// A report without a notebook: results with their figures as one HTML page that needs no network, and their tables and files beside
/// it. For programs of one's own.
/// </summary>
public static class ResultPage
{
    private static readonly UTF8Encoding _utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>
    /// Writes <c>&lt;name&gt;.html</c>, <c>tables/*.csv</c> and the results' files into a folder; what is there
    /// under these names is replaced.
    /// </summary>
    /// <param name="folder">Made when it is not there.</param>
    /// <param name="name">Name of the page: lower case letters, digits and hyphens.</param>
    /// <param name="title">Title of the page.</param>
    /// <param name="sections">Heading and results of each section.</param>
    /// <returns>The tables written, by name.</returns>
    /// <exception cref="ArgumentException">Two different tables or files have one name.</exception>
    public static IReadOnlyList<string> Write(
        string folder, string name, string title, IReadOnlyList<(string Heading, IReadOnlyList<ShownResult> Results)> sections)
    {
        var (tables, files) =
            (new SortedDictionary<string, string>(StringComparer.Ordinal), new SortedDictionary<string, string>(StringComparer.Ordinal));
        foreach (var result in sections.SelectMany(s => s.Results).Where(r => r.Withheld is null))
        {
            foreach (var table in result.Tables.Concat(Illustrations.Of(result).SelectMany(f => f.Tables)))
                Add(tables, table.Name, table.ToCsv());
            foreach (var file in result.Attachments) Add(files, file.Name, file.Text);
        }
        Directory.CreateDirectory(Path.Combine(folder, "tables"));
        foreach (var (table, csv) in tables) File.WriteAllText(Path.Combine(folder, "tables", table + ".csv"), csv, _utf8);
        foreach (var (file, text) in files) File.WriteAllText(Path.Combine(folder, file), text, _utf8);
        File.WriteAllText(Path.Combine(folder, name + ".html"), Page(title, sections), _utf8);
        return [.. tables.Keys];
    }

    private static void Add(SortedDictionary<string, string> there, string name, string text)
    {
        if (!there.TryAdd(name, text) && there[name] != text)
            throw new ArgumentException($"Two different results are named '{name}'; show one of them on a page of its own.");
    }

    private static string Page(string title, IReadOnlyList<(string Heading, IReadOnlyList<ShownResult> Results)> sections)
    {
        var page = new StringWriter { NewLine = "\n" };
        page.Write("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
            + $"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{ShownResult.Escape(title)}</title>\n"
            + "<style>body { margin: 0 auto; max-width: 70rem; padding: 1rem; font: 1rem/1.6 system-ui, sans-serif; color: #1d2b2a; "
            + "background: #fff; }</style>\n</head>\n<body>\n");
        new PageAssets().WriteHtml(page);
        page.Write($"\n<main>\n<h1>{ShownResult.Escape(title)}</h1>\n");
        foreach (var (heading, results) in sections)
        {
            page.Write($"\n<h2>{ShownResult.Escape(heading)}</h2>\n");
            foreach (var result in results) Illustrations.WriteHtml(result, page);
        }
        page.Write("\n</main>\n</body>\n</html>\n");
        return page.ToString();
    }
}
