namespace JumpAnalytics.Notebooks.Tests.Figures;

public class FitFigureTests
{
    private static readonly JumpLog _demo = JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo"));
    private static readonly SeasonAccuracy _accuracy = SeasonAccuracy.Of(_demo, new AccuracyOptions { Replicates = 200 });

    [Fact]
    public void Quantiles_lie_near_the_diagonal_of_the_preferred_distribution_and_inside_the_axes()
    {
        var figure = RadialQuantilePlot.Of(_accuracy.Misses);
        var points = figure.Trace("bivariate t");
        var (x, y) = (points["x"].Numbers(), points["y"].Numbers());
        var n = x.Length;
        Assert.InRange(n, 100, 200);
        var model = _accuracy.Misses.Best!.Fit.Value!.Model;
        var (near, far) = (model.RadiusHolding(0.1) / 0.9144, model.RadiusHolding(0.9) / 0.9144);
        // Distances are rounded to 5 yd.
        Assert.All(Enumerable.Range(0, n).Where(i => x[i] > near && x[i] < far),
            i => Assert.InRange(y[i] - x[i], -2.5 - 0.05 * x[i], 2.5 + 0.05 * x[i]));
        var normal = figure.Trace("bivariate normal");
        Assert.True(normal["y"].Numbers()[n / 2] < 0.8 * normal["x"].Numbers()[n / 2],
            "half of the landings lie nearer than the normal has them");
        var range = figure.Layout()["xaxis"]!["range"].Numbers();
        Assert.Equal(range, figure.Layout()["yaxis"]!["range"].Numbers());
        Assert.True(range[1] > x[9 * n / 10] && range[1] < x[^1], "the farthest does not stretch the axes");
        Assert.Contains("fitted distance (yd)", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Contains("327 missions, 1,487 landings, 9 known only as beyond a distance", figure.Caption);
        Assert.Contains("outside its band", figure.AlternativeText);
        Assert.Equal("radial-quantiles", figure.Data.Name);
    }

    [Fact]
    public void Shares_follow_the_diagonal_of_the_preferred_distribution_alone()
    {
        var figure = ProbabilityPlot.Of(_accuracy.Misses);
        Assert.True(Gap("bivariate t") < 10, "steps of round distances included");
        Assert.True(Gap("bivariate normal") > 15);
        Assert.All(figure.Trace("low")["y"].Numbers().Zip(figure.Trace("band")["y"].Numbers()), b => Assert.InRange(b.First, 0, b.Second));
        Assert.Contains("327 missions, 1,487 landings", figure.Caption);
        Assert.Equal("held-shares", figure.Data.Name);

        double Gap(string name) =>
            figure.Trace(name)["x"].Numbers().Zip(figure.Trace(name)["y"].Numbers(), (x, y) => Math.Abs(x - y)).Max();
    }

    [Fact]
    public void Reliability_shows_each_stretch_and_its_band()
    {
        var figure = ReliabilityPlot.Of(_accuracy.Backtest);
        var steps = _accuracy.Backtest.Reliability.Value!.Diagram.Steps;
        Assert.Equal(steps.Select(s => 100 * s.Rate), figure.Trace("landings")["y"].Numbers());
        var (low, high) = (figure.Trace("low")["y"].Numbers(), figure.Trace("if right")["y"].Numbers());
        Assert.All(low.Zip(high), b => Assert.True(b.First <= b.Second));
        Assert.Equal("tonexty", (string?)figure.Trace("if right")["fill"]);
        Assert.Contains("217 missions, 991 landings", figure.Caption);
        Assert.Equal("reliability", figure.Data.Name);
    }

    [Fact]
    public void Without_a_fit_or_a_forecast_the_figure_says_so()
    {
        Assert.Equal("No distribution could be fitted.",
            RadialQuantilePlot.Of(MissDistribution.Of([], new AccuracyOptions())).AlternativeText);
        Assert.Equal("No distribution could be fitted.",
            ProbabilityPlot.Of(MissDistribution.Of([], new AccuracyOptions())).AlternativeText);
        Assert.Equal("There is no forecast to draw.", ReliabilityPlot.Of(Backtest.Of([], new AccuracyOptions())).AlternativeText);
    }
}
