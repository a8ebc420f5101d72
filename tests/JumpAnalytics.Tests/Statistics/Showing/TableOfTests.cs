namespace JumpAnalytics.Tests;

public sealed class TableOfTests
{
    private sealed record Coin(string Name, int Year, double[] Sizes);

    private static readonly TableColumn _name = new("name", "name", CellFormat.Text, "A name.");
    private static readonly TableColumn _year = new("year", "year", CellFormat.Count, "A year.");

    private static readonly Coin[] _coins = [new("penny", 1901, [1, 2]), new("crown", 1887, [3, 4])];

    [Fact]
    public void A_column_holds_what_its_function_says_of_each_item()
    {
        TableView table = new TableOf<Coin>("coins", "Coins", _coins, "A note.") { { _year, c => c.Year }, { _name, c => c.Name } };
        Assert.Equal(("coins", "Coins", "A note."), (table.Name, table.Title, table.Note));
        Assert.Equal("year,name\n1901,penny\n1887,crown\n", table.ToCsv());
    }

    [Theory]
    [InlineData(true, "name,year\npenny,1901\ncrown,1887\n")]
    [InlineData(false, "name\npenny\ncrown\n")]
    public void A_column_that_is_not_wanted_is_left_out(bool wanted, string csv) =>
        Assert.Equal(csv,
            new TableOf<Coin>("coins", "Coins", _coins) { { _name, c => c.Name }, { wanted, _year, c => c.Year } }.View().ToCsv());

    [Fact]
    public void Each_key_makes_a_column_in_its_place()
    {
        var table = new TableOf<Coin>("coins", "Coins", _coins)
        {
            { _name, c => c.Name },
            { ["thin", "wide"], k => new TableColumn(k, k, CellFormat.Number, "A size."), (c, k) => c.Sizes[k == "thin" ? 0 : 1] },
            { _year, c => c.Year },
        };
        Assert.Equal("name,thin,wide,year\npenny,1,2,1901\ncrown,3,4,1887\n", table.View().ToCsv());
    }

    [Fact]
    public void Without_items_it_keeps_its_header() =>
        Assert.Equal("name,year\n",
            new TableOf<Coin>("coins", "Coins", []) { { _name, c => c.Name }, { _year, c => c.Year } }.View().ToCsv());

    /// <summary>A note that tells of intervals says so where no row has one; numbers without limit have a word.</summary>
    [Fact]
    public void Intervals_that_no_row_has_are_not_announced_in_vain()
    {
        var column = new TableColumn("x", "x", CellFormat.Range, "A number.");
        TableView Of(params object?[] cells) => new("t", "T", [column], [.. cells.Select(c => new[] { c })], "Intervals at 95 %.");
        Assert.Equal("Intervals at 95 %. Too little is on record for an interval here.", Of(Estimate.WithoutRange(1, "few"), null).Note);
        Assert.Equal("Intervals at 95 %.", Of(Estimate.WithoutRange(1, "few"), Estimate.Of(1, new Interval(0, 2))).Note);
        Assert.Equal("Intervals at 95 %.", Of().Note);
        var endless = new TableView("t", "T", [column with { Format = CellFormat.Number }], [[double.PositiveInfinity], [double.NaN]]);
        Assert.Equal("x\ninf\n\n", endless.ToCsv());
        Assert.Contains("unlimited", endless.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", endless.ToString(), StringComparison.Ordinal);
    }
}
