using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Notebooks.Tests.Figures;

public class FigureHtmlTests
{
    private const string Hostile = "</script><script>alert(1)</script><!--";

    private static IReadOnlyList<Figure> All(SeasonAccuracy accuracy) =>
        [RateHeatMap.Of(accuracy.Rates), RateForest.Of(accuracy.Rates), RateForest.Of(accuracy.Glance), LandingScatter.Of(accuracy)];

    [Fact]
    public void Data_cannot_leave_its_script_element()
    {
        var accuracy = HandMadeLog.Season(meadow: Hostile).Drop("Z" + Hostile, "timber", 1, [HandMadeLog.In1], season: Hostile).Analyse();
        foreach (var figure in All(accuracy))
        {
            // Two script elements are ours: the data and the call that draws.
            Assert.Equal(["<script type=\"application/json\">", "<script>"],
                Regex.Matches(figure.Html(), "<script[^>]*>").Select(m => m.Value));
            Assert.Equal(2, Regex.Count(figure.Html(), "</script", RegexOptions.IgnoreCase));
            Assert.DoesNotContain("<!--", figure.Html());
        }
        // The name is there, escaped: the test above does not pass for want of it.
        Assert.Contains(WebUtility.HtmlEncode(Hostile), RateHeatMap.Of(accuracy.Rates).Html());
    }

    [Fact]
    public void The_data_in_the_page_is_the_figure()
    {
        foreach (var figure in All(HandMadeLog.Season(meadow: Hostile).Analyse()))
        {
            var shown = Regex.Match(figure.Html(), "<script type=\"application/json\">(.*?)</script>",
                RegexOptions.Singleline).Groups[1].Value;
            Assert.True(JsonNode.DeepEquals(JsonNode.Parse(figure.Json), JsonNode.Parse(shown)));
        }
    }

    [Fact]
    public void A_chart_of_another_maker_cannot_break_out_either()
    {
        using var writer = new StringWriter();
        Figure.WriteBare(writer, "{\"data\":[{\"name\":\"" + Hostile + "\"}],\"layout\":{}}");
        Assert.Equal(2, Regex.Count(writer.ToString(), "<script"));
        Assert.Contains("role=\"img\" aria-label=\"A chart made in this notebook.\"", writer.ToString());
    }

    [Fact]
    public void Each_figure_has_words_for_those_who_cannot_see_it_and_its_numbers_as_a_table()
    {
        foreach (var figure in All(HandMadeLog.Season().Analyse()))
        {
            var html = figure.Html();
            Assert.False(string.IsNullOrWhiteSpace(figure.AlternativeText));
            Assert.False(string.IsNullOrWhiteSpace(figure.Caption));
            Assert.Matches(@"\b14 landings\b", figure.Caption); // n of the hand-made season
            Assert.Contains($"role=\"img\" aria-label=\"{WebUtility.HtmlEncode(figure.AlternativeText)}\"", html);
            Assert.Contains($"<figcaption><strong>{WebUtility.HtmlEncode(figure.Title)}.</strong> "
                + $"{WebUtility.HtmlEncode(figure.Caption)}</figcaption>", html);
            var details = Regex.Match(html, "<details><summary>Data of this figure</summary>.*</details></div>", RegexOptions.Singleline);
            Assert.True(details.Success);
            Assert.Contains($"<caption>{figure.Data.Title}</caption>", details.Value);
            Assert.Contains(figure.Title, figure.ToString());
        }
    }

    [Fact]
    public void A_figure_without_alternative_text_cannot_be_made()
    {
        var data = new TableView("t", "T", [], []);
        Assert.Throws<ArgumentException>(() => new Figure("title", " ", "caption", "{}", data));
        Assert.Throws<ArgumentException>(() => new Figure("", "words", "caption", "{}", data));
    }

    [Fact]
    public void Rendering_names_no_address_and_gives_the_same_bytes_twice()
    {
        var (one, two) = (All(HandMadeLog.Season().Analyse()), All(HandMadeLog.Season().Analyse()));
        for (var i = 0; i < one.Count; i++)
        {
            Assert.DoesNotContain("//", one[i].Html());
            Assert.Equal(one[i].Html(), one[i].Html());
            Assert.Equal(one[i].Html(), two[i].Html());
            Assert.Equal(one[i].TablesAsJson(), two[i].TablesAsJson());
        }
    }
}
