using NodaTime;

namespace JumpAnalytics.Notebooks.Tests.Figures;

public class ControlChartTests
{
    /// <summary>Missions of three landings on a fixed pattern, the whole of it shifted downwind by some metres.</summary>
    private static IEnumerable<Landing> Missions(int from, int count, double along, string? at = null)
    {
        for (var n = from; n < from + count; n++)
        {
            var drop = new Drop
            {
                Id = $"d{n}", Mission = $"m{n:000}", Season = "2031", Terrain = "timber", TargetRadius = 30, WindSpeed = 3,
                Time = new LocalDateTime(2031, 1, 1, 10, 0).PlusDays(n),
                ForecastDrift = new LocalVector(0, 300), Source = new RowSource("drops.csv", 2), Base = at,
            };
            for (var j = 0; j < 3; j++)
            {
                var (sin, cos) = Math.SinCos(2.4 * (3 * n + j));
                var miss = new LocalVector((14 + 5 * (n % 4)) * sin, (14 + 5 * (n % 4)) * cos + along + 6 * Math.Sin(n));
                yield return new Landing { Drop = drop, Miss = miss, MissDistance = miss.Length,
                    Source = new RowSource("landings.csv", 2) };
            }
        }
    }

    private static readonly MissCharts _charts = MissCharts.Of([.. Missions(0, 12, 0, "A"), .. Missions(12, 18, 30, "B")],
        [.. Missions(100, 60, 0)], new AccuracyOptions(), name: "spotter <b>X</b>");

    [Fact]
    public void Points_limits_signals_and_restarts_are_drawn()
    {
        foreach (var chart in _charts.Made)
        {
            var figure = ControlChart.Of(chart, _charts.Name);
            var statistic = figure.Traces()[0]!;
            Assert.Equal(chart.Points.Select(p => (double)p.Number), statistic["x"].Numbers());
            FigureParts.Near([.. chart.Points.Select(p => p.Upper)], statistic["y"].Numbers(), 6e-5);
            var shapes = figure.Layout()["shapes"]!.AsArray().Select(s => s!).ToList();
            var dashed = shapes.Where(s => (string?)s["line"]!["dash"] == "dash").Select(s => (double)s["y0"]!).ToList();
            Assert.Equal(chart.LowerLimit is { } low ? [chart.UpperLimit, low] : [chart.UpperLimit], dashed);
            var restart = Assert.Single(shapes, s => (string?)s["line"]!["dash"] == "dot");
            Assert.Equal(12.5, (double)restart["x0"]!);
        Assert.Empty(figure.Tables); // the table of all charts has the numbers
        Assert.Equal("chart-points", figure.Data.Name);
            Assert.Equal(chart.Missions, figure.Data.Rows.Count);

            // Everything drawn lies inside the axis.
            var axis = figure.Layout()["yaxis"]!["range"].Numbers();
            Assert.All(figure.Traces().SelectMany(t => t!["y"].Numbers()).Concat(dashed), y => Assert.InRange(y, axis[0], axis[1]));
        }
    }

    [Fact]
    public void Signals_have_a_shape_and_a_word_of_their_own()
    {
        var chart = _charts.Chart(ChartKind.MeanMissAverage).Value!;
        Assert.NotEmpty(chart.Signals);
        var figure = ControlChart.Of(chart, _charts.Name);
        var signals = figure.Trace("signal");
        Assert.Equal("diamond", (string?)signals["marker"]!["symbol"]);
        Assert.Equal(chart.Signals.Select(s => (double)s.At.Number), signals["x"].Numbers());
        Assert.All(signals["text"].Texts(), t => Assert.StartsWith("long", t));
        Assert.Contains("long at mission", figure.AlternativeText);
        Assert.Contains("base B after A", figure.Caption);
        Assert.Contains("30 missions, 90 landings, against 60 missions", figure.Caption);
        Assert.DoesNotContain("<b>", figure.Html());

        // A chart without a signal has no such trace.
        var quiet = MissCharts.Of([.. Missions(0, 6, 0)], [.. Missions(100, 60, 0)], new AccuracyOptions())
            .Chart(ChartKind.MeanMissAverage).Value!;
        Assert.Empty(quiet.Signals);
        Assert.Single(ControlChart.Of(quiet).Traces());
        Assert.Contains("no point passes a limit", ControlChart.Of(quiet).AlternativeText);
    }

    [Fact]
    public void A_learning_curve_is_drawn_with_its_points()
    {
        var curve = LearningCurve.Of([.. Missions(0, 20, 0)], [.. Missions(100, 40, 0)], new AccuracyOptions(), name: "<i>X</i>");
        var figure = LearningPlot.Of(curve);
        Assert.Equal(20, figure.Trace("mission")["x"].Numbers().Length);
        FigureParts.Near([.. curve.Curve], figure.Trace("power law")["y"].Numbers(), 6e-5);
        Assert.Equal("log", (string?)figure.Layout()["yaxis"]!["type"]);
        Assert.DoesNotContain("<i>", figure.Html());
        Assert.Contains("20 missions, 60 landings", figure.Caption);

        var thin = LearningPlot.Of(LearningCurve.Of([.. Missions(0, 3, 0)], [.. Missions(100, 40, 0)], new AccuracyOptions()));
        Assert.Single(thin.Traces());
    }
}
