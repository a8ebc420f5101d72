using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Tests;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>One page of each report on the demo season, as text that a person approved.</summary>
public sealed class GoldenPagesTests
{
    public static TheoryData<string, string[]> Reports => new()
    {
        { "season-accuracy", [] },
        { "debrief", [] },
        { "forecast-review", [] },
        { "spotter-review", ReviewAndMargins.Fewer },
        { "spotting-margins", ReviewAndMargins.Fewer },
    };

    [Theory]
    [MemberData(nameof(Reports))]
    public async Task What_a_reader_sees_of_a_report_is_what_was_approved(string report, string[] options)
    {
        var run = await ReportRun.OnceAsync(report, options);
        Assert.Equal("", run.Outcome.Error);
        var text = GoldenPage.TextOf(run.Html);
        Assert.DoesNotContain(Workshop.Root, text, StringComparison.Ordinal);
        Approved.Compare($"golden-pages/{report}.txt", text);
    }

    [Fact]
    public void A_page_becomes_its_visible_text()
    {
        var text = GoldenPage.TextOf("""
            <main><h1>One</h1><nav>no</nav><p>Some  <b>words</b> of JumpAnalytics 0.1.0. And more.</p>
            <details class="code"><pre>var no = 1;</pre></details>
            <ul><li>A point. Of two.</li><li>Another</li></ul>
            <div class="ja-figure"><div role="img" aria-label="A picture."><svg>no</svg></div></div>
            <table><caption>Cap</caption><thead><tr><th>a</th><th>b</th></tr></thead>
            <tbody><tr><td>1</td><td>2</td></tr><tr><td>3</td><td>4</td></tr>
            <tr><td>5</td><td>6</td></tr><tr><td>7</td><td>8</td></tr></tbody>
            </table></main>
            """);
        Assert.Equal("""

            # One

            Some words of JumpAnalytics (version).
            And more.

            - A point.
              Of two.
            - Another

            [figure] A picture.
            [table] Cap (4 rows)
                a | b
                1 | 2
                3 | 4
                5 | 6


            """, text, ignoreLineEndingDifferences: true);
    }
}
