using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ParametricBootstrapTests
{
    /// <summary>
    /// The mean of 50 standard normals beyond 0.2: 1 − Φ(0.2 √50) = 0.0786496 (closed form). The standard error of 3,999 samples is 0.0043;
    /// four of them are exceeded with a probability of 6e-5. The seed is fixed.
    /// </summary>
    [Fact]
    public void A_test_has_its_known_p_value()
    {
        var law = Law(3999, 1, random => Enumerable.Range(0, 50).Average(_ => Normal.Sample(random, 0, 1))).Value!;
        var test = law.Test("mean", 0.2, 50);
        Close.Absolute(1 - Normal.CDF(0, 1, 0.2 * Math.Sqrt(50)), test.PValue, 0.017);
        Close.Absolute(Math.Sqrt(test.PValue * (1 - test.PValue) / 4000), test.Bootstrap!.StandardError, 1e-12);
        Assert.Equal("parametric bootstrap, 3,999 samples with seed 1", test.Method);
    }

    private static Fit<ParametricBootstrap> Law(int replicates, int seed, Func<MathNet.Numerics.Random.RandomSource, double?> statistic) =>
        ParametricBootstrap.Of(replicates, seed, "test", statistic);

    [Theory]
    [InlineData(-1, 1)]
    [InlineData(0, 1)] // all 99 are as large
    [InlineData(0.5, 0.67)] // 66 are
    [InlineData(1, 0.67)]
    [InlineData(1.5, 0.34)]
    [InlineData(2, 0.34)]
    [InlineData(9, 0.01)] // none is
    public void Samples_as_large_count_and_so_does_the_data(double statistic, double p)
    {
        var turn = -1;
        var law = Law(99, 1, _ => Interlocked.Increment(ref turn) % 3).Value!; // 33 each of 0, 1 and 2
        Close.Absolute(p, law.Test("", statistic, 10).PValue, 1e-12);
    }

    [Fact]
    public void Samples_that_can_not_be_fitted_are_counted_and_too_many_refuse_the_test()
    {
        var turn = 0;
        var law = Law(100, 1, _ => Interlocked.Increment(ref turn) <= 5 ? (turn % 2 == 0 ? null : double.NaN) : 1).Value!;
        var test = law.Test("", 2, 10);
        Assert.Equal((100, 5, 1), (test.Bootstrap!.Replicates, test.Bootstrap.Refused, test.Bootstrap.Seed));
        Close.Absolute(1 / 96.0, test.PValue, 1e-12);
        turn = 0;
        Assert.Equal("only 94 of 100 samples drawn from the model could be fitted",
            Law(100, 1, _ => Interlocked.Increment(ref turn) <= 6 ? null : 1).Reason);
    }

    [Fact]
    public void The_seed_fixes_the_numbers_and_the_threads_do_not_matter()
    {
        var one = Law(199, 7, random => random.NextDouble()).Value!;
        var slow = Law(199, 7, random =>
        {
            Thread.Sleep(random.Next(2)); // ends out of order
            return SeedStreamFirst(random);
        });
        Assert.Equal(one.Test("", 0.3, 5), Law(199, 7, random => random.NextDouble()).Value!.Test("", 0.3, 5));
        var other = Law(199, 8, random => random.NextDouble()).Value!;
        Assert.Contains(Enumerable.Range(1, 9), tenth => one.Test("", tenth / 10.0, 5).PValue != other.Test("", tenth / 10.0, 5).PValue);
        Assert.Equal(slow.Value!.Test("", 0.3, 5),
            Law(199, 7, random => { _ = random.Next(2); return SeedStreamFirst(random); }).Value!.Test("", 0.3, 5));

        static double? SeedStreamFirst(Random random) => random.NextDouble();
    }

    [Fact]
    public void No_replicates_are_an_error() => Assert.Throws<ArgumentOutOfRangeException>(() => Law(0, 1, _ => 1));
}
