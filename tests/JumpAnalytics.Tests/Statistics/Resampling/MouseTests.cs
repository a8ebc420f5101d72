namespace JumpAnalytics.Tests;

/// <summary>
/// The mice of Efron and Tibshirani (1993, An Introduction to the Bootstrap, table 2.1), survival in days; a mouse stands for a mission.
/// All 7⁷ = 823,543 resamples of the treated ones are looked at, so that nothing hangs on chance. Expected numbers: the distribution of the
/// sum of seven draws by convolution, scipy 1.10.1 and R 4.2.2.
/// </summary>
public sealed class MouseTests
{
    private static readonly double[] _treated = [94, 197, 16, 38, 99, 141, 23];
    private static readonly double[] _control = [52, 104, 146, 10, 50, 31, 40, 27, 46];

    private static readonly ClusterBootstrap _mean = ClusterBootstrap.Of(7, Mean(_treated), new ResampleOptions()).Value!;

    private static Func<int[], double?> Mean(double[] values) => draws =>
    {
        var (sum, n) = (0.0, 0);
        for (var m = 0; m < draws.Length; m++) (sum, n) = (sum + draws[m] * values[m], n + draws[m]);
        return n > 0 ? sum / n : null;
    };

    private static double? Median(int[] draws)
    {
        var drawn = _treated.SelectMany((v, m) => Enumerable.Repeat(v, draws[m])).Order().ToList();
        return drawn[drawn.Count / 2];
    }

    [Fact]
    public void All_resamples_are_counted_and_their_spread_is_the_books()
    {
        Assert.True(_mean.IsExact);
        Assert.Equal((7, 823_543), (_mean.Clusters, _mean.Resamples));
        Close.Relative(86.857142857143, _mean.Value, 1e-13);
        Close.Relative(23.3635234373, _mean.StandardError!.Value, 1e-11); // √(6/7) of the book's 25.24
        Close.Absolute(0, _mean.Bias!.Value, 1e-11);
        Close.Absolute(.0183013440987, _mean.BiasCorrection(TieRule.Strict)!.Value, 1e-12);
        Close.Absolute(.0306626001326, _mean.BiasCorrection(TieRule.Half)!.Value, 1e-12);
    }

    [Theory]
    [InlineData(BootstrapMethod.Percentile, TieRule.Half, 0.90, 49.4285714286, 126.714285714)]
    [InlineData(BootstrapMethod.Percentile, TieRule.Half, 0.95, 43.4285714286, 134.428571429)]
    [InlineData(BootstrapMethod.WidenedPercentile, TieRule.Half, 0.90, 41, 137.571428571)]
    [InlineData(BootstrapMethod.WidenedPercentile, TieRule.Half, 0.95, 32, 151.571428571)]
    [InlineData(BootstrapMethod.BiasCorrected, TieRule.Strict, 0.90, 51.8571428571, 129.571428571)]
    [InlineData(BootstrapMethod.BiasCorrected, TieRule.Strict, 0.95, 46.1428571429, 137.571428571)]
    [InlineData(BootstrapMethod.BiasCorrected, TieRule.Half, 0.90, 52.2857142857, 130.142857143)]
    [InlineData(BootstrapMethod.BiasCorrected, TieRule.Half, 0.95, 46.2857142857, 138.285714286)]
    [InlineData(BootstrapMethod.WidenedBiasCorrected, TieRule.Half, 0.90, 44.1428571429, 143.142857143)]
    [InlineData(BootstrapMethod.WidenedBiasCorrected, TieRule.Strict, 0.95, 35.1428571429, 158.285714286)]
    public void The_limits_of_the_mean_are_exact(BootstrapMethod method, TieRule ties, double confidence, double low, double high)
    {
        var range = _mean.Interval(method, confidence, ties).Range!.Value;
        Close.Relative(low, range.Low, 1e-10, "low");
        Close.Relative(high, range.High, 1e-10, "high");
    }

    [Fact]
    public void The_control_group_has_the_books_mean_and_standard_error()
    {
        // 17! / (9! 8!) resamples differ.
        var bootstrap = ClusterBootstrap.Of(9, Mean(_control), new ResampleOptions { Replicates = 24_310 }).Value!;
        Assert.True(bootstrap.IsExact);
        Assert.Equal(387_420_489, bootstrap.Resamples); // 9⁹
        Close.Relative(56.2222222222, bootstrap.Value, 1e-11); // book 56.22
        Close.Relative(14.1389707485 * Math.Sqrt(8 / 9.0), bootstrap.StandardError!.Value, 1e-11); // book 14.14 with the divisor n − 1
        Close.Relative(14.1389707485, ClusterJackknife.Of(9, Mean(_control)).Value!.StandardError, 1e-11);
    }

