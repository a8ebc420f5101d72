namespace JumpAnalytics;

/// <summary>
/// A rate table as it may be handed on: cells and margins that rest on few people are withheld, and others with them, so that they can't be computed
/// from what is shown. The numbers that are shown are those of the table, unchanged.
/// </summary>
/// <remarks>
/// Counts of a withheld cell can be narrowed to a range, as in any table with margins. Two reports of overlapping records (a season, and the same
/// season a week later) may still give a cell away by their difference: hand on one.
/// </remarks>
public sealed class SharedRates : ShownResult
{
    /// <summary>People below whom a cell is withheld unless said otherwise.</summary>
    public const int FewPeople = 5;

    private readonly Withholding _withholding;

    internal SharedRates(RateTable rates, int minimumPeople)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(minimumPeople, 2);
        (Rates, MinimumPeople, _withholding) = (rates, minimumPeople, new Withholding(rates, minimumPeople));
    }

    /// <summary>The table, whole: not to be handed on.</summary>
    internal RateTable Rates { get; }

    /// <summary>Fewest people that a cell must rest on to be shown.</summary>
    public int MinimumPeople { get; }

    /// <summary>Cells and margins that are shown, in the order of the table.</summary>
    public IReadOnlyList<CellRate> Cells => [.. Rates.Cells.Where(c => !IsWithheld(c.Cell))];

    /// <summary>Whether a cell or margin is withheld.</summary>
    /// <param name="windBand">Label of a band, or <c>all</c>.</param>
    /// <param name="terrain">A terrain class, or <c>all</c>.</param>
    public bool IsWithheld(string windBand, string terrain) => IsWithheld(new Cell(windBand, terrain));

    /// <summary>Whether a cell or margin is withheld.</summary>
    /// <param name="cell">The cell or margin.</param>
    public bool IsWithheld(Cell cell) => _withholding.Hides(cell);

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var withheld = Rates.Cells.Count - Cells.Count;
            var rule = $"{Rounding.Count(withheld)} of {Rounding.Count(Rates.Cells.Count, "cell")} and margins {(withheld == 1 ? "is" : "are")} withheld: fewer than {MinimumPeople} people, or needed so that such a one can't be computed.";
            if (IsWithheld(Cell.All)) return "Withheld: few people. " + rule;
            return Rates.Overall.Counted.Value is not { } all ? $"No rate can be given: {Rates.Overall.Counted.Reason}."
                : $"{Rounding.Percent(all.Rate)} of landings came down inside the target radius ({Rounding.Percent(Rates.Options.Confidence)} interval; {Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")}). "
                    + Rates.BenchmarkSentence + " " + rule;
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        Rates.Table("rates-by-cell-shared", pooled: false, IsWithheld,
            $" Withheld: fewer than {MinimumPeople} people, or needed so that such a cell can't be computed from the others. "
            + "People are the different jumpers of a cell's landings; where jumpers are not named, no more than the largest stick."),
    ];
}

/// <summary>Hands rates on.</summary>
public static class RateSharing
{
    /// <summary>The rates with cells of few people withheld.</summary>
    /// <param name="rates">The rates.</param>
    /// <param name="minimumPeople">Fewest people that a shown cell rests on, 2 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The minimum is below 2.</exception>
    public static SharedRates Shared(this RateTable rates, int minimumPeople = SharedRates.FewPeople) => new(rates, minimumPeople);
}
