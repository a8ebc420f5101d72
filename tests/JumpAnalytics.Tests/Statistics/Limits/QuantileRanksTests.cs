using System.Globalization;

namespace JumpAnalytics.Tests;

public sealed class QuantileRanksTests
{
    // tests/reference/limits/order-statistic-ranks.csv: R 4.2.2, pbinom().
    [Fact]
    public void Ranks_of_upper_limits_agree_with_R()
    {
        var rows = ReferenceFiles.Rows("limits/order-statistic-ranks.csv").ToList();
        Assert.Equal(104, rows.Count);
        var impossible = 0;
        foreach (var row in rows)
        {
            double At(string column) => double.Parse(row[column], CultureInfo.InvariantCulture);
            var (n, share, confidence) = ((int)At("n"), At("q"), At("conf"));
            var found = QuantileRanks.Upper(n, share, confidence);
            if (row["ucl_rank"] == "NA")
            {
                impossible++;
                Assert.Contains($"needs {QuantileRanks.FewestForUpper(share, confidence)}", found.Reason, StringComparison.Ordinal);
            }
            else
            {
                Assert.Equal((int)At("ucl_rank"), found.Value!.Rank);
                Close.Absolute(At("actual_conf"), found.Value.Confidence, 2e-12, $"n {n}, share {share}, confidence {confidence}");
            }
        }
        Assert.Equal(16, impossible);
    }

    // Hahn and Meeker (1991, Statistical Intervals, tables A.16 to A.17); R 4.2.2.
    [Theory]
    [InlineData(0.90, 0.95, 29, 46)]
    [InlineData(0.95, 0.95, 59, 93)]
    [InlineData(0.99, 0.95, 299, 473)]
    [InlineData(0.90, 0.90, 22, 38)]
    [InlineData(0.95, 0.90, 45, 77)]
    public void Fewest_values_for_the_greatest_and_for_least_and_greatest(double share, double confidence, int upper, int minMax)
    {
        Assert.Equal(upper, QuantileRanks.FewestForUpper(share, confidence));
        Assert.Equal(minMax, QuantileRanks.FewestForMinMax(share, confidence));
        Assert.Equal(upper, QuantileRanks.Upper(upper, share, confidence).Value!.Rank);
        Assert.Null(QuantileRanks.Upper(upper - 1, share, confidence).Value);
        Assert.Equal($"{upper - 1} independent values; an upper limit of the quantile at {share} with confidence "
            + $"{confidence} needs {upper}", QuantileRanks.Upper(upper - 1, share, confidence).Reason);
    }

    [Theory]
    [InlineData(0.90, 64)]
    [InlineData(0.95, 130)]
    public void Fewest_values_between_least_and_greatest_at_99_percent(double share, int minMax) =>
        Assert.Equal(minMax, QuantileRanks.FewestForMinMax(share, 0.99));

    // R 4.2.2: 1 − 2·pbinom(lower − 1, n, .5).
    [Theory]
    [InlineData(20, 6, 15, .9586105347)]
    [InlineData(50, 18, 33, .9671608624)]
    [InlineData(100, 40, 61, .9647997998)]
    public void Ranks_of_limits_of_the_median(int n, int lower, int upper, double confidence)
    {
        var ranks = QuantileRanks.Median(n, 0.95).Value!;
        Assert.Equal((lower, upper), (ranks.Lower, ranks.Upper));
        Close.Absolute(confidence, ranks.Confidence, 1e-10);
    }

    // 1 − 2/2⁵ = .9375 and 1 − 2/2⁶ = .96875.
    [Fact]
    public void Five_values_give_no_limits_of_the_median_at_95_percent_and_six_do()
    {
        Assert.Equal("5 values; limits of the median at 0.95 need 6", QuantileRanks.Median(5, 0.95).Reason);
        Assert.Equal("0 values; limits of the median at 0.95 need 6", QuantileRanks.Median(0, 0.95).Reason);
        Assert.Equal(new MedianRanks(1, 5, 0.9375), Rounded(QuantileRanks.Median(5, 0.9375).Value!));
        Assert.Equal(new MedianRanks(1, 6, 0.96875), Rounded(QuantileRanks.Median(6, 0.95).Value!));

        static MedianRanks Rounded(MedianRanks ranks) => ranks with { Confidence = Math.Round(ranks.Confidence, 10) };
    }

    // Probability by counting: of n fair coins fewer than j heads.
    [Fact]
    public void A_confidence_that_is_met_exactly_counts_as_met()
    {
        Assert.Equal(2, QuantileRanks.FewestForUpper(0.5, 0.75));
        Assert.Equal(2, QuantileRanks.Upper(2, 0.5, 0.75).Value!.Rank);
        Assert.Equal(3, QuantileRanks.Upper(4, 0.5, 11 / 16.0).Value!.Rank);
        Assert.Equal(4, QuantileRanks.Upper(4, 0.5, 11 / 16.0 + 1e-9).Value!.Rank);
        Assert.Null(QuantileRanks.Upper(0, 0.5, 0.9).Value);
    }

    [Theory]
    [InlineData(-1, 0.9, 0.9)]
    [InlineData(5, 0, 0.9)]
    [InlineData(5, double.NaN, 0.9)]
    [InlineData(5, 0.9, 1)]
    public void Arguments_that_can_not_be_are_refused(int n, double share, double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileRanks.Upper(n, share, confidence));

    // ceil(log(1 - c) / log(share)) with mpmath 1.3.0; for least and greatest the least n by bisection at 40 digits.
    [Theory]
    [InlineData(0.999999999, 0.999, 6_907_755_471, 9_233_413_734)]
    [InlineData(0.9, 1 - 1e-12, 263, 296)]
    [InlineData(1 - 1e-15, 0.5, 693_701_640_907_262, 1_679_689_528_630_539)]
    public void Fewest_values_next_to_one_are_found_at_once(double share, double confidence, long upper, long minMax)
    {
        Close.Relative(upper, QuantileRanks.FewestForUpper(share, confidence), 1e-9);
        Close.Relative(minMax, QuantileRanks.FewestForMinMax(share, confidence), 1e-9);
    }

    // R 4.2.2: qbinom(0.95, 1e9, 0.9) + 1 = 900015605; the median's ranks from qbinom(0.025, 2e9, 0.5).
    [Fact]
    public void Ranks_of_a_thousand_million_values()
    {
        Assert.Equal(900_015_605, QuantileRanks.Upper(1_000_000_000, 0.9, 0.95).Value!.Rank);
        Assert.Equal(999_956_174, QuantileRanks.Median(2_000_000_000, 0.95).Value!.Lower);
    }
}
