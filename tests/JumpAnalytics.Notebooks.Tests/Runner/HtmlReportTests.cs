using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class HtmlReportTests
{
    [Fact]
    public void Text_is_escaped_and_html_outputs_are_not()
    {
        var html = HtmlReport.Of(Toy.Notebook(
            Toy.Markdown("# A <b>bold</b> & *fine* title\n\n<script>alert(1)</script>"),
            Toy.Code("var s = \"<i>&\";", null,
                Toy.Display("text/html", new JsonArray("<figure>\n", "kept</figure>")),
                Toy.Display("text/plain", "1 < 2"),
                new JsonObject { ["output_type"] = "stream", ["name"] = "stderr", ["text"] = "<warned>" },
                new JsonObject { ["output_type"] = "error", ["traceback"] = new JsonArray("at <Main>") },
                Toy.Display(Tables.MimeType, new JsonObject()))));

        Assert.Contains("<title>A &lt;b&gt;bold&lt;/b&gt; &amp; fine title</title>", html);
        Assert.Contains("<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>", html);
        Assert.Contains("<details class=\"code\"><summary>Code</summary><pre tabindex=\"0\" role=\"group\" aria-label=\"Code\"><code>var s "
            + "= &quot;&lt;i&gt;&amp;&quot;;</code></pre></details>", html);
        Assert.Contains("<figure>\nkept</figure>", html);
        Assert.Contains("<pre class=\"plain\" tabindex=\"0\" role=\"group\" aria-label=\"Output\">1 &lt; 2</pre>", html);
        Assert.Contains("<pre class=\"stderr\" tabindex=\"0\" role=\"group\" aria-label=\"Output\">&lt;warned&gt;</pre>", html);
        Assert.Contains("<pre class=\"error\" tabindex=\"0\" role=\"group\" aria-label=\"Output\">at &lt;Main&gt;</pre>", html);
        Assert.Equal(4, Regex.Count(html, "class=\"output\""));
    }

    [Fact]
    public void The_page_has_one_title_its_sections_and_tables_in_boxes()
    {
        var html = HtmlReport.Of(Toy.Notebook(
            Toy.Markdown("# Season\n\n## One & all"), Toy.Markdown("# Two\n\n| a | b |\n| --- | ---: |\n| 1 | 2 |"),
            Toy.Markdown("## Three\n\n### Detail"), Toy.Code(" ")));

        Assert.StartsWith("<!doctype html>\n<html lang=\"en\" data-scheme=\"reader\">\n<head>\n<meta charset=\"utf-8\">", html);
        Assert.Single(Regex.Matches(html, "<h1"));
        Assert.Contains("<a href=\"#section-1\">One &amp; all</a>", html);
        Assert.Contains("<h2 id=\"section-2\">Two</h2>", html);
        Assert.Contains("<h2 id=\"section-3\">Three</h2>", html);
        Assert.True(html.IndexOf("<h1", StringComparison.Ordinal) < html.IndexOf("<nav", StringComparison.Ordinal));
        Assert.Single(Regex.Matches(html, "<div class=\"scroll\"><table>"));
        Assert.DoesNotContain("<details", html);
        Assert.Single(Regex.Matches(html, "<main id"));
    }

    [Fact]
    public void A_notebook_without_headings_is_titled_by_its_name() =>
        Assert.Contains("<main id=\"content\" tabindex=\"-1\">\n<h1>toy</h1>\n<details", HtmlReport.Of(Toy.Notebook(Toy.Code("1"))));

    [Fact]
    public void The_fixture_refers_to_nothing_outside_and_forbids_to_fetch()
    {
        var html = HtmlReport.Of(Notebook.Read(Path.Combine(Workshop.Fixtures, "season-toy.ipynb")));
        var loaded = Regex.Matches(html, """(?:src|data|poster|srcset)="([^"]*)"|url\(([^)]*)\)|@import|<link|<iframe""")
            .Select(match => match.Groups[1].Value).ToList();
        Assert.StartsWith("data:image/png;base64,", Assert.Single(loaded));
        Assert.Contains("default-src 'none'", html);
        Assert.DoesNotContain("http:", html);
    }
}
