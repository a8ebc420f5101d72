namespace JumpAnalytics;

/// <summary>A column of a file that was read.</summary>
/// <param name="Header">The header as the file spells it.</param>
/// <param name="Quantity">The quantity of the log it holds.</param>
/// <param name="Unit">The unit its header states; null for text, bearings and counts.</param>
[TypeFormatterSource]
public sealed record ReadColumn(string Header, string Quantity, MeasureUnit? Unit);

/// <summary>A column that was not read because its header is not one of the log's.</summary>
/// <param name="Header">The header as the file spells it.</param>
/// <param name="Hint">What it may have been meant for; null when nothing is near.</param>
[TypeFormatterSource]
public sealed record UnknownColumn(string Header, string? Hint);

/// <summary>What became of one file. <see cref="RowsRead"/> = <see cref="RowsAccepted"/> + <see cref="RowsQuarantined"/>, always.</summary>
[TypeFormatterSource]
public sealed record FileIntake
{
    /// <summary>File name without its folder, and the sheet of a workbook: <c>log.xlsx [drops]</c>.</summary>
    public required string File { get; init; }

    /// <summary>What the file holds: <c>drops</c>, <c>landings</c>, or <c>drops and landings</c> for a flat table.</summary>
    public required string Holds { get; init; }

    /// <summary>Rows that hold a record; headers, blank lines and <see cref="RowsNoRecords"/> don't count.</summary>
    public required int RowsRead { get; init; }

    /// <summary>Rows used.</summary>
    public required int RowsAccepted { get; init; }

    /// <summary>Rows set apart.</summary>
    public required int RowsQuarantined { get; init; }

    /// <summary>Rows among <see cref="RowsAccepted"/> that were refused before and stand repaired in a quarantine ledger.</summary>
    public int RowsRepaired { get; init; }

    /// <summary>The quarantine ledger whose rows stand in place of rows of this file; null when there is none.</summary>
    public string? Ledger { get; init; }

    /// <summary>The headers as the file spells them, in its order.</summary>
    public IReadOnlyList<string> Header { get; init; } = [];

    /// <summary>Blank lines passed over.</summary>
    public required int BlankLines { get; init; }

    /// <summary>Rows passed over because they are no records: totals, comments, repeated headers.</summary>
    public int RowsNoRecords { get; init; }

    /// <summary>Columns read.</summary>
    public required IReadOnlyList<ReadColumn> Columns { get; init; }

    /// <summary>Columns nobody knows; they were not read.</summary>
    public required IReadOnlyList<UnknownColumn> UnknownColumns { get; init; }

    /// <summary>How the file was read where that was not plain: its encoding, decimal commas, the sheet, where the headers stand.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];
}

/// <summary>What was read and what was refused: every row of every file is accounted for.</summary>
public sealed partial class IntakeReport
{
    private readonly IReadOnlyList<QuarantinedRow> _quarantine = [];
    private readonly IReadOnlyList<CellProblem> _setAside = [];
    private readonly IReadOnlyList<CellProblem> _noted = [];
    private readonly IReadOnlyList<CellProblem> _noRecords = [];
    private readonly IReadOnlyList<Drop> _dropsWithoutLandings = [];

    internal IntakeReport()
    {
    }

    private IReadOnlyList<T> Open<T>(IReadOnlyList<T> rows) => Sharing is null ? rows : throw LogSharing.Refusal();

    /// <summary>Whether refused rows stand here as they were written, so that a ledger of them can be repaired.</summary>
    internal bool HoldsRowsAsWritten { get; init; } = true;

    /// <summary>What to know of the folder as a whole: files that look like part of the log and were not read.</summary>
    public IReadOnlyList<string> Remarks { get; internal init; } = [];

    /// <summary>The files in the order they were read.</summary>
    public required IReadOnlyList<FileIntake> Files { get; init; }

    /// <summary>That the log is for sharing, so that this account holds counts and no row.</summary>
    internal LogSharing? Sharing { get; init; }

    /// <summary>The rows that could not be used, with reasons.</summary>
    /// <exception cref="InvalidOperationException">The log is for sharing; so for every list of rows or values.</exception>
    public required IReadOnlyList<QuarantinedRow> Quarantine { get => Open(_quarantine); init => _quarantine = value; }

    /// <summary>Values of accepted rows that could not be read and count as not recorded.</summary>
    public required IReadOnlyList<CellProblem> SetAside { get => Open(_setAside); init => _setAside = value; }

    /// <summary>
    /// Values of accepted rows that are used, with something to know of them: coarse positions, repeated hours, declinations that differ.
    /// </summary>
    public required IReadOnlyList<CellProblem> Noted { get => Open(_noted); init => _noted = value; }

    /// <summary>
    /// Rows that are no records, with their text and kind: totals, comments, repeated headers. They are in no other count.
    /// </summary>
    public IReadOnlyList<CellProblem> NoRecords { get => Open(_noRecords); init => _noRecords = value; }

    /// <summary>Accepted drops to which no accepted landing belongs.</summary>
    public required IReadOnlyList<Drop> DropsWithoutLandings { get => Open(_dropsWithoutLandings); init => _dropsWithoutLandings = value; }

    /// <summary>Terrains whose spelling differs from an earlier one in case or blanks alone, and what they were read as.</summary>
    public required IReadOnlyList<string> TerrainsRespelt { get; init; }

    /// <summary>What the column map did: its name, what it left out, and codes that none of its lists holds. Empty without a map.</summary>
    public required IReadOnlyList<string> MapNotes { get; init; }

    /// <summary>
    /// Quarantined rows that stand for a landing in no number. Some may not be landings of their own, for instance a row whose drop is not
    /// in the log: the count is an upper bound. Of a part of a log, rows that name a drop outside of it don't count.
    /// </summary>
    /// <param name="seasons">The seasons asked for; a row that does not tell its season counts for each.</param>
    public IReadOnlyList<QuarantinedRow> RefusedLandings(IReadOnlyCollection<string> seasons) => Open(RefusedToCount(seasons));

    /// <summary>The same also of a log for sharing, for who counts them and tells no small number.</summary>
    internal IReadOnlyList<QuarantinedRow> RefusedToCount(IReadOnlyCollection<string> seasons) =>
        [.. QuarantineOfPart.Where(q => q.StandsForLanding && (q.Season is not { } season || seasons.Contains(season)))];

    /// <summary>Rows read in all files.</summary>
    public int RowsRead => Files.Sum(f => f.RowsRead);

    /// <summary>Rows used in all files.</summary>
    public int RowsAccepted => Files.Sum(f => f.RowsAccepted);

    /// <summary>Accepted rows that were refused before and stand repaired in a quarantine ledger.</summary>
    public int RowsRepaired => Files.Sum(f => f.RowsRepaired);

    /// <summary>Rows set apart in all files.</summary>
    public int RowsQuarantined => Files.Sum(f => f.RowsQuarantined);
}
