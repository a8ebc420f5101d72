namespace JumpAnalytics.Tests;

public sealed class RateTableTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200, Benchmark = 0.5 };

    /// <summary>Misses on a ring pattern, spread over missions; every number follows from the arguments.</summary>
    private static IEnumerable<Landing> Cell(string terrain, double windSpeed, int missions, double near, double far, string prefix = "")
    {
        for (var m = 0; m < missions; m++)
        {
            var drop = Made.Drop($"{prefix}{terrain}{windSpeed}{m}", $"{prefix}{terrain}{windSpeed}{m}",
                terrain: terrain, windSpeed: windSpeed);
            for (var j = 0; j < 4; j++)
                yield return Made.Landing(drop, LocalVector.FromPolar(j < 3 ? near : far, Bearing.FromDegrees(37 * m + 83 * j)));
        }
    }

    [Fact]
    public void A_new_terrain_leaves_the_numbers_of_the_other_cells_alone()
    {
        var before = Cell("timber", 3, 9, 12, 44).Concat(Cell("grass", 3, 8, 20, 33)).ToList();
        var after = before.Concat(Cell("alpine", 3, 7, 25, 60)).Concat(Cell("alpine", 9, 7, 25, 60)).ToList();
        var (first, second) = (RateTable.Of(before, _options), RateTable.Of(after, _options));
        var compared = 0;
        foreach (var cell in first.Cells.Where(c => !c.Cell.IsOfBand && !c.Cell.IsWhole && c.Counted.Success))
        {
            var same = second.Cell(cell.Cell);
            Assert.Equal(cell, same);
            Assert.NotNull(cell.ModelRate.Value!.Range);
            compared++;
        }
        Assert.Equal(4, compared); // two cells and the margins of their terrains
    }

    [Fact]
    public void Cells_and_margins_come_in_order_and_add_up()
    {
        var landings = Cell("timber", 3, 9, 12, 44).Concat(Cell("grass", 9, 8, 20, 33)).ToList();
        var table = RateTable.Of(landings, _options);
        Assert.Equal(["grass", "timber"], table.Terrains);
        Assert.Equal(4 * 2 + 4 + 2 + 1, table.Cells.Count);
        Assert.Equal(7, table.Cells.Count(c => c.IsMargin));
        Assert.Same(table.Cells[^1], table.Overall);
        Assert.Equal((17, 68, 51), (table.Overall.Missions, table.Overall.Landings, table.Overall.Hits));
        foreach (var sum in new Func<CellRate, bool>[] { c => !c.IsMargin, c => c.Cell.IsOfBand, c => c.Cell.IsOfTerrain })
        {
            Assert.Equal(68, table.Cells.Where(sum).Sum(c => c.Landings));
            Assert.Equal(51, table.Cells.Where(sum).Sum(c => c.Hits));
        }
        Assert.False(table.Cell("0-5", "grass").Counted.Success);
        Assert.Equal("no landing", table.Cell("0-5", "grass").Note);
        Assert.Contains("Terrains: grass, timber", Assert.Throws<KeyNotFoundException>(() => table.Cell("0-5", "snow")).Message,
            StringComparison.Ordinal);
    }

    /// <summary>A radius of 30 m; 20 placed landings (15 hits), 2 beyond 30 m, 1 beyond 50 m and 3 beyond 20 m.</summary>
    [Fact]
    public void Censored_landings_are_misses_or_left_out_and_are_told()
    {
        var placed = Cell("timber", 1, 5, 12, 44).ToList();
        Landing[] beyond = [.. new[] { 30.0, 30, 50, 20, 20, 20 }.Select((b, i) => Made.Beyond(placed[4 * (i % 5)].Drop, b))];
        var table = RateTable.Of([.. placed, .. beyond], _options);
        var cell = table.Overall;
        Assert.Equal((5, 23, 15), (cell.Missions, cell.Landings, cell.Hits));
        Assert.Equal((3, 3), (cell.BeyondMisses, cell.Undecided));
        Close.Relative(15 / 23.0, cell.Counted.Value!.Rate.Value, 1e-15);
        Assert.Equal("3 beyond; 3 undecided; fewer than 15 missions: the interval may be wider than it need be", cell.Note);
        Assert.Contains(cell.Note, table.Tables[0].ToCsv(), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_but_undecided_landings_is_no_rate()
    {
        var drop = Made.Drop();
        var cell = RateTable.Of([Made.Beyond(drop, 5), Made.Beyond(drop, 6)], _options).Overall;
        Assert.False(cell.Counted.Success);
        Assert.Equal("no landing that can be told a hit or a miss (2 undecided)", cell.Note);
        Assert.Equal((0, 0, 0, 2), (cell.Missions, cell.Landings, cell.Hits, cell.Undecided));
        Assert.Equal(BenchmarkVerdict.CannotTell, cell.Verdict);
    }

    /// <summary>A mission whose landings are all undecided is not one of the missions a rate rests on.</summary>
    [Fact]
    public void Missions_without_a_decided_landing_do_not_count()
    {
        var placed = Cell("timber", 1, 5, 12, 44).ToList();
        var cell = RateTable.Of([.. placed, Made.Beyond(Made.Drop("x", "only undecided"), 3)], _options).Overall;
        Assert.Equal(5, cell.Missions);
        Assert.Equal(RateTable.Of(placed, _options).Overall.Counted, cell.Counted);
    }

    [Theory]
    [InlineData(0.2, BenchmarkVerdict.Above)]
    [InlineData(0.75, BenchmarkVerdict.CannotTell)]
    [InlineData(0.98, BenchmarkVerdict.Below)]
    public void The_verdict_is_where_the_benchmark_lies_against_the_interval(double benchmark, BenchmarkVerdict expected)
    {
        var table = RateTable.Of([.. Cell("timber", 1, 20, 12, 44)], _options with { Benchmark = benchmark });
        Assert.Equal(expected, table.Overall.Verdict);
        Assert.Contains(expected switch { BenchmarkVerdict.Above => "That is above the benchmark of "
            + "20 %: the interval begins at ", BenchmarkVerdict.Below => "That is below the benchmark of 98 %: the interval ends at ", _ =>
                "It can't be told from the benchmark of 75 %" }, table.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Few_missions_are_told()
    {
        Assert.Equal("only 4 missions", RateTable.Of([.. Cell("timber", 1, 4, 12, 44)], _options).Overall.Note);
        Assert.Equal("fewer than 15 missions: the interval may be wider than it need be",
            RateTable.Of([.. Cell("timber", 1, 5, 12, 44)], _options).Overall.Note);
        Assert.Equal("", RateTable.Of([.. Cell("timber", 1, 15, 12, 44)], _options).Overall.Note);
        Assert.Contains("no interval: a single mission", RateTable.Of([.. Cell("timber", 1, 1, 12, 44)], _options).Overall.Note,
            StringComparison.Ordinal);
    }

    [Fact]
    public void No_landing_at_all_is_told_and_not_thrown()
    {
        var table = RateTable.Of([], _options);
        Assert.Equal("No rate can be given: no landing.", table.Reading);
        Assert.False(table.Overall.Counted.Success);
    }

    [Fact]
    public void Options_that_can_not_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new AccuracyOptions { Benchmark = 85 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new AccuracyOptions { Confidence = 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new AccuracyOptions { Replicates = 199 });
    }
}
