using JumpAnalytics.Notebooks.Tests.Notebooks;
using Microsoft.Playwright;

namespace JumpAnalytics.Notebooks.Tests.Pages;

/// <summary>A headless browser for the tests that look at pages, and the pages.</summary>
public sealed class PageBrowser : IAsyncLifetime
{
    /// <summary>Set to 1, the tests install the browser that Playwright brings, where they find none.</summary>
    public const string InstallVariable = "JUMPANALYTICS_INSTALL_BROWSER";

    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private string? _folder;

    /// <summary>The reports on the demo season, by file name.</summary>
    public IReadOnlyDictionary<string, string> Pages { get; private set; } = new Dictionary<string, string>();

    public async ValueTask InitializeAsync()
    {
        var found = Browser.Find();
        if (found is null && Environment.GetEnvironmentVariable(InstallVariable) != "1") return;
        if (found is null && Microsoft.Playwright.Program.Main(["install", "--with-deps", "chromium"]) != 0)
            throw new InvalidOperationException("Playwright could not install its browser.");
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = found, Args = ["--no-sandbox", "--disable-gpu"] });
        _folder = Directory.CreateTempSubdirectory("jump-pages-").FullName;
        var runs = await Task.WhenAll(ReportRun.OnceAsync("season-accuracy"), ReportRun.OnceAsync("debrief"),
            ReportRun.OnceAsync("forecast-review"), ReportRun.OnceAsync("questions"),
            ReportRun.OnceAsync("spotter-review", ReviewAndMargins.Fewer), ReportRun.OnceAsync("spotting-margins", ReviewAndMargins.Fewer));
        Pages = runs.SelectMany(r => r.Files).Where(f => f.Key.EndsWith(".html", StringComparison.Ordinal))
            .ToDictionary(f => f.Key, f => f.Value);
        foreach (var (name, text) in Pages) await File.WriteAllTextAsync(Path.Combine(_folder, name), text);
    }

    /// <summary>
    /// Opens a page of the given width and waits until its figures are drawn; without a browser the test is skipped and says what to do.
    /// </summary>
    internal async Task<OpenPage> OpenAsync(string name, int width, ColorScheme scheme = ColorScheme.Light)
    {
        if (_browser is null)
        {
            Assert.Skip("No Chromium, Chrome or Edge was found. Install one (for instance the package chromium), "
                + $"or name it in {Browser.Variable}, or set {InstallVariable}=1 to have Playwright install its own.");
        }
        var context = await _browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = 800 }, ColorScheme = scheme });
        var page = await context.NewPageAsync();
        var opened = new OpenPage(context, page, new Uri(Path.Combine(_folder!, name)).AbsoluteUri);
        page.Console += (_, message) => { if (message.Type is "error" or "warning") opened.Complaints.Add(message.Text); };
        page.PageError += (_, error) => opened.Complaints.Add(error);
        page.Request += (_, request) => { if (request.Url != opened.Address && !request.Url.StartsWith("data:", StringComparison.Ordinal)
            && !request.Url.StartsWith("blob:", StringComparison.Ordinal)) opened.Complaints.Add($"asked for {request.Url}"); };
        await page.GotoAsync(opened.Address);
        await page.WaitForFunctionAsync("[...document.querySelectorAll('.ja-plot')].every(p => p.querySelector('svg.main-svg'))", null,
            new() { Timeout = 60_000 });
        return opened;
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
        if (_folder is not null) Directory.Delete(_folder, recursive: true);
    }
}

/// <summary>A page that is open, and what it complained of.</summary>
internal sealed record OpenPage(IBrowserContext Context, IPage Page, string Address) : IAsyncDisposable
{
    public List<string> Complaints { get; } = [];

    public ValueTask DisposeAsync() => Context.DisposeAsync();
}
