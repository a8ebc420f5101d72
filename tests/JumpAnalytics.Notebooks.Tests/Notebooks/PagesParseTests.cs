using AngleSharp.Html.Parser;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>Every page is HTML without an error of parsing, each element where it may stand and each id once.</summary>
public sealed class PagesParseTests
{
    [Fact]
    public async Task Pages_are_valid_as_far_as_a_parser_tells()
    {
        var runs = await Task.WhenAll(ReportRun.OnceAsync("season-accuracy"), ReportRun.OnceAsync("debrief"),
            ReportRun.OnceAsync("forecast-review"), ReportRun.OnceAsync("questions"),
            ReportRun.OnceAsync("spotter-review", ReviewAndMargins.Fewer), ReportRun.OnceAsync("spotting-margins", ReviewAndMargins.Fewer));
        var pages = runs.SelectMany(r => r.Files).Where(f => f.Key.EndsWith(".html", StringComparison.Ordinal)).ToList();
        Assert.Equal(7, pages.Count);
        foreach (var (name, text) in pages)
        {
            var document = new HtmlParser(new HtmlParserOptions { IsStrictMode = true }).ParseDocument(text); // throws at the first error
            Assert.Single(document.QuerySelectorAll("h1"));
            var ids = document.QuerySelectorAll("[id]").Select(e => e.Id).ToList();
            Assert.Equal(ids.Count, ids.Distinct().Count());
            Assert.Empty(document.QuerySelectorAll("p div, p table, p ul, p details, figure > details, ul > :not(li), ol > :not(li), a a, "
                + "button button, table table").Select(e => $"{name}: {e.OuterHtml[..Math.Min(80, e.OuterHtml.Length)]}"));
            Assert.All(document.QuerySelectorAll("figcaption"),
                c => Assert.True(c.NextElementSibling is null && c.ParentElement!.LocalName == "figure"));
            Assert.All(document.QuerySelectorAll("th"), h => Assert.False(string.IsNullOrWhiteSpace(h.TextContent), name));
        }
    }
}
