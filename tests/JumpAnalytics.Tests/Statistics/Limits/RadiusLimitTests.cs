namespace JumpAnalytics.Tests;

public sealed class RadiusLimitTests
{
    /// <summary>Landings at distances 1, 2, 3 ... metres, dealt to missions in turn.</summary>
    private static PlaneSample Dealt(int landings, int missions) =>
        PlaneSample.Of(Enumerable.Range(0, landings).Select(i => new PlaneReading($"m{i % missions}", At(i + 1, i))));

    private static PlaneVector At(double distance, double turn) => new(distance * Math.Cos(turn), distance * Math.Sin(turn));

    // The ranks of tests/reference/limits/order-statistic-ranks.csv for independent values.
    [Theory]
    [InlineData(29, 0.9, 0.95, 29)]
    [InlineData(60, 0.9, 0.95, 59)]
    [InlineData(100, 0.5, 0.9, 57)]
    [InlineData(300, 0.95, 0.9, 291)]
    public void Landings_of_as_many_missions_have_the_exact_limit(int n, double share, double confidence, int rank)
    {
        var limit = RadiusLimit.Of(Dealt(n, n), share, confidence).Value!;
        Close.Relative(rank, limit.UpperLimit, 1e-12);
        Assert.Equal((n, n, (double)n, null), (limit.Clusters, limit.Points, limit.EffectivePoints!.Value, limit.Warning));
        Close.Relative((n + 1 / 3.0) * share + 1 / 3.0, limit.Radius, 1e-12); // type 8 of 1 to n
        Assert.Equal((share, confidence, RadiusLimitMethod.OrderStatistic), (limit.Share, limit.Confidence, limit.Method));
    }

    /// <summary>
    /// Each of 60 missions has three landings at one distance: they tell as much as 60 landings do, and the limit is the 59th distance.
    /// </summary>
    [Fact]
    public void Landings_that_share_their_missions_fate_count_as_one()
    {
        var limit = RadiusLimit.Of(PlaneSample.Of(Enumerable.Range(0, 180).Select(i => new PlaneReading($"m{i % 60}", At(i % 60 + 1, i)))),
            0.9, 0.95).Value!;
        Close.Relative(60, limit.EffectivePoints!.Value, 1e-12);
        Close.Relative(59, limit.UpperLimit, 1e-12);
        Assert.Null(limit.Warning);
    }

    // 15 missions, four landings each, dealt in turn: missions are more alike than by chance, and the design effect is not taken
    // below 1. Divided by (qt(.9, 14)/qnorm(.9))² = 1.10151905164 (R 4.2.2): 60/1.1015 = 54.47; 15 missions alone are fewer than the
    // 22 that a limit of 0.9 takes.
    [Fact]
    public void A_limit_that_rests_on_an_estimated_likeness_says_so()
    {
        var limit = RadiusLimit.Of(Dealt(60, 15), 0.9, 0.9).Value!;
        Close.Relative(60 / 1.10151905164, limit.EffectivePoints!.Value, 1e-10);
        Assert.Equal("falls short if clusters differ more than these 15 seem to; sure whatever they do is a limit from about 22 "
            + "clusters on", limit.Warning);
        Assert.Null(RadiusLimit.Of(Dealt(60, 15), 0.5, 0.9).Value!.Warning);
    }

    [Fact]
    public void What_can_not_be_limited_has_a_reason()
    {
        Assert.Equal("no point", Reason(PlaneSample.Of(Array.Empty<PlaneReading>())));
        Assert.Equal("a single cluster", Reason(Dealt(50, 1)));
        Assert.Equal("all points lie at the same distance",
            Reason(PlaneSample.Of(Enumerable.Range(0, 50).Select(_ => new PlaneVector(3, 4)))));
        Assert.Equal("all 30 points are known only as beyond a distance",
            Reason(PlaneSample.Of(Enumerable.Range(0, 30).Select(i => new PlaneReading($"m{i}", null, 100 + i)))));
        Assert.Equal("20 points of 20 clusters count as 20 independent values; an upper limit of the quantile at 0.9 with confidence 0.9 "
            + "needs 22", RadiusLimit.Of(Dealt(20, 20), 0.9, 0.9).Reason);
        Assert.Contains("needs 22", RadiusLimit.Of(Dealt(30, 2), 0.9, 0.9).Reason, StringComparison.Ordinal);
        Assert.Contains("needs 22", RadiusLimit.Of(Dealt(6, 3), 0.9, 0.9).Reason, StringComparison.Ordinal);
        Assert.Contains("beyond every resample of 2 clusters",
            RadiusLimit.OfBootstrap(Dealt(30, 2), 0.9, 0.9, BootstrapMethod.WidenedPercentile).Reason, StringComparison.Ordinal);

        static string? Reason(PlaneSample sample)
        {
            var reason = RadiusLimit.Of(sample, 0.9, 0.9).Reason;
            Assert.Equal(reason, RadiusLimit.OfBootstrap(sample, 0.9, 0.9).Reason);
            return reason;
        }
    }

