namespace JumpAnalytics.Tests;

/// <summary>Factors to SI.</summary>
public sealed class MeasureUnitTests
{
    // NIST Special Publication 811 (2008), appendix B: foot 0.3048 m and nautical mile 1852 m, both exact; yard 3 ft, chain 66 ft,
    // statute mile 5280 ft.
    [Theory]
    [InlineData("m", 1)]
    [InlineData("km", 1000)]
    [InlineData("ft", 0.3048)]
    [InlineData("yd", 0.9144)]
    [InlineData("ch", 20.1168)]
    [InlineData("mi", 1609.344)]
    [InlineData("nm", 1852)]
    public void Distances(string suffix, double metres)
    {
        Close.Relative(metres, MeasureUnit.Distance(suffix).ToSi(1), 1e-14);
        Close.Relative(metres, MeasureUnit.Distance(suffix.ToUpperInvariant()).Si, 1e-14);
        Close.Relative(1, MeasureUnit.Distance(suffix).FromSi(metres), 1e-14);
    }

    // NIST Special Publication 811 (2008), appendix B: mile per hour 0.44704 m/s exact, knot 1852/3600 m/s.
    [Theory]
    [InlineData("mps", 1)]
    [InlineData("mph", 0.44704)]
    [InlineData("kt", 1852.0 / 3600)]
    public void Speeds(string suffix, double metresPerSecond) => Close.Relative(metresPerSecond, MeasureUnit.Speed(suffix).ToSi(1), 1e-14);

    [Fact]
    public void The_suffixes_are_those_of_the_log()
    {
        Assert.Equal(["ch", "ft", "km", "m", "mi", "nm", "yd"], MeasureUnit.Distances.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["kt", "mph", "mps"], MeasureUnit.Speeds.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["min", "s"], MeasureUnit.Times.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(60, MeasureUnit.Times["min"].Si);
    }

    [Fact]
    public void An_unknown_unit_is_refused_with_those_there_are()
    {
        var error = Assert.Throws<ArgumentException>(() => MeasureUnit.Distance("rod"));
        Assert.Contains("'rod'", error.Message, StringComparison.Ordinal);
        Assert.Contains("ch, ft, km, m, mi, nm, yd", error.Message, StringComparison.Ordinal);
        Assert.Contains("kt, mph, mps", Assert.Throws<ArgumentException>(() => ReportUnits.Of("yd", "kph")).Message,
            StringComparison.Ordinal);
    }

    // Common practice in the trade, no source: 5 mph of drift wind for a descent of 90 s is 660 ft.
    [Fact]
    public void Five_mph_for_ninety_seconds_is_660_feet() =>
        Close.Relative(660, MeasureUnit.Distance("ft").FromSi(MeasureUnit.Speed("mph").ToSi(5) * 90), 1e-12);

    // Common practice in the trade, no source: a canopy flown at 4 mph reaches 528 ft in 90 s.
    [Fact]
    public void Four_mph_for_ninety_seconds_reaches_528_feet() =>
        Close.Relative(528, MeasureUnit.Distance("ft").FromSi(MeasureUnit.Speed("mph").ToSi(4) * 90), 1e-12);
}
