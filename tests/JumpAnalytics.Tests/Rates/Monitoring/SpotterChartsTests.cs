using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests.Monitoring;

public sealed class SpotterChartsTests
{
    private static readonly Lazy<SpotterCharts> _demo = new(() => SpotterCharts.Of(DemoLog.Log.Landings, new AccuracyOptions()));

    /// <summary>
    /// S04 reads the drift wind low and comes down 22 yd long in truth, throughout; nobody else differs. The others' charts are 28, with
    /// 2.4 expected to signal by chance; more than 8 would have a chance of about 1 in 1,000 if they were independent.
    /// </summary>
    [Fact]
    public void The_demo_shows_the_planted_spotter()
    {
        var charts = _demo.Value;
        Assert.Equal(8, charts.Spotters.Count);
        var planted = charts.Spotters.Single(s => s.Name == "spotter S04");
        var mean = planted.Chart(ChartKind.MeanMissAverage).Value!;
        Assert.True(mean.Signals.Count >= 3);
        Assert.All(mean.Signals, s => Assert.StartsWith("long", s.Direction, StringComparison.Ordinal));
        Assert.Equal("wider", planted.Chart(ChartKind.DistanceAverage).Value!.Signals[0].Direction);
        Assert.All(planted.Chart(ChartKind.HitSums).Value!.Signals, s => Assert.Equal("fewer hits", s.Direction));
        Assert.InRange(charts.Spotters.Where(s => s != planted).SelectMany(s => s.Made).Count(c => c.Signals.Count > 0), 0, 8);
        Assert.InRange(charts.ExpectedFalse, 1.5, 4);
        Assert.Contains("by chance", charts.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_mission_with_a_landing_is_a_point_once()
    {
        foreach (var spotter in _demo.Value.Spotters)
        {
            foreach (var chart in spotter.Made)
            {
                Assert.Equal(chart.Points.Count, chart.Points.Select(p => p.Mission).Distinct().Count());
                Assert.Equal(Enumerable.Range(1, chart.Missions), chart.Points.Select(p => p.Number));
                Assert.True(chart.Points.Zip(chart.Points.Skip(1)).All(p => p.First.Time <= p.Second.Time));
            }
        }
    }

    [Fact]
    public void Spotters_with_few_missions_are_named_and_not_charted()
    {
        var made = new MadeMissions(SeedStream.For(1, "few"));
        var charts = SpotterCharts.Of([.. made.Missions(40, "a"), .. made.Missions(4, "b"), .. made.Missions(30)], new AccuracyOptions());
        Assert.Equal(["b"], charts.TooFew);
        Assert.Contains("the reference has 4 missions", charts.Reading, StringComparison.Ordinal);
        Assert.Equal("No spotter has 5 missions to chart.", SpotterCharts.Of([], new AccuracyOptions()).Reading);
    }
}