    // P* of the median by the binomial formula of Efron (1979); the book's standard deviation 37.83.
    [Fact]
    public void The_law_of_the_median_is_exact()
    {
        var law = new SortedDictionary<double, long>();
        var draws = new int[7];
        Assert.Equal(823_543, ClusterResamples.All(draws,
            ways => law[Median(draws)!.Value] = law.GetValueOrDefault(Median(draws)!.Value) + ways));
        Assert.Equal([16, 23, 38, 94, 99, 141, 197], law.Keys);
        double[] expected = [.0101500468099, .0981235952464, .238626276952, .306200161983, .238626276952, .0981235952464, .0101500468099];
        foreach (var (ways, share) in law.Values.Zip(expected)) Close.Relative(share, ways / 823_543.0, 1e-11);

        var bootstrap = ClusterBootstrap.Of(7, Median, new ResampleOptions()).Value!;
        Close.Relative(37.8346743939, bootstrap.StandardError!.Value, 1e-11);
        var upTo = 0L;
        foreach (var (value, ways) in law)
        {
            Assert.Equal(value, bootstrap.Quantile((upTo + 0.5) / 823_543));
            Assert.Equal(value, bootstrap.Quantile((upTo + ways - 0.5) / 823_543));
            upTo += ways;
        }
    }

    /// <summary>
    /// The law of the median is symmetric in its ranks: with half the ties there is no bias to correct; strictly counted, Φ⁻¹(.346899919).
    /// </summary>
    [Fact]
    public void Ties_of_a_median_make_no_bias_unless_counted_strictly()
    {
        var bootstrap = ClusterBootstrap.Of(7, Median, new ResampleOptions()).Value!;
        Close.Absolute(0, bootstrap.BiasCorrection(TieRule.Half)!.Value, 1e-12);
        Close.Absolute(-.3937036611716, bootstrap.BiasCorrection(TieRule.Strict)!.Value, 1e-11);
    }

    // Number of resamples that differ, (2M−1)!/(M!(M−1)!): 3, 10, 35, 126, 462, 1716, 6435 for 2 to 8 missions.
    [Fact]
    public void Every_resample_is_looked_at_when_they_are_few()
    {
        Assert.Equal([1, 3, 10, 35, 126, 462, 1716, 6435, 24310, 92378], Enumerable.Range(1, 10).Select(ClusterResamples.Different));
        Assert.Equal(77_558_760, ClusterResamples.Different(15));
        for (var missions = 1; missions <= 9; missions++)
        {
            var (draws, seen) = (new int[missions], new HashSet<string>());
            var all = ClusterResamples.All(draws, ways =>
            {
                Assert.Equal(missions, draws.Sum());
                Assert.True(ways > 0 && seen.Add(string.Join(' ', draws)));
            });
            Assert.Equal((long)Math.Round(Math.Pow(missions, missions)), all);
            Assert.Equal(ClusterResamples.Different(missions), seen.Count);
        }
        Assert.True(Of(7, new ResampleOptions()).IsExact);
        Assert.False(Of(8, new ResampleOptions()).IsExact);
        Assert.True(Of(8, new ResampleOptions { Replicates = 6435 }).IsExact);
        Assert.False(Of(7, new ResampleOptions { Choice = ResampleChoice.Random }).IsExact);

        static ClusterBootstrap Of(int missions, ResampleOptions options) => ClusterBootstrap.Of(missions, d => d[0], options).Value!;
    }

    [Fact]
    public void Random_resamples_are_the_same_on_every_thread()
    {
        var options = new ResampleOptions { Choice = ResampleChoice.Random, Replicates = 500, Seed = 3 };
        var found = new Estimate[16];
        Parallel.For(0, found.Length, new ParallelOptions { MaxDegreeOfParallelism = 4 },
            i => found[i] = ClusterBootstrap.Of(7, Mean(_treated), options).Value!.Interval(BootstrapMethod.WidenedBiasCorrected, 0.9));
        Assert.Single(found.Distinct());
        Assert.NotNull(found[0].Range);
    }
}
