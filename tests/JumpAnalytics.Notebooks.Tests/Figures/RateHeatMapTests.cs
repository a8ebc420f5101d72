namespace JumpAnalytics.Notebooks.Tests.Figures;

public class RateHeatMapTests
{
    private static Figure Map(HandMadeLog log, AccuracyOptions? options = null) => RateHeatMap.Of(log.Analyse(options).Rates);

    [Fact]
    public void Shades_are_the_counted_rates_in_percent_with_all_terrains_at_the_bottom()
    {
        var trace = Assert.Single(Map(HandMadeLog.Season()).Traces())!;
        Assert.Equal(["0-5 mps", "5+ mps", "all winds"], trace["x"].Texts());
        Assert.Equal(["<b>all terrains</b>", "timber", "meadow"], trace["y"].Texts());

        // Hits over landings by hand: 0-5 m/s 7/12, 5+ 1/2, all 8/14; timber 1/4, none, 1/4; meadow 6/8, 1/2, 7/10.
        var rows = trace["z"]!.AsArray();
        // Fewer than 5 missions get no shade: all at 5+ (1 mission), timber (2), meadow at 5+ (1).
        Assert.Equal([true, false, true], rows[0].Gaps().Select(g => g is not null));
        FigureParts.Near([100 * 7 / 12.0, 100 * 8 / 14.0], rows[0].Gaps().Where(g => g is not null).Select(g => g!.Value).ToArray());
        Assert.Equal([null, null, null], rows[1].Gaps());
        Assert.Equal([75, null, 70], rows[2].Gaps());
    }

    [Fact]
    public void Each_cell_says_rate_missions_and_landings()
    {
        var text = Assert.Single(Map(HandMadeLog.Season()).Traces())!["text"]!.AsArray();
        Assert.Equal(["<b>58 %</b><br>7 / 12", "", "<b>57 %</b><br>8 / 14"], text[0].Texts());
        Assert.Equal(["", "", ""], text[1].Texts()); // without shade the words stand in an annotation, and only there
        Assert.Equal(["<b>75 %</b><br>5 / 8", "", "<b>70 %</b><br>6 / 10"], text[2].Texts());
    }

    [Fact]
    public void A_cell_without_landings_is_a_gap_that_says_so()
    {
        var figure = Map(HandMadeLog.Season());
        // Timber at 5+ m/s is column 1 of row 1 and the only empty cell; the other gaps are cells of few missions, which keep their words.
        var notes = figure.Layout()["annotations"]!.AsArray().Select(n => ((int)n!["x"]!, (int)n["y"]!, (string)n["text"]!)).ToList();
        Assert.Equal(5, notes.Count);
        Assert.Equal((1, 1, "none"), Assert.Single(notes, n => n.Item3 == "none"));
        Assert.Contains((0, 1, "<b>25 %</b><br>2 / 4"), notes);
        Assert.Contains((1, 0, "<b>50 %</b><br>1 / 2"), notes);
        Assert.DoesNotContain("NaN", figure.Json);
    }

    [Theory]
    [InlineData(0.85)]
    [InlineData(0.4)]
    public void The_neutral_shade_stands_at_the_benchmark(double benchmark)
    {
        var trace = Map(HandMadeLog.Season(), HandMadeLog.Options with { Benchmark = benchmark }).Traces()[0]!;
        var stops = trace["colorscale"]!.AsArray().Select(stop => (double)stop![0]!);
        Assert.Equal([0, benchmark, 1], stops);
        Assert.Equal((0, 100), ((int)trace["zmin"]!, (int)trace["zmax"]!)); // so that the pivot is that share of the scale
    }

    [Fact]
    public void Names_from_the_log_are_text_and_never_markup()
    {
        const string Hostile = "</script><img src=x onerror=\"alert(1)\">&'";
        var figure = Map(HandMadeLog.Season(meadow: Hostile));
        // Chart text knows HTML, so the name is escaped (HTML 4 entities for & < > " ').
        // "<" sorts before "timber"
        Assert.Equal("&lt;/script&gt;&lt;img src=x onerror=&quot;alert(1)&quot;&gt;&amp;&#39;", figure.Traces()[0]!["y"].Texts()[2]);
        Assert.DoesNotContain("<img", figure.Html());
    }

    [Theory]
    [InlineData("NaN")] // what table programs write for an absent word
    [InlineData("all terrains")] // what the figure calls the margin
    [InlineData("12")]
    public void An_odd_name_keeps_its_own_row(string name)
    {
        var figure = Map(HandMadeLog.Season(meadow: name));
        var labels = figure.Traces()[0]!["y"].Texts();
        Assert.Contains(name, labels);
        Assert.Equal(3, labels.Distinct().Count()); // two terrains and the margin
        Assert.Equal("category", (string?)figure.Layout()["yaxis"]!["type"]); // a name like 12 is not a number
    }

    [Fact]
    public void Words_name_lowest_and_highest_cell_the_unit_and_n()
    {
        var figure = Map(HandMadeLog.Season());
        Assert.Equal("3 cells of wind band and terrain. Lowest 25 % at 0-5 mps, timber (2 missions, 4 landings), highest 75 % at 0-5 mps, "
            + "meadow (5 missions, 8 landings).", figure.AlternativeText);
        Assert.Contains("8 missions, 14 landings", figure.Caption);
        Assert.Contains("fewer than 5 missions", figure.Caption);
        Assert.Equal("drift wind (mps)", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Equal("rates-by-cell", figure.Data.Name);
    }

    [Fact]
    public void One_is_said_in_the_singular()
    {
        var figure = Map(new HandMadeLog().Drop("A", "meadow", 1, [HandMadeLog.In1]));
        Assert.Equal("1 cell of wind band and terrain. Lowest 100 % at 0-5 mps, meadow (1 mission, 1 landing), highest 100 % at 0-5 mps, "
            + "meadow (1 mission, 1 landing).", figure.AlternativeText);
    }

    [Fact]
    public void A_log_without_landings_still_has_words()
    {
        var figure = Map(new HandMadeLog().Drop("A", "meadow", 1, []));
        Assert.Equal("No cell has a landing.", figure.AlternativeText);
        Assert.Contains("0 missions, 0 landings", figure.Caption);
        Assert.DoesNotContain("NaN", figure.Json);
    }
}
