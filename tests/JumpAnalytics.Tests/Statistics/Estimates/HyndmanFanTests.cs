using MathNet.Numerics.Statistics;

namespace JumpAnalytics.Tests;

public sealed class HyndmanFanTests
{
    // R 4.2.2: quantile(c(3.2, 8.1, -4, 22.5, 17, 9.9, 31, .4), c(.1, .5, .85, .95), type = 8).
    [Theory]
    [InlineData(0.1, -3.26666666666667)]
    [InlineData(0.5, 9)]
    [InlineData(0.85, 26.0416666666667)]
    [InlineData(0.95, 31)]
    public void Quantiles_agree_with_type_8_of_R(double share, double expected) =>
        Close.Relative(expected, HyndmanFan.Quantile([3.2, 8.1, -4, 22.5, 17, 9.9, 31, 0.4], share), 1e-14);

    // The numerical library's own R8, which was used before, to the last bit; and resampled points each drawn once.
    [Fact]
    public void It_is_the_definition_used_so_far()
    {
        var random = new Random(20_260_503);
        for (var n = 1; n < 60; n++)
        {
            var sorted = Enumerable.Range(0, n).Select(_ => 100 * random.NextDouble()).Order().ToArray();
            var points = sorted.Select((d, i) => (i, d)).ToArray();
            foreach (var share in new[] { 0, 0.001, 0.1, 1 / 3.0, 0.5, 0.9, 0.95, 0.999, 1 })
            {
                var found = HyndmanFan.Quantile(sorted.Reverse(), share);
                Assert.Equal(SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R8), found);
                Assert.Equal(DrawnQuantile.Of(points, [.. Enumerable.Repeat(1, n)], share)!.Value, found, 1e-12);
            }
        }
    }

    [Fact]
    public void Values_known_only_as_beyond_are_the_farthest()
    {
        double[] values = [10, double.PositiveInfinity, 20, 30, double.PositiveInfinity];
        Assert.Equal(30, HyndmanFan.Quantile(values, 0.5));
        Assert.Equal(double.PositiveInfinity, HyndmanFan.Quantile(values, 0.6));
        Assert.Equal(double.PositiveInfinity, HyndmanFan.Quantile(values, 0.9));
    }

    [Fact]
    public void What_has_no_quantile_is_refused()
    {
        Assert.Throws<ArgumentException>(() => HyndmanFan.Quantile([], 0.5));
        Assert.Throws<ArgumentException>(() => HyndmanFan.Quantile([1, double.NaN], 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => HyndmanFan.Quantile([1], 1.1));
    }
}
