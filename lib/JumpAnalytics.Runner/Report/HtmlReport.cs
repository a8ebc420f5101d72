using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace JumpAnalytics.Runner;

/// <summary>An executed notebook as one HTML page that needs nothing but itself.</summary>
internal static class HtmlReport
{
    /// <summary>Forbids the page every address but its own: whatever an output holds, nothing is fetched.</summary>
    private const string Policy = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline' 'unsafe-eval' data: blob:; "
        + "img-src data: blob:; font-src data:; connect-src data: blob:; worker-src blob:; base-uri 'none'; form-action 'none'";

    private static readonly string Style = ReadStyle();

    public static string Of(Notebook notebook)
    {
        var markdown = new MarkdownPage(notebook);
        var body = new StringBuilder();
        foreach (var cell in notebook.Cells)
        {
            if (cell.IsMarkdown)
                body.Append($"<section class=\"text\">\n{markdown.ToHtml(cell)}</section>\n");
            else if (cell.IsCode && cell.Source.Trim().Length > 0)
                body.Append(CodeCell(cell));
        }

        return $"""
            <!doctype html>
            <html lang="en" data-scheme="reader">
            <head>
            <meta charset="utf-8">
            <meta http-equiv="Content-Security-Policy" content="{Policy}">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>{Escape(notebook.Title)}</title>
            <style>
            {Style}</style>
            </head>
            <body>
            <a id="to-content" href="#content">To the content</a>
            <main id="content" tabindex="-1">
            {markdown.Opening}{body}</main>
            </body>
            </html>

            """;
    }

    private static string CodeCell(NotebookCell cell)
    {
        var html = new StringBuilder();
        html.Append($"<details class=\"code\"><summary>Code</summary><pre tabindex=\"0\" role=\"group\" "
            + $"aria-label=\"Code\"><code>{Escape(cell.Source)}</code></pre></details>\n");
        foreach (var output in cell.Outputs.Select(Output).Where(output => output.Length > 0))
            html.Append($"<div class=\"output\">\n{output}\n</div>\n");
        return html.ToString();
    }

    private static string Output(JsonObject output) => (string?)output["output_type"] switch
    {
        "stream" => Preformatted((string)output["name"]!, NotebookCell.Text(output["text"])),
        "error" => Preformatted("error", string.Join("\n", output["traceback"]!.AsArray().Select(line => (string?)line))),
        _ when output["data"]?["text/html"] is { } html => NotebookCell.Text(html),
        _ when output["data"]?["text/plain"] is { } text => Preformatted("plain", NotebookCell.Text(text)),
        _ => "",
    };

    private static string Preformatted(string kind, string text) =>
        $"<pre class=\"{kind}\" tabindex=\"0\" role=\"group\" aria-label=\"Output\">{Escape(text)}</pre>";

    private static string Escape(string text) => WebUtility.HtmlEncode(text);

    private static string ReadStyle()
    {
        using var stream = typeof(HtmlReport).Assembly.GetManifestResourceStream("report.css")!;
        return new StreamReader(stream).ReadToEnd();
    }
}
