namespace JumpAnalytics.Tests;

public sealed class CellTests
{
    private static readonly WindBands _bands = WindBands.FromLowerEdges([0, 5], MeasureUnit.Speed("mps"));

    [Fact]
    public void Cells_of_the_same_band_and_terrain_are_equal()
    {
        Assert.Equal(new Cell("0-5", "grass"), new Cell(string.Concat("0-", "5"), "grass"));
        Assert.NotEqual(new Cell("0-5", "grass"), new Cell("5+", "grass"));
        Assert.NotEqual(new Cell("0-5", "grass"), new Cell("0-5", "Grass"));
        Assert.NotEqual(new Cell("0-5", "all"), new Cell("all", "0-5"));
        Assert.Single(new HashSet<Cell> { new("0-5", "grass"), new("0-5", "grass") });
    }

    [Fact]
    public void The_default_is_the_whole()
    {
        Assert.Equal(default, Cell.All);
        Assert.Equal(new Cell("all", "all"), Cell.All);
        Assert.Equal(("all", "all"), (default(Cell).WindBand, default(Cell).Terrain));
    }

    [Theory]
    [InlineData("0-5", "grass", false, false, false, false)]
    [InlineData("0-5", "all", true, true, false, false)]
    [InlineData("all", "grass", true, false, true, false)]
    [InlineData("all", "all", true, false, false, true)]
    public void A_cell_knows_whether_it_is_a_margin_and_of_what(
        string band, string terrain, bool margin, bool ofBand, bool ofTerrain, bool whole)
    {
        var cell = new Cell(band, terrain);
        Assert.Equal((margin, ofBand, ofTerrain, whole), (cell.IsMargin, cell.IsOfBand, cell.IsOfTerrain, cell.IsWhole));
        Assert.Equal((band, terrain), (cell.WindBand, cell.Terrain));
    }

    /// <summary>A drop on grass in a wind of 5 m/s, the lower edge of its band.</summary>
    [Theory]
    [InlineData("5+", "grass", true)]
    [InlineData("0-5", "grass", false)]
    [InlineData("5+", "timber", false)]
    [InlineData("5+", "all", true)]
    [InlineData("0-5", "all", false)]
    [InlineData("all", "grass", true)]
    [InlineData("all", "timber", false)]
    [InlineData("all", "all", true)]
    public void A_drop_lies_in_its_cell_and_in_the_margins_of_it(string band, string terrain, bool holds)
    {
        var drop = Made.Drop(terrain: "grass", windSpeed: 5);
        Assert.Equal(new Cell("5+", "grass"), Cell.Of(drop, _bands));
        Assert.Equal(holds, new Cell(band, terrain).Holds(drop, _bands));
    }

    [Fact]
    public void A_margin_holds_its_cells_and_no_cell_holds_a_margin()
    {
        Assert.True(Cell.All.Holds(new Cell("0-5", "all")));
        Assert.True(new Cell("0-5", "all").Holds(new Cell("0-5", "all")));
        Assert.False(new Cell("0-5", "grass").Holds(new Cell("0-5", "all")));
        Assert.False(new Cell("0-5", "all").Holds(Cell.All));
    }

    [Fact]
    public void Its_text_names_both_sides_and_its_words_those_that_are_not_open()
    {
        Assert.Equal("0-5, grass", new Cell("0-5", "grass").ToString());
        Assert.Equal("0-5, all", new Cell("0-5", "all").ToString());
        Assert.Equal(["0-5 mps, grass", "0-5 mps", "grass", "all"],
            new Cell[] { new("0-5", "grass"), new("0-5", "all"), new("all", "grass"), Cell.All }.Select(c => c.Words(_bands)));
    }

    [Fact]
    public void The_grid_has_one_order_cells_then_bands_then_terrains_then_the_whole()
    {
        var cells = new Cells(_bands, new[] { "timber", "Grass", "alp", "timber" }.Select(t => Made.Drop(terrain: t)));
        Assert.Equal(["Grass", "alp", "timber"], cells.Terrains);
        Assert.Equal(
            ["0-5, Grass", "0-5, alp", "0-5, timber", "5+, Grass", "5+, alp", "5+, timber", "0-5, all", "5+, all",
                "all, Grass", "all, alp", "all, timber", "all, all"],
            cells.Select(c => c.ToString()));
        Assert.Equal(cells, [.. cells.Inner, .. cells.OfBands, .. cells.OfTerrains, Cell.All]);
        Assert.Equal((12, Cell.All), (cells.Count, cells[11]));
        Assert.DoesNotContain(cells.Inner, c => c.IsMargin);
    }

    [Fact]
    public void A_record_without_a_drop_still_has_its_bands_and_the_whole() =>
        Assert.Equal(["0-5, all", "5+, all", "all, all"], new Cells(_bands, Array.Empty<Landing>()).Select(c => c.ToString()));

    /// <summary>Each landing stands in four groups, in the order of the record.</summary>
    [Fact]
    public void Landings_and_drops_are_grouped_by_cell_and_margin()
    {
        Drop[] drops =
        [
            Made.Drop("a", terrain: "timber", windSpeed: 9), Made.Drop("b", terrain: "grass", windSpeed: 1),
            Made.Drop("c", terrain: "timber", windSpeed: 2),
        ];
        List<Landing> landings = [.. drops.Select(d => Made.Landing(d, 1, 0)), Made.Landing(drops[0], 2, 0)];
        var cells = new Cells(_bands, landings);
        var byCell = cells.Group(landings);
        Assert.Equal([landings[0], landings[3]], byCell[new Cell("5+", "timber")]);
        Assert.Equal([landings[0], landings[2], landings[3]], byCell[new Cell("all", "timber")]);
        Assert.Equal([landings[1], landings[2]], byCell[new Cell("0-5", "all")]);
        Assert.Equal(landings, byCell[Cell.All]);
        Assert.Empty(byCell[new Cell("5+", "grass")]);
        Assert.Equal(4 * landings.Count, cells.Sum(c => byCell[c].Count()));
        foreach (var cell in cells) Assert.Equal(drops.Where(d => cell.Holds(d, _bands)), cells.Group(drops)[cell]);
    }
}