    /// <summary>
    /// 40 landings at 1 to 40 m and some beyond 5 m, which rank as the farthest: a limit below them is given, one among them is not.
    /// </summary>
    [Fact]
    public void A_landing_known_only_as_beyond_a_distance_ranks_as_the_farthest()
    {
        static PlaneSample With(int beyond) => PlaneSample.Of(Enumerable.Range(0, 40).Select(i => new PlaneReading($"m{i}", At(i + 1, i)))
            .Concat(Enumerable.Range(0, beyond).Select(i => new PlaneReading($"b{i}", null, 5))));
        Close.Relative(49, RadiusLimit.Of(Dealt(50, 50), 0.9, 0.95).Value!.UpperLimit, 1e-12);
        Assert.Equal("the limit would lie among points known only as beyond a distance", RadiusLimit.Of(With(10), 0.9, 0.95).Reason);
        Assert.Equal("the limit would lie among points known only as beyond a "
            + "distance", RadiusLimit.OfBootstrap(With(10), 0.9, 0.95).Reason);
        var half = RadiusLimit.Of(With(10), 0.5, 0.95).Value!;
        Close.Relative(32, half.UpperLimit, 1e-12); // rank 32 of 50
        Assert.Equal((50, 50), (half.Clusters, half.Points));
        Assert.True(RadiusLimit.OfBootstrap(With(10), 0.5, 0.95).Value!.UpperLimit is > 25 and < 40);
    }

    /// <summary>The limit at 90 % is the upper end of the interval at 80 % over the same resamples.</summary>
    [Theory]
    [InlineData(BootstrapMethod.WidenedBiasCorrected)]
    [InlineData(BootstrapMethod.BiasCorrected)]
    [InlineData(BootstrapMethod.WidenedPercentile)]
    [InlineData(BootstrapMethod.Percentile)]
    public void The_bootstrap_limit_is_the_end_of_an_interval(BootstrapMethod method)
    {
        var sample = Dealt(60, 20);
        var options = new ResampleOptions { Seed = 5, Replicates = 5000 };
        double? MeanRadius(int[] draws) =>
            sample.Placed.Select((m, i) => draws[i % 20] * double.Hypot(m.Along, m.Across)).Sum() / draws.Sum();
        var limit = RadiusLimit.OfBootstrap(sample, 0.9, 0.9, method, options, MeanRadius).Value!;
        var bootstrap = ClusterBootstrap.Of(20, MeanRadius, options).Value!;
        Close.Relative(bootstrap.Interval(method, 0.8).Range!.Value.High, limit.UpperLimit, 1e-12);
        Assert.Equal(bootstrap.Value, limit.Radius);
        Assert.Equal((20, 60, RadiusLimitMethod.ModelBootstrap), (limit.Clusters, limit.Points, limit.Method));
        Assert.Equal(method != BootstrapMethod.WidenedBiasCorrected, limit.Warning is not null);
        Assert.Equal(RadiusLimitMethod.Bootstrap, RadiusLimit.OfBootstrap(sample, 0.9, 0.9, method, options).Value!.Method);
    }

    [Fact]
    public void A_limit_at_the_farthest_landing_and_a_model_that_can_not_be_fitted_are_told()
    {
        Assert.Contains("farthest point", RadiusLimit.OfBootstrap(Dealt(24, 8), 0.95, 0.95).Value!.Warning, StringComparison.Ordinal);
        Assert.Contains("all clusters", RadiusLimit.OfBootstrap(Dealt(24, 8), 0.9, 0.9, model: _ => null).Reason, StringComparison.Ordinal);
        Assert.Contains("could be fitted", RadiusLimit.OfBootstrap(Dealt(24, 8), 0.9, 0.9, model: d => d[0] == 0 ? null : d[0]).Reason,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0.9)]
    [InlineData(1, 0.9)]
    [InlineData(0.9, double.NaN)]
    [InlineData(0.9, 1)]
    public void Arguments_that_can_not_be_are_refused(double share, double confidence)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RadiusLimit.Of(Dealt(60, 20), share, confidence));
        Assert.Throws<ArgumentOutOfRangeException>(() => RadiusLimit.OfBootstrap(Dealt(60, 20), share, confidence));
        Assert.Throws<ArgumentOutOfRangeException>(() => RadiusLimit.OfRayleigh(Dealt(60, 20), share, confidence));
    }
}
