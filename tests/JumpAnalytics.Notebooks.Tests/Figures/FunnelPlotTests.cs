namespace JumpAnalytics.Notebooks.Tests.Figures;

public class FunnelPlotTests
{
    private static readonly FairComparison _demo =
        FairComparison.Of(JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo")).Landings, new AccuracyOptions());

    [Fact]
    public void Every_spotter_stands_where_their_record_puts_them_with_missions_beside()
    {
        var figure = FunnelPlot.Of(_demo);
        var (inside, outside) = (figure.Trace("within chance"), figure.Trace("beyond chance"));
        var planted = _demo.Spotters.Single(s => s.Spotter == "S04");
        Assert.Equal(["S04 (47)"], outside["text"].Texts());
        FigureParts.Near([planted.EffectiveLandings!.Value], outside["x"].Numbers());
        FigureParts.Near([100 * planted.Difference.Value!.Value], outside["y"].Numbers());
        Assert.Equal(7, inside["x"].Numbers().Length);
        Assert.NotEqual((string?)inside["marker"]!["symbol"], (string?)outside["marker"]!["symbol"]);
        Assert.Contains("327 missions, 1,483 landings", figure.Caption);
        Assert.Contains("Of 8 spotters, 1 lies outside the 95 % curves and 1 outside those of 99.8 %. "
            + "Beyond chance after 8 looks (Holm): S04 ", figure.AlternativeText);
        Assert.Equal("fair-comparison", figure.Data.Name);
        Assert.Contains("(points)", (string?)figure.Layout()["yaxis"]!["title"]!["text"]);
    }

    [Fact]
    public void The_curves_are_the_limits_and_the_axes_hold_every_point()
    {
        var figure = FunnelPlot.Of(_demo);
        foreach (var (name, confidence, side) in new[] { ("95 % by chance", 0.95, 1), ("95 %, low", 0.95, -1),
            ("99.8 % by chance", 0.998, 1), ("99.8 %, low", 0.998, -1) })
        {
            var curve = figure.Trace(name);
            FigureParts.Near([.. curve["x"].Numbers().Select(n => 100 * side * _demo.FunnelLimits(n, confidence).High)],
                curve["y"].Numbers(), 1e-9);
        }
        var (x, y) = (figure.Layout()["xaxis"]!["range"].Numbers(), figure.Layout()["yaxis"]!["range"].Numbers());
        Assert.All(_demo.Spotters,
            s => Assert.True(s.EffectiveLandings > x[0] && s.EffectiveLandings < x[1] && 100 * Math.Abs(s.Difference.Value!.Value) < y[1]));
        Assert.True(FunnelPlot.Of(_demo, withSpread: true).Trace("95 % by chance")["y"].Numbers()[0]
            > figure.Trace("95 % by chance")["y"].Numbers()[0]);
        Assert.Contains("if spotters differed as much as they do here on the whole", FunnelPlot.Of(_demo, withSpread: true).Caption);
    }

    [Fact]
    public void Without_a_difference_the_figure_says_so_and_codes_are_escaped()
    {
        Assert.Equal("There is no difference to draw.", FunnelPlot.Of(FairComparison.Of([], new AccuracyOptions())).AlternativeText);
        var landings = JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo")).Landings
            .Select(l => l with { Drop = l.Drop with { Spotter = l.Drop.Spotter + "<b>" } }).ToList();
        Assert.Equal(["S04&lt;b&gt; (47)"],
            FunnelPlot.Of(FairComparison.Of(landings, new AccuracyOptions())).Trace("beyond chance")["text"].Texts());
    }
}
