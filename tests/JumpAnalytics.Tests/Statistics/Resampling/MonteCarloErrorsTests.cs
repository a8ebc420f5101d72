namespace JumpAnalytics.Tests;

public sealed class MonteCarloErrorsTests
{
    private static readonly double[] _values = [.. Enumerable.Range(0, 40).Select(i => Math.Exp(i / 15.0) + i % 7)];

    private static ClusterBootstrap Bootstrap(int replicates, int seed) => ClusterBootstrap.Of(_values.Length,
        draws => draws.Select((n, i) => n * _values[i]).Sum() / _values.Length,
        new ResampleOptions { Replicates = replicates, Seed = seed }).Value!;

    // The spread of the limits over 200 seeds is what the stated errors say on average, to 25 %: the spread itself is known to 5 %.
    [Theory]
    [InlineData(BootstrapMethod.Percentile, 500)]
    [InlineData(BootstrapMethod.WidenedPercentile, 2000)]
    public void Stated_errors_are_the_spread_over_seeds(BootstrapMethod method, int replicates)
    {
        var made = Enumerable.Range(0, 200).Select(seed => Bootstrap(replicates, seed))
            .Select(b => (Range: b.Interval(method, 0.9).Range!.Value, Errors: b.ErrorsOf(method, 0.9).Value!)).ToList();
        Close.Relative(Spread(made.Select(m => m.Range.Low)), made.Average(m => m.Errors.Low), 0.25);
        Close.Relative(Spread(made.Select(m => m.Range.High)), made.Average(m => m.Errors.High), 0.25);

        static double Spread(IEnumerable<double> values)
        {
            var all = values.ToList();
            return Math.Sqrt(all.Sum(v => (v - all.Average()) * (v - all.Average())) / (all.Count - 1));
        }
    }

    [Fact]
    public void A_warning_comes_where_the_resamples_are_too_few()
    {
        Assert.Null(Bootstrap(5000, 1).ErrorsOf(BootstrapMethod.Percentile, 0.9).Value!.Warning);
        Assert.Contains("of its distance from the estimate; take more resamples",
            Bootstrap(200, 1).ErrorsOf(BootstrapMethod.Percentile, 0.8).Value!.Warning, StringComparison.Ordinal);
        Assert.Equal("fewer than 10 of the 2000 resamples lie beyond a limit: more resamples would move it",
            Bootstrap(2000, 1).ErrorsOf(BootstrapMethod.Percentile, 0.9999).Value!.Warning);
    }

    [Fact]
    public void All_resamples_leave_nothing_to_chance_and_one_cluster_has_no_limit()
    {
        var exact = ClusterBootstrap.Of(5, draws => draws.Select((n, i) => n * _values[i]).Sum(), new ResampleOptions()).Value!;
        Assert.Equal(new MonteCarloErrors(0, 0, null), exact.ErrorsOf(BootstrapMethod.Percentile, 0.9).Value);
        Assert.Equal("a single cluster", ClusterBootstrap.Of(1, _ => 3, new ResampleOptions()).Value!
            .ErrorsOf(BootstrapMethod.Percentile, 0.9).Reason);
    }
}
