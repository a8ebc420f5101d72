namespace JumpAnalytics.Notebooks.Tests.Figures;

public class AgeAndStickFigureTests
{
    private static readonly JumpLog _demo = JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo"));
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    [Fact]
    public void The_growth_with_age_lies_in_its_band_and_beside_the_counted_classes()
    {
        var ageing = ForecastAgeing.Of([.. _demo.Landings.Select(l => l.Miss is { } miss && l.Drop.StreamerAge is { } age
            ? l with { Miss = (1 + age / 600) * miss, MissDistance = (1 + age / 600) * miss.Length } : l)], _options);
        var figure = AgeGrowthPlot.Of(ageing);
        var (low, line, high) =
            (figure.Trace("low")["y"].Numbers(), figure.Trace("fitted")["y"].Numbers(), figure.Trace("band")["y"].Numbers());
        Assert.All(Enumerable.Range(0, line.Length), i => Assert.True(low[i] <= line[i] && line[i] <= high[i]));
        Assert.Equal("tonexty", (string?)figure.Trace("band")["fill"]);
        Assert.Equal("dash", (string?)figure.Trace("published shape")["line"]!["dash"]);
        var x = figure.Trace("fitted")["x"].Numbers();
        Assert.Equal((3.0, 31.0), (x[0], x[^1])); // the ages on record and none beyond
        Assert.Equal(ageing.Classes.Count, figure.Trace("counted")["y"].Numbers().Length);
        Assert.Contains("283 landings", (string?)figure.Trace("counted")["text"]![0]);
        Assert.Equal("age of the forecast (min)", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Contains("(yd)", (string?)figure.Layout()["yaxis"]!["title"]!["text"]);
        Assert.Contains("326 missions, 1,427 landings", figure.Caption);
        Assert.Equal("age-curve", figure.Data.Name);
    }

    /// <summary>On the demo growth is not shown: no line may state it.</summary>
    [Fact]
    public void Without_a_growth_that_is_shown_the_counted_classes_are_alone()
    {
        var ageing = ForecastAgeing.Of(_demo.Landings, _options);
        var figure = AgeGrowthPlot.Of(ageing);
        Assert.Equal(ageing.Classes.Count, figure.Trace("counted")["y"].Numbers().Length);
        Assert.Throws<InvalidOperationException>(() => figure.Trace("fitted"));
        Assert.StartsWith("Growth of the misses with age is not shown (p 0.035)", figure.AlternativeText);
        Assert.Contains("326 missions, 1,427 landings", figure.Caption);
        Assert.Contains("No line is drawn", figure.Caption);
        Assert.Equal("age-classes", figure.Data.Name);
    }

    [Fact]
    public void Chances_of_sticks_fall_with_size_beside_what_came()
    {
        var sticks = StickMargins.Of(_demo.Landings, _options, new StickOptions { Largest = 5, Wanted = 0.6 });
        var figure = StickCurve.Of(sticks);
        foreach (var name in (string[])["along the drift", "at 45°", "across the drift"])
        {
            var y = figure.Trace(name)["y"].Numbers();
            Assert.Equal(5, y.Length);
            Assert.Equal(y.OrderDescending(), y);
        }
        Assert.Equal(sticks.Calibration.Select(c => 100 * c.Observed.Value), figure.Trace("on record")["y"].Numbers());
        Assert.Equal(60, (double)figure.Layout()["shapes"]![0]!["y0"]!);
        Assert.Contains("Dashed: 60 %, the reader's number", figure.Caption);
        Assert.Contains("larger than 4 rest on the model alone", figure.Caption);
        Assert.Equal("stick-sizes", figure.Data.Name);
        Assert.Null(StickCurve.Of(StickMargins.Of(_demo.Landings.Take(400).ToList(), _options, new StickOptions { Largest = 2 }))
            .Layout()["shapes"]!.AsArray().FirstOrDefault());
    }

    [Fact]
    public void Without_a_fit_the_figures_say_so()
    {
        Assert.Equal("No law of growth could be fitted.", AgeGrowthPlot.Of(ForecastAgeing.Of([], _options)).AlternativeText);
        Assert.Equal("No chance could be reckoned.", StickCurve.Of(StickMargins.Of([], _options)).AlternativeText);
    }
}
