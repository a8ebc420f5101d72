using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>Cells of few people are withheld, and can't be computed from the counts that are shown.</summary>
public sealed class SharedRatesTests
{
    private static readonly AccuracyOptions _options =
        new() { Replicates = 200, Bands = WindBands.FromLowerEdges([0, 5, 10], MeasureUnit.Speed("mps")) };

    /// <summary>Landings of single jumps, a person of a pool each; a miss where the person's number is odd.</summary>
    private static List<Landing> Landings(IEnumerable<(int Band, string Terrain, string? Person)> jumps) =>
        [.. jumps.Select((j, i) => Made.Landing(Made.Drop($"d{i}", $"m{i}", terrain: j.Terrain, windSpeed: 5 * j.Band + 1), 0,
            i % 3 == 0 ? 40 : 10) with { Jumper = j.Person })];

    private static RateTable Shared(IReadOnlyList<Landing> landings, int fewestPeople = LogSharing.FewPeople,
        AccuracyOptions? options = null) =>
        RateTable.Of(landings, options ?? _options, new LogSharing(fewestPeople));

    private static IEnumerable<CellRate> Shown(RateTable shared) => shared.Cells.Where(c => !c.IsWithheld);

    private static IEnumerable<(int, string, string?)> Jumps(int band, string terrain, int people, int from = 0) =>
        Enumerable.Range(from, people).Select(p => (band, terrain, (string?)$"p{p}"));

    [Fact]
    public void A_small_cell_is_withheld_with_another_and_the_numbers_shown_are_unchanged()
    {
        var landings = Landings([.. Jumps(0, "a", 6), .. Jumps(0, "b", 6), .. Jumps(0, "c", 9), .. Jumps(1, "a", 6),
            .. Jumps(1, "b", 4), .. Jumps(1, "c", 9)]);
        var (rates, shared) = (RateTable.Of(landings, _options), Shared(landings));
        Assert.Equal(["0-5 c", "5-10 c", "10+ a", "10+ b", "10+ c", "0-5 all", "5-10 all", "10+ all", "all a", "all b", "all c", "all all"],
            Shown(shared).Select(c => $"{c.WindBand} {c.Terrain}"));
        var table = Assert.Single(shared.Tables);
        foreach (var (row, whole, cell) in table.Rows.Zip(rates.Table("whole", pooled: false).Rows, rates.Cells))
        {
            if (!shared.Cell(cell.Cell).IsWithheld) Assert.Equal(whole, row);
            else Assert.Equal([cell.WindBand, cell.Terrain, .. Enumerable.Repeat<object?>(null, whole.Length - 3), "withheld: few people"],
                row);
        }
        Assert.DoesNotContain(table.Columns, c => c == Columns.PooledRate || c == Columns.Pull); // they rest on every cell
        Assert.False(shared.Pooled.Success);
        Assert.All(shared.Cells.Where(c => c.IsWithheld), c => Assert.Equal((0, 0, 0, null, false, false, null),
            (c.Missions, c.Landings, c.Hits, c.TargetRadii, c.Counted.Success, c.ModelRate.Success, c.Pooled)));
        Assert.Contains("4 of 16 cells and margins are withheld", shared.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_withheld_where_every_cell_has_enough_people() =>
        Assert.Equal(12,
            Shown(Shared(Landings([.. Jumps(0, "a", 5), .. Jumps(1, "a", 5), .. Jumps(0, "b", 5), .. Jumps(1, "b", 5)]))).Count());

    [Fact]
    public void All_is_withheld_where_all_together_are_few()
    {
        var shared = Shared(Landings([.. Jumps(0, "a", 2), .. Jumps(1, "a", 4)])); // p0 to p3
        Assert.Empty(Shown(shared));
        Assert.StartsWith("Withheld: few people.", shared.Reading, StringComparison.Ordinal);
    }

    /// <summary>One person in many landings is one; spellings of one code are one; the unnamed are as many as the largest stick.</summary>
    [Fact]
    public void People_are_counted_as_the_fewest_they_can_be()
    {
        Assert.Equal(1, Withholding.LeastPeople(Landings([(0, "a", "j 1"), (0, "a", "J  1"), (0, "a", "Ｊ １")])));
        Assert.Equal(1, Withholding.LeastPeople(Landings([(0, "a", null), (0, "a", null), (1, "a", null)])));
        var drop = Made.Drop();
        Assert.Equal(3, Withholding.LeastPeople([Made.Landing(drop, 0, 1), Made.Landing(drop, 0, 2), Made.Landing(drop, 0, 3),
            Made.Landing(Made.Drop("d2"), 0, 3) with { Jumper = "j1" }]));
        Assert.Equal(0, Withholding.LeastPeople([]));
    }

    [Fact]
    public void A_minimum_below_two_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DemoLog.Log.ForSharing(1));

    [Fact]
    public void The_demo_season_still_has_something_to_say()
    {
        RateTable Rates(int people) => SeasonAccuracy.Of(DemoLog.Log.ForSharing(people), new AccuracyOptions { Replicates = 200 }).Rates;
        var cells = Rates(2).Cells.Count;
        Assert.Equal(cells, Shown(Rates(2)).Count());
        Assert.InRange(Shown(Rates(LogSharing.FewPeople)).Count(), cells / 2, cells);
        Assert.False(Rates(30).Overall.IsWithheld);
    }

    /// <summary>
    /// An attacker who knows all that is shown and that counts are whole and not negative: for every withheld cell or margin of few people
    /// there must be another table that shows the same. Tables are small and the search complete.
    /// </summary>
    [Fact]
    public void No_small_cell_can_be_recovered_from_the_counts()
    {
        var (tables, attacked, useful) = (0, 0, 0);
        Cases.Each(CsCheck.Gen.Int[0, int.MaxValue - 1], 400, 51, seed =>
        {
            var dice = new Random(seed);
            var cells = new List<(int, string, string?)>();
            for (var band = 0; band < 3; band++)
            {
                foreach (var terrain in new[] { "a", "b", "c" })
                    cells.AddRange(Jumps(band, terrain, dice.Next(3) == 0 ? dice.Next(3) : dice.Next(7), dice.Next(3)));
            }
            var landings = Landings(cells);
            var (rates, shared) = (RateTable.Of(landings, _options), Shared(landings, 3));
            tables++;
            if (Shown(shared).Count() > 1) useful++;
            foreach (var cell in Shown(shared)) Assert.True(cell.Landings == 0 || People(landings, cell) >= 3);
            foreach (var cell in rates.Cells.Where(c => shared.Cell(c.Cell).IsWithheld && People(landings, c) is > 0 and < 3))
            {
                attacked++;
                Assert.True(CountAttack.CanBeOther(rates, shared, cell, c => c.Landings),
                    $"{cell.WindBand} {cell.Terrain} is {cell.Landings} for certain");
            }
        });
        Assert.Equal(400, tables);
        Assert.True(attacked > 400 && useful > 300, $"{attacked} small cells attacked, {useful} tables that show something");
    }

    private static int People(List<Landing> landings, CellRate cell) =>
        Withholding.LeastPeople([.. landings.Where(l => cell.Cell.Holds(l.Drop, _options.Bands))]);
}
