using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ClusterBootstrapTests
{
    // Six litters of Weil (1970), in aod::rats of R: animals and survivors among them.
    private static readonly int[] _n = [9, 7, 10, 6, 10, 7];
    private static readonly int[] _y = [7, 4, 5, 3, 3, 0];

    private static double Ratio(int[] draws)
    {
        int y = 0, n = 0;
        for (var m = 0; m < draws.Length; m++) (y, n) = (y + draws[m] * _y[m], n + draws[m] * _n[m]);
        return (double)y / n;
    }

    /// <summary>The ratio in every one of the 6⁶ = 46,656 resamples, sorted: the bootstrap without chance.</summary>
    private static double[] Exact()
    {
        var values = new List<double>();
        for (var code = 0; code < 46656; code++)
        {
            var draws = new int[6];
            for (int i = 0, rest = code; i < 6; i++, rest /= 6) draws[rest % 6]++;
            values.Add(Ratio(draws));
        }
        return [.. values.Order()];
    }

    private static double Mean(IReadOnlyCollection<double> x) => x.Average();

    private static double Sd(IReadOnlyCollection<double> x)
    {
        var mean = x.Average();
        return Math.Sqrt(x.Average(v => (v - mean) * (v - mean)));
    }

    // All resamples enumerated in base R 4.2.2: mean .447823623224, sd .096531131918, quantiles (inverse of the distribution function).
    [Fact]
    public void The_enumeration_agrees_with_R()
    {
        var exact = Exact();
        Close.Absolute(22 / 49.0, Ratio([1, 1, 1, 1, 1, 1]), 1e-15);
        Close.Absolute(.447823623224, Mean(exact), 1e-12);
        Close.Absolute(.096531131918, Sd(exact), 1e-12);
        foreach (var (share, value) in new[] { (.025, .25), (.05, 13 / 46.0), (.5, .448979591837),
            (.95, .604166666667), (.975, .627450980392) })
            Close.Absolute(value, exact[(int)Math.Ceiling(share * exact.Length) - 1], 1e-12, $"{share}");
    }

    /// <summary>
    /// 10,000 resamples against all of them. The standard deviation of a sample standard deviation is 0.7 % here, that of the mean
    /// .00097: 2.5 % and .004 are passed by chance in fewer than 1 of 1,000 seeds. The seed is fixed.
    /// </summary>
    [Fact]
    public void Resamples_spread_as_the_enumeration_does()
    {
        var drawn = new List<double>();
        var bootstrap = Drawn(draws =>
        {
            Assert.Equal(6, draws.Sum());
            drawn.Add(Ratio(draws));
            return Ratio(draws);
        });
        drawn.RemoveAt(0); // the missions as they are
        Assert.Equal((10_000, 10_000L, false), (drawn.Count, bootstrap.Resamples, bootstrap.IsExact));
        Close.Relative(.096531131918, Sd(drawn), 0.025);
        Close.Absolute(.447823623224, Mean(drawn), 0.004);
        Close.Relative(Sd(drawn) * Math.Sqrt(10_000 / 9_999.0), bootstrap.StandardError!.Value, 1e-10);
        Close.Absolute(Mean(drawn) - 22 / 49.0, bootstrap.Bias!.Value, 1e-12);
    }

    /// <summary>
    /// Each limit lies between the exact quantiles at its tail less and plus four standard errors of a counted share in 10,000: by chance
    /// outside in fewer than 1 of 5,000 seeds. The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(0.95)]
    [InlineData(0.8)]
    public void Limits_are_the_quantiles_at_the_widened_tails(double confidence)
    {
        var exact = Exact();
        var tail = Tail(6, confidence);
        var slack = 4 * Math.Sqrt(tail * (1 - tail) / 10_000);
        var range = Drawn(d => Ratio(d)).Interval(BootstrapMethod.WidenedPercentile, confidence).Range!.Value;
        Assert.InRange(range.Low, At(tail - slack), At(tail + slack));
        Assert.InRange(range.High, At(1 - tail - slack), At(1 - tail + slack));

        double At(double share) => exact[Math.Clamp((int)Math.Ceiling(share * exact.Length) - 1, 0, exact.Length - 1)];
    }

    // Hesterberg (2015): pnorm(-sqrt(M/(M-1)) * qt((1+conf)/2, M-1)), R 4.2.2.
    [Theory]
    [InlineData(5, 0.95, .000954100551882492)]
    [InlineData(6, 0.95, .00243180317461157)]
    [InlineData(15, 0.95, .0132071731268114)]
    [InlineData(30, 0.95, .0187539002782205)]
    [InlineData(5, 0.90, .00857497419118878)]
    [InlineData(15, 0.90, .034141912799494)]
    public void The_tail_is_widened_for_few_missions(int missions, double confidence, double tail) =>
        Close.Relative(tail, Tail(missions, confidence), 1e-9);

    // R 4.2.2: 1.6952e-72; only its smallness matters.
    [Fact]
    public void Two_missions_have_next_to_no_tail() => Assert.InRange(Tail(2, 0.95), 0, 1e-60);

    [Fact]
    public void Same_seed_and_purpose_same_numbers_and_another_of_either_others()
    {
        var first = Draws(1, "a");
        Assert.Equal(first, Draws(1, "a"));
        Assert.NotEqual(first, Draws(2, "a"));
        Assert.NotEqual(first, Draws(1, "b"));

        static List<string> Draws(int seed, string purpose)
        {
            var seen = new List<string>();
            ClusterBootstrap.Of(6, d =>
            {
                seen.Add(string.Join(' ', d));
                return Ratio(d);
            }, new ResampleOptions { Seed = seed, Purpose = purpose, Replicates = 200 });
            return seen;
        }
    }

    [Fact]
    public void No_interval_comes_with_its_reason()
    {
        Assert.Equal("no cluster", ClusterBootstrap.Of(0, _ => 1, _random).Reason);
        Assert.Equal("the figure can't be computed from all clusters", ClusterBootstrap.Of(5, _ => null, _random).Reason);
        Assert.Equal("the figure can't be computed from all clusters", ClusterBootstrap.Of(5, _ => double.NaN, _random).Reason);
        Assert.Contains("single cluster", Why(1, d => d[0]), StringComparison.Ordinal);
        Assert.Contains("limit would lie beyond every resample of 2 clusters", Why(2, d => d[0]), StringComparison.Ordinal);
        Assert.Contains("limit would lie beyond every resample of 3 clusters", Why(3, d => d[0]), StringComparison.Ordinal);
        Assert.Contains("same value", Why(5, _ => 1), StringComparison.Ordinal);
        Assert.Contains("beyond a distance", Why(5, d => d[0] == 0 ? double.PositiveInfinity : d[0]), StringComparison.Ordinal);
        var n = 9;
        Assert.Contains("180 of 200 resamples", Why(5, _ => n++ % 10 == 0 ? null : n), StringComparison.Ordinal);

        static string Why(int missions, Func<int[], double?> figure)
        {
            var bootstrap = ClusterBootstrap.Of(missions, figure, _random).Value!;
            var interval = bootstrap.Interval(BootstrapMethod.WidenedPercentile, 0.95);
            Assert.Null(interval.Range);
            Assert.Equal(bootstrap.Value, interval.Value);
            return interval.WhyNoRange!;
        }
    }

    private static readonly ResampleOptions _random = new() { Replicates = 200, Choice = ResampleChoice.Random };

    private static double Tail(int missions, double confidence) =>
        Normal.CDF(0, 1, -ClusterBootstrap.Widened(missions, (1 + confidence) / 2));

    private static ClusterBootstrap Drawn(Func<int[], double?> figure) =>
        ClusterBootstrap.Of(6, figure,
            new ResampleOptions { Replicates = 10_000, Purpose = "litters", Choice = ResampleChoice.Random }).Value!;
}
