namespace JumpAnalytics.Tests;

/// <summary>Numbers whose unit nobody knows: two digits of the interval's width, else five digits.</summary>
public sealed class ResultTextTests
{
    [Theory]
    [InlineData(12.3456, 12, 13, "12.3")]
    [InlineData(12.3456, 12.0, 12.5, "12.35")]
    [InlineData(12.3456, 7, 17, "12")]
    [InlineData(-12.3456, -13, -12, "−12.3")]
    [InlineData(12.3456, 12.3456, 12.3456, "12.346")] // no width
    [InlineData(12.3456, 13, 12, "12.346")]
    [InlineData(12.3456, double.NegativeInfinity, 13, "12.346")]
    [InlineData(0.5, 0, 1e-6, "0.5000000")] // the widths from which and to which two digits are given
    [InlineData(0.5, 0, 9e-7, "0.5")]
    [InlineData(123456.7, 0, 1e5, "123457")]
    [InlineData(123456.7, 0, 1.1e5, "123,457")]
    public void A_number_with_its_interval(double value, double low, double high, string text) =>
        Assert.Equal(text, ResultText.Number(value, new Interval(low, high)));

    [Theory]
    [InlineData(99999.4, "99999")]
    [InlineData(1e5, "100,000")]
    [InlineData(-1e5, "−100,000")]
    [InlineData(9.99e14, "999,000,000,000,000")]
    [InlineData(1e15, "1E+15")]
    [InlineData(0.0000123456, "1.2346E−05")]
    public void A_number_alone(double value, string text) => Assert.Equal(text, ResultText.Number(value));
}
