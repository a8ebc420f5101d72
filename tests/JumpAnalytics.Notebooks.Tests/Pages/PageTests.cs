using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace JumpAnalytics.Notebooks.Tests.Pages;

/// <summary>
/// The reports as their readers meet them: on a phone, in the dark, on paper, with a screen reader. Needs a browser;
/// see <see cref="PageBrowser"/>.
/// </summary>
public sealed class PageTests(PageBrowser browser) : IClassFixture<PageBrowser>
{
    private const int Phone = 360, Desk = 1200;

    public static TheoryData<string> Reports =>
        ["season-accuracy.html", "debrief.html", "forecast-review.html", "questions.html", "spotter-review.html",
            "spotting-margins.html", "margin-card-quillmark.html"];

    /// <summary>
    /// All rules of axe-core 4.14, best practices included, with every folded part opened; of long tables the first rows,
    /// since the others are like them.
    /// </summary>
    [Theory]
    [MemberData(nameof(Reports))]
    public async Task No_rule_of_accessibility_is_broken(string name)
    {
        await using var open = await browser.OpenAsync(name, Desk);
        await open.Page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        await open.Page.EvaluateAsync("document.querySelectorAll('tbody tr:nth-child(n+16)').forEach(r => r.remove())");
        var light = await open.Page.RunAxe();
        Assert.Empty(Broken(light));
        Assert.True(light.Passes.Length > 10, "The rules were not run.");

        await open.Page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        var dark = await open.Page.RunAxe(new() { RunOnly = new() { Type = "rule", Values = ["color-contrast"] } });
        Assert.Empty(Broken(dark));
        Assert.Single(dark.Passes);
        Assert.Empty(open.Complaints);

        static IEnumerable<string> Broken(AxeResult result) =>
            result.Violations.Select(v =>
                $"{v.Id}: {v.Help}: {v.Nodes.Length} times, first {v.Nodes[0].Html[..Math.Min(200, v.Nodes[0].Html.Length)]}");
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public async Task A_phone_shows_it_without_moving_sideways(string name)
    {
        await using var open = await browser.OpenAsync(name, Phone);
        Assert.InRange(await open.Page.EvaluateAsync<int>("document.documentElement.scrollWidth"), 1, Phone);
        await open.Page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        Assert.InRange(await open.Page.EvaluateAsync<int>("document.documentElement.scrollWidth"), 1, Phone);
        Assert.Empty(await open.Page.EvaluateAsync<string[]>("[...document.querySelectorAll('svg.main-svg')].filter(s "
            + "=> s.getBoundingClientRect().right > window.innerWidth + 1).map(s => (s.closest('figure') || "
            + "s.parentElement).textContent.slice(-200))"));
        Assert.Empty(open.Complaints);
    }

    /// <summary>Inner sizes in CSS pixels of A4 and letter within the margins of the print style.</summary>
    [Theory]
    [MemberData(nameof(Reports))]
    public async Task Paper_of_both_kinds_holds_every_figure_whole_and_every_table_in_its_width(string name)
    {
        foreach (var (paper, width, height) in new[] { ("A4", 702, 1016), ("Letter", 725, 950) })
        {
            await using var open = await browser.OpenAsync(name, width);
            await open.Page.EmulateMediaAsync(new() { Media = Media.Print });
            await open.Page.EvaluateAsync("window.dispatchEvent(new Event('beforeprint'))");
            await open.Page.WaitForTimeoutAsync(300);
            Assert.Empty(await open.Page.EvaluateAsync<string[]>($$"""
                [...document.querySelectorAll('figure, .ja-plot, table')].filter(e => e.getBoundingClientRect().width > 0)
                  .filter(e => e.getBoundingClientRect().right > {{width}} + 1 || (e.tagName === 'FIGURE'
                    && (e.getBoundingClientRect().height > {{height}} || getComputedStyle(e).breakInside !== 'avoid')))
                  .map(e => [e.tagName, Math.round(e.getBoundingClientRect().right), Math.round(e.getBoundingClientRect().height),
                    (e.textContent || '').slice(0, 80)].join(' '))
                """));
            var pdf = await open.Page.PdfAsync(new() { Format = paper, PreferCSSPageSize = false });
            Assert.True(pdf.Length > 10_000, paper);
        }
    }

    [Fact]
    public async Task In_the_dark_figures_are_dark_and_on_paper_they_are_light_again()
    {
        await using var open = await browser.OpenAsync("season-accuracy.html", Desk, ColorScheme.Dark);
        const string Background = "getComputedStyle(document.querySelector('svg.main-svg')).backgroundColor";
        Assert.Equal("rgb(22, 27, 32)", await open.Page.EvaluateAsync<string>(Background));
        Assert.Equal("rgb(22, 27, 32)", await open.Page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor"));
        await open.Page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        await open.Page.WaitForFunctionAsync($"{Background} === 'rgb(255, 255, 255)'");
        await open.Page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        await open.Page.WaitForFunctionAsync($"{Background} === 'rgb(22, 27, 32)'");
        await open.Page.EvaluateAsync("window.dispatchEvent(new Event('beforeprint'))");
        await open.Page.WaitForFunctionAsync($"{Background} === 'rgb(255, 255, 255)'");
    }

    [Fact]
    public async Task The_keyboard_leads_to_the_content_and_into_wide_tables()
    {
        await using var open = await browser.OpenAsync("season-accuracy.html", Phone);
        await open.Page.Keyboard.PressAsync("Tab");
        Assert.Equal("To the content", await open.Page.EvaluateAsync<string>("document.activeElement.textContent"));
        await open.Page.Keyboard.PressAsync("Enter");
        Assert.Equal("content", await open.Page.EvaluateAsync<string>("document.activeElement.id"));
        Assert.True(await open.Page.EvaluateAsync<bool>(
            "[...document.querySelectorAll('.ja-table')].every(t => t.tabIndex === 0 && t.getAttribute('aria-label'))"));
    }

    [Fact]
    public void Each_page_is_one_file_below_6_MB()
    {
        if (browser.Pages.Count == 0) Assert.Skip("No browser was found: the pages were not made.");
        Assert.All(browser.Pages, p => Assert.InRange(p.Value.Length, 1_000, 6_000_000));
    }
}
