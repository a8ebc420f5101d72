using NodaTime;

namespace JumpAnalytics.Notebooks.Tests.Figures;

public class SpotterFigureTests
{
    /// <summary>Missions of two landings; spotter A's twelve lie 20 m long within ±6 m of it, B's three are too few.</summary>
    private static SpotterPatterns Patterns(string a = "A")
    {
        var landings = new List<Landing>();
        for (var m = 0; m < 15; m++)
        {
            var drop = new Drop
            {
                Id = $"d{m}", Mission = $"m{m}", Season = "2031", Terrain = "t", TargetRadius = 40, WindSpeed = 3,
                Time = new LocalDateTime(2031, 7, 1, 10, 0),
                ForecastDrift = LocalVector.FromPolar(300 + 10 * m, Bearing.FromDegrees(24 * m)), Source = new RowSource("drops.csv", m),
                Spotter = m < 12 ? a : "B",
            };
            for (var j = 0; j < 2; j++)
            {
                var miss = drop.Frame!.ToLocal(new PlaneVector(20 + 6 * Math.Cos(m * m + j), 5 * Math.Sin(m * m + 2 * j)));
                landings.Add(new Landing { Drop = drop, Miss = miss, MissDistance = miss.Length, Source =
                    new RowSource("landings.csv", m) });
            }
        }
        return SpotterPatterns.Of(landings, new AccuracyOptions { Replicates = 200, Units = ReportUnits.Of("m", "mps") });
    }

    [Fact]
    public void Each_panel_has_its_mean_miss_ellipse_and_ring_to_one_scale()
    {
        var patterns = Patterns();
        var figure = BiasPlot.Of(patterns);
        var traces = figure.Traces();
        Assert.Equal(4, traces.Count); // base and A: an ellipse and an arrow each; B has too few missions
        Assert.Equal(["x", "x", "x2", "x2"], traces.Select(t => (string?)t!["xaxis"]));
        var mean = patterns.Of("A").Downwind.Value!;
        FigureParts.Near([0, mean.Mean.Across], traces[3]!["x"].Numbers(), 1e-4);
        FigureParts.Near([0, mean.Mean.Along], traces[3]!["y"].Numbers(), 1e-4);
        foreach (var (x, y) in traces[2]!["x"].Numbers().Zip(traces[2]!["y"].Numbers()))
        {
            Assert.True(mean.Holds(Towards(0.99)));
            Assert.False(mean.Holds(Towards(1.01)));

            PlaneVector Towards(double share) =>
                new(mean.Mean.Along + share * (y - mean.Mean.Along), mean.Mean.Across + share * (x - mean.Mean.Across));
        }
        var layout = figure.Layout();
        Assert.Equal(layout["xaxis"]!["range"].Numbers(), layout["yaxis2"]!["range"].Numbers());
        Assert.Equal("x2", (string?)layout["yaxis2"]!["scaleanchor"]);
        Assert.All(layout["shapes"]!.AsArray(), s => Assert.Equal(20, (double)s!["x1"]!)); // half of the radius
        Assert.Contains("1 spotter with fewer than 10 missions", figure.Caption);
        Assert.Contains("15 missions, 30 landings", figure.Caption);
        Assert.Contains("beyond chance after 8 looks (Holm): A.", figure.AlternativeText);
        Assert.Equal("spotter-bias", figure.Data.Name);
    }

    [Fact]
    public void Names_are_escaped()
    {
        var figure = BiasPlot.Of(Patterns("<i>x"));
        Assert.Contains("&lt;i&gt;x", (string?)figure.Layout()["annotations"]!.AsArray()[1]!["text"]);
        Assert.DoesNotContain("<i>", figure.Html());
        Assert.DoesNotContain("<i>", DirectionRose.Of(Patterns("<i>x"), "<i>x").Html());
    }

    [Fact]
    public void The_rose_counts_missions_by_area_with_the_mean_direction()
    {
        var patterns = Patterns();
        var figure = DirectionRose.Of(patterns, "A");
        var bars = figure.Trace("missions");
        Assert.Equal("barpolar", (string?)bars["type"]);
        Assert.Equal(12, bars["customdata"].Numbers().Sum());
        FigureParts.Near([.. bars["customdata"].Numbers().Select(Math.Sqrt)], bars["r"].Numbers());
        Assert.Equal(bars["customdata"].Numbers().Max(), bars["customdata"].Numbers()[0]); // most are long
        var summary = patterns.Of("A").Relative.Summary.Value!;
        Assert.Equal(double.RadiansToDegrees(summary.Mean), figure.Trace("mean direction")["theta"].Numbers()[1], 1e-9);
        var arc = figure.Trace("interval of the mean direction")["theta"].Numbers();
        Assert.Equal(double.RadiansToDegrees(summary.MeanRange!.Value.Low), arc[0], 1e-9);
        Assert.Equal(double.RadiansToDegrees(summary.MeanRange.Value.High), arc[^1], 1e-9);
        Assert.Equal("clockwise", (string?)figure.Layout()["polar"]!["angularaxis"]!["direction"]);
        Assert.Equal(90, (int)figure.Layout()["polar"]!["angularaxis"]!["rotation"]!);
        Assert.Contains("12 missions with a direction, of 12 missions and 24 landings", figure.Caption);
    }

    [Fact]
    public void Few_missions_have_bars_and_no_mean_direction()
    {
        var figure = DirectionRose.Of(Patterns(), "B");
        Assert.Single(figure.Traces());
        Assert.Contains("3 missions: too few", figure.AlternativeText);
        Assert.NotNull(DirectionRose.Of(SpotterPatterns.Of([], new AccuracyOptions())).Json);
        Assert.NotNull(BiasPlot.Of(SpotterPatterns.Of([], new AccuracyOptions())).Json);
    }
}
