using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics.Tests;

public sealed class MissSummaryTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 300 };

    private static List<Landing> Missions(params double[][] distances)
    {
        var landings = new List<Landing>();
        for (var m = 0; m < distances.Length; m++)
        {
            var drop = Made.Drop($"d{m}", $"m{m}");
            landings.AddRange(
                distances[m].Select((d, j) => Made.Landing(drop, LocalVector.FromPolar(d, Bearing.FromDegrees(77 * j + 31 * m)))));
        }
        return landings;
    }

    // quantile(c(12,5,31,18,44,9,27,50,22,3), c(.5,.85,.95), type = 8), R 4.2.2: 20, 44.7 and 50; the type's plotting positions by
    // Hyndman and Fan (1996, The American Statistician 50:361-365).
    [Fact]
    public void Distances_are_quantiles_of_type_8()
    {
        var summary = MissSummary.Of("2031", Missions([12, 5, 31], [18, 44], [9, 27, 50, 22], [3]), _options);
        Assert.Equal([50, 85, 95], MissSummary.Percents);
        Close.Relative(20, summary.MissQuantiles[0].Value!.Value, 1e-12);
        Close.Relative(44.7, summary.MissQuantiles[1].Value!.Value, 1e-12);
        Close.Relative(50, summary.MissQuantiles[2].Value!.Value, 1e-12);
    }

    /// <summary>
    /// Eight placed landings at 10 to 80 m and two beyond 30 m, which rank as the farthest: the median is exact, higher shares may not be.
    /// </summary>
    [Fact]
    public void A_censored_landing_ranks_as_the_farthest()
    {
        var landings = Missions([10, 20, 30], [40, 50], [60, 70, 80]);
        landings.Add(Made.Beyond(landings[0].Drop, 30));
        landings.Add(Made.Beyond(landings[3].Drop, 30));
        var summary = MissSummary.Of("2031", landings, _options);
        Assert.Equal((8, 2, 0), (summary.Placed, summary.BeyondMisses, summary.Undecided));
        Close.Relative(55, summary.MissQuantiles[0].Value!.Value, 1e-12); // between the 5th, 50 m, and the 6th, 60 m, of ten
        Assert.Equal("2 of 10 landings are known only as beyond a distance", summary.MissQuantiles[1].Reason);
        Assert.Equal("2 of 10 landings are known only as beyond a distance", summary.MissQuantiles[2].Reason);
    }

    [Fact]
    public void A_limit_among_censored_landings_is_not_given()
    {
        var landings = Missions([10, 12], [14, 16], [18, 20], [22, 24], [26, 28]);
        landings.AddRange(landings.Where((_, i) => i % 5 == 0).Select(l => Made.Beyond(l.Drop, 30)).ToList());
        var half = MissSummary.Of("2031", landings, _options).MissQuantiles[0].Value!;
        var most = MissSummary.Of("2031", landings, _options with { Confidence = 0.999 }).MissQuantiles[1];
        Assert.NotNull(half.Range);
        Assert.True(!most.Success || most.Value.WhyNoRange!.Contains("beyond a distance", StringComparison.Ordinal));
    }

    /// <summary>
    /// The same interval the long way: draw the missions from the same stream, write out the landings of a resample as often as their
    /// mission was drawn, take Math.NET's type 8 of them, and of those the type 8 at the widened tails.
    /// </summary>
    [Theory]
    [InlineData(0, 0.50)]
    [InlineData(1, 0.85)]
    [InlineData(2, 0.95)]
    public void The_interval_is_that_of_landings_written_out(int index, double share)
    {
        double[][] missions = [[4, 9, 13], [30, 41], [2, 3, 3.5, 55], [17, 22, 25], [60], [8, 12], [19, 21]];
        var summary = MissSummary.Of("2031", Missions(missions), _options);

        const int block = 250; // resamples of one stream
        var random = new Random();
        var quantiles = new double[_options.Replicates];
        for (var b = 0; b < quantiles.Length; b++)
        {
            if (b % block == 0) random = SeedStream.For(_options.Seed, $"distances of season 2031, block {b / block}");
            quantiles[b] = Enumerable.Range(0, missions.Length).SelectMany(_ => missions[random.Next(missions.Length)])
                .QuantileCustom(share, QuantileDefinition.R8);
        }
        var tail = Normal.CDF(0, 1, -ClusterBootstrap.Widened(missions.Length, (1 + _options.Confidence) / 2));

        var range = summary.MissQuantiles[index].Value!.Range!.Value;
        Close.Relative(quantiles.QuantileCustom(tail, QuantileDefinition.R8), range.Low, 1e-12);
        Close.Relative(quantiles.QuantileCustom(1 - tail, QuantileDefinition.R8), range.High, 1e-12);
        Assert.True(range.Low < range.High);
    }

    [Fact]
    public void No_placed_landing_has_neither_bias_nor_distance()
    {
        var summary = MissSummary.Of("2031", [Made.Beyond(Made.Drop(), 50)], _options);
        Assert.False(summary.BiasDownwind.Success);
        Assert.All(summary.MissQuantiles, q => Assert.False(q.Success));
        Assert.Equal((0, 1, 0), (summary.Placed, summary.BeyondMisses, summary.Undecided));
    }

    [Fact]
    public void One_mission_has_a_bias_without_interval()
    {
        var bias = MissSummary.Of("2031", Missions([10, 20]), _options).BiasRight.Value!;
        Assert.Null(bias.Range);
        Assert.Equal("a single mission", bias.WhyNoRange);
    }
}
