namespace JumpAnalytics.Tests;

public sealed class WindBandsTests
{
    private static readonly MeasureUnit _kt = MeasureUnit.Speed("kt");

    [Fact]
    public void A_band_holds_its_lower_edge_and_not_its_upper_one()
    {
        var bands = WindBands.Parse("0, 5,10,15", _kt);
        Assert.Equal(["0-5", "5-10", "10-15", "15+"], bands.Labels);
        Assert.Equal("0-5", bands.LabelOf(0));
        Assert.Equal("0-5", bands.LabelOf(_kt.ToSi(4.999)));
        foreach (var (edge, label) in new[] { (5, "5-10"), (10, "10-15"), (15, "15+") }) Assert.Equal(label, bands.LabelOf(_kt.ToSi(edge)));
        Assert.Equal("15+", bands.LabelOf(1000));
    }

    [Fact]
    public void Winds_below_a_first_edge_above_zero_have_a_band_of_their_own()
    {
        var bands = WindBands.FromLowerEdges([5, 12.5], _kt);
        Assert.Equal(["under 5", "5-12.5", "12.5+"], bands.Labels);
        Assert.Equal("under 5", bands.LabelOf(0));
        Assert.Equal("5-12.5", bands.LabelOf(_kt.ToSi(5)));
        Assert.Equal("12.5+", bands.LabelOf(_kt.ToSi(12.5)));
    }

    [Fact]
    public void One_edge_of_zero_is_one_band()
    {
        var bands = WindBands.FromLowerEdges([0], _kt);
        Assert.Equal(["0+"], bands.Labels);
        Assert.Equal(0, bands.IndexOf(0));
    }

    [Theory]
    [InlineData("")]
    [InlineData("0,five")]
    [InlineData("5,5")]
    [InlineData("10,5")]
    [InlineData("-1,5")]
    [InlineData("0,NaN")]
    public void Edges_that_do_not_rise_are_refused_with_an_example(string edges) =>
        Assert.Contains("0,5,10,15", Assert.Throws<ArgumentException>(() => WindBands.Parse(edges, _kt)).Message, StringComparison.Ordinal);
}
