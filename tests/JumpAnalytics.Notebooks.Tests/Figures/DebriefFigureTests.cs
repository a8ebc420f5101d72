namespace JumpAnalytics.Notebooks.Tests.Figures;

public class DebriefFigureTests
{
    private static readonly JumpLog _demo = JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo"));
    private static readonly Lazy<MissionDebrief> _tracked = new(() => MissionDebrief.Of(_demo));
    private static readonly Lazy<MissionDebrief> _bare = new(() => MissionDebrief.Of(_tracked.Value.Descents, "2026-050"));

    [Fact]
    public void The_map_shows_exits_descents_and_landings_in_two_scales()
    {
        var maps = MissionMap.Of(_tracked.Value);
        Assert.Equal(3, maps.Count);
        var map = maps[1];
        var traces = map.Traces().ToList();
        Assert.Equal(2, traces.Count(t => (string?)t!["name"] == "planned exit"));
        var planned = traces.First(t => (string?)t!["name"] == "planned exit")!;
        Assert.Equal(-310, planned["y"].Numbers()[0], 6); // the planned exit lies the forecast drift upwind of the spot
        Assert.Equal(0, planned["x"].Numbers()[0], 6);
        Assert.Equal(2 * 3, traces.Count(t => ((string?)t!["name"])!.StartsWith("descent", StringComparison.Ordinal)));
        var descent = traces.First(t => ((string?)t!["name"])!.StartsWith("descent", StringComparison.Ordinal))!;
        Assert.Equal("Cividis", (string?)descent["marker"]!["colorscale"]);
        var heights = descent["marker"]!["color"].Numbers();
        Assert.True(heights[0] > heights[^1]);
        Assert.Single(traces, t => t!["marker"]?["showscale"] is { } shown && (bool)shown);
        Assert.Equal("x", (string?)map.Layout()["yaxis"]!["scaleanchor"]);
        Assert.Equal("x2", (string?)map.Layout()["yaxis2"]!["scaleanchor"]);
        Assert.Contains("3 descent tracks, coloured by height above ground", map.Caption);
        Assert.Contains("whose track tells it would have", map.AlternativeText);
        Assert.Empty(map.Tables); // several alike: the numbers stand in the table of all
    }

    [Fact]
    public void Without_tracks_the_map_still_has_plan_exits_and_landings()
    {
        var map = MissionMap.Of(_bare.Value)[0];
        Assert.Contains("No descent track.", map.Caption);
        Assert.DoesNotContain(map.Traces(), t => ((string?)t!["name"])!.StartsWith("descent", StringComparison.Ordinal));
        Assert.Equal(2, map.Traces().First(t => (string?)t!["name"] == "exits")!["x"].Numbers().Length);
    }

    [Fact]
    public void Bars_add_up_to_the_miss()
    {
        var figure = BudgetBars.Of(_tracked.Value.Budgets);
        foreach (var axis in new[] { "x", "x2" })
        {
            var traces = figure.Traces().Where(t => ((string?)t!["xaxis"] ?? "x") == axis)
                .ToDictionary(t => (string)t!["name"]!, t => t!["x"].Numbers());
            for (var i = 0; i < traces["miss"].Length; i++)
                // Four numbers rounded to a hundredth.
                Assert.Equal(traces["miss"][i],
                    traces["exit placement"][i] + traces["forecast error"][i] + traces["steering"][i], tolerance: 0.03);
        }
        Assert.Equal("relative", (string?)figure.Layout()["barmode"]);
        Assert.Equal("miss-budget", figure.Data.Name);
        var together = BudgetBars.Of(_bare.Value.Budgets).Traces().First(t => (string?)t!["name"] == "forecast error and steering")!;
        Assert.Equal("/", (string?)together["marker"]!["pattern"]!["shape"]);
    }

    [Fact]
    public void The_wind_by_height_lies_in_its_band_beside_the_forecasts()
    {
        var profiles = WindProfilePlot.Of(_tracked.Value.Winds);
        Assert.Equal(3, profiles.Count);
        foreach (var name in new[] { "along the drift", "across, + right" })
        {
            var (low, found, high) = (profiles[1].Trace("low " + name)["x"].Numbers(), profiles[1].Trace(name)["x"].Numbers(),
                profiles[1].Trace("band " + name)["x"].Numbers());
            Assert.All(Enumerable.Range(0, found.Length), i => Assert.True(low[i] <= found[i] && found[i] <= high[i]));
        }
        Assert.Equal(2, profiles[1].Trace("forecast along the drift")["x"].Numbers().Distinct().Count() + 1); // one wind for all heights
        Assert.Equal("height above ground (ft)", (string?)profiles[1].Layout()["yaxis"]!["title"]!["text"]);
        Assert.Empty(WindProfilePlot.Of(_bare.Value.Winds));
    }

    [Fact]
    public void Shares_of_sources_are_bars_with_their_intervals()
    {
        var sources = ErrorDecomposition.Of(_demo.Landings, new AccuracyOptions { Replicates = 200 });
        var figure = SourceShares.Of(sources);
        Assert.Equal(sources.Sources.Value!.Select(s => Math.Round(100 * s.Share.Value, 3)), figure.Traces().Single()!["x"].Numbers());
        Assert.Contains("327 missions, 1,478 landings", figure.Caption);
        Assert.Equal("The sources could not be separated.",
            SourceShares.Of(ErrorDecomposition.Of([], new AccuracyOptions())).AlternativeText);
    }
}
