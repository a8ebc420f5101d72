namespace JumpAnalytics.Tests;

public sealed class RoundingTests
{
    private static Estimate Of(double value, double low, double high) => Estimate.Of(value, new Interval(low, high));

    [Theory]
    [InlineData(0.823, 0.77, 0.86, "82 % (77 to 86 %)")]
    [InlineData(0.823, 0.8221, 0.8239, "82.30 % (82.21 to 82.39 %)")] // half a tenth of a point: two decimals
    [InlineData(0.5, 0, 1, "50 % (0 to 100 %)")]
    [InlineData(0.823, 0.82, 0.829, "82.3 % (82.0 to 82.9 %)")]
    [InlineData(1, 1, 1, "100 % (100 to 100 %)")]
    public void A_share_has_the_digits_its_interval_supports(double value, double low, double high, string text) =>
        Assert.Equal(text, Rounding.Percent(Of(value, low, high)));

    [Theory]
    [InlineData(-0.0213, -0.07, 0.03, "−2 (−7 to +3)")]
    [InlineData(0.001, -0.05, 0.05, "0 (−5 to +5)")]
    [InlineData(-0.001, -0.05, 0.05, "0 (−5 to +5)")]
    [InlineData(0.004, 0.0001, 0.0079, "+0.40 (+0.01 to +0.79)")]
    public void A_change_is_in_points_with_its_sign(double value, double low, double high, string text) =>
        Assert.Equal(text, Rounding.Points(Of(value, low, high)));

    [Theory]
    [InlineData(24.4, 21.2, 27.3, false, "24 (21 to 27)")]
    [InlineData(1234.5, 1100, 1400, false, "1,235 (1,100 to 1,400)")]
    [InlineData(-3.25, -4.1, -2.4, true, "−3.3 (−4.1 to −2.4)")]
    [InlineData(3.25, -0.4, 6.9, true, "+3.3 (−0.4 to +6.9)")] // a limit keeps its sign
    public void A_number_has_the_digits_its_interval_supports(double value, double low, double high, bool signed, string text) =>
        Assert.Equal(text, Rounding.Number(Of(value, low, high), signed));

    [Fact]
    public void Without_an_interval_no_decimals()
    {
        Assert.Equal("82 %", Rounding.Percent(Estimate.WithoutRange(0.823, "x")));
        Assert.Equal("24", Rounding.Number(Estimate.WithoutRange(24.4, "x")));
        Assert.Equal("−2", Rounding.Points(Estimate.WithoutRange(-0.02, "x")));
    }

    [Theory]
    [InlineData(-0.04, 1, "0.0")]
    [InlineData(-0.05, 1, "−0.1")]
    [InlineData(2.5, 0, "3")]
    [InlineData(1234567.891, 2, "1,234,567.89")]
    [InlineData(0, 0, "0")]
    public void Fixed_numbers_are_never_minus_zero(double value, int decimals, string text) =>
        Assert.Equal(text, Rounding.Fixed(value, decimals));

    [Theory]
    [InlineData(1, "1 landing")]
    [InlineData(0, "0 landings")]
    [InlineData(1430, "1,430 landings")]
    public void Counts_agree_with_their_noun(long n, string text) => Assert.Equal(text, Rounding.Count(n, "landing"));
}
