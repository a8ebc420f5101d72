namespace JumpAnalytics.Notebooks.Tests.Figures;

public class MarginFigureTests
{
    private static readonly JumpLog _demo = JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo"));

    [Fact]
    public void Radii_stand_at_their_cells_with_a_line_to_the_upper_limit()
    {
        var margins = RadiusMargins.Of(_demo.Landings, new AccuracyOptions());
        var figure = MarginPlot.Of(margins);
        var cells = margins.Rows.Where(r => !r.Cell.IsMargin).Append(margins.Overall).ToList();
        var large = figure.Trace("90 %");
        FigureParts.Near([.. cells.Select(r => r.Radii[2].Value!.Radius / 0.9144)], large["x"].Numbers(), 1e-3);
        FigureParts.Near([.. cells.Select(r => (r.Radii[2].Value!.UpperLimit - r.Radii[2].Value!.Radius) / 0.9144)],
            large["error_x"]!["array"].Numbers(), 1e-3);
        Assert.Equal(cells.Select(r => r.IsOwn ? "circle" : "circle-open"), large["marker"]!["symbol"].Texts());
        FigureParts.Near([.. cells.Select(r => r.Radii[0].Value!.Radius / 0.9144)], figure.Trace("50 %")["x"].Numbers(), 1e-3);
        Assert.Contains("327 missions, 1,487 landings", figure.Caption);
        Assert.Contains("distance from the spot (yd)", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Contains("ridge lee", figure.AlternativeText);
        Assert.Equal("margins", figure.Data.Name);
    }

    [Fact]
    public void Without_a_margin_the_figure_says_so() =>
        Assert.Equal("No margin can be given.", MarginPlot.Of(RadiusMargins.Of([], new AccuracyOptions())).AlternativeText);
}
