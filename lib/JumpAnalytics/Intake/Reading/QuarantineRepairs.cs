namespace JumpAnalytics;

/// <summary>A table of the log in which the changed rows of its quarantine ledger stand in place of the rows they name.</summary>
internal sealed class RepairedTable : ILogTable
{
    private readonly ILogTable _original;
    private readonly Dictionary<int, Repair> _repairs = [];

    private sealed record Repair(int LedgerLine, string Mark, RawRow Row);

    /// <exception cref="LogFormatException">The ledger is not one of this table.</exception>
    public RepairedTable(ILogTable original, ILogTable ledger)
    {
        (_original, Ledger) = (original, ledger.Name);
        var own = QuarantineLedger.OwnColumns.Length;
        if (!ledger.Header.Take(own).SequenceEqual(QuarantineLedger.OwnColumns, StringComparer.OrdinalIgnoreCase)
            || !ledger.Header.Skip(own).SequenceEqual(original.Header))
        {
            throw new LogFormatException($"{ledger.Name} is not a ledger of {original.Name}: "
                + $"its headers must be {string.Join(", ", QuarantineLedger.OwnColumns)} and then those of {original.Name} in their order. "
                + "Write the quarantine anew, or move the file out of the folder.");
        }
        foreach (var row in ledger.Rows().Where(r => !r.IsBlank)) Add(row, own);
    }

    public string Ledger { get; }

    public string Name => _original.Name;

    public IReadOnlyList<string> Header => _original.Header;

    public IReadOnlyList<string> Remarks => _original.Remarks;

    public IEnumerable<RawRow> Rows()
    {
        var placed = 0;
        foreach (var row in _original.Rows())
        {
            if (!_repairs.TryGetValue(row.Source.Line, out var repair))
            {
                yield return row;
                continue;
            }
            placed++;
            if (QuarantineLedger.Mark(row.Fields) != repair.Mark)
            {
                throw new LogFormatException($"{Ledger}: line {repair.LedgerLine} repairs {row.Source}, but the row there is not the one "
                    + $"that was refused. If {Name} was changed since, delete this line of the ledger, or write the quarantine anew.");
            }
            var isChanged = !Trimmed(repair.Row.Fields).SequenceEqual(Trimmed(row.Fields)) && !repair.Row.IsBlank;
            yield return isChanged ? repair.Row with { Source = row.Source, LastLine = row.LastLine, IsRepair = true } : row;
        }
        if (placed < _repairs.Count)
            throw new LogFormatException($"{Ledger} repairs a line that {Name} does not have. "
                + $"If {Name} was changed since, write the quarantine anew.");
    }

    private void Add(RawRow row, int own)
    {
        if (row.QuoteTrouble is { } trouble)
            throw Unplaced(row, $"in this line {trouble}, so lines {row.Source.Line} to {row.LastLine} may have run together");
        var fields = row.Fields;
        if (fields.Length <= own) throw Unplaced(row, "this line has no fields of the log");
        var at = fields[0].LastIndexOf(':');
        if (at < 0 || fields[0][..at] != Name || !int.TryParse(fields[0].AsSpan(at + 1), System.Globalization.NumberStyles.None,
            System.Globalization.CultureInfo.InvariantCulture, out var line))
            throw Unplaced(row, $"{QuarantineLedger.OwnColumns[0]} must read {Name}:line, as it was written");
        if (!_repairs.TryAdd(line, new Repair(row.Source.Line, fields[1], row with { Fields = fields[own..] })))
            throw Unplaced(row, $"{Name}:{line} already has a line in this ledger");
    }

    private LogFormatException Unplaced(RawRow row, string why) =>
        new($"{Ledger}: line {row.Source.Line}: {why}. Correct it, or take it from a ledger written anew.");

    /// <summary>Without blanks at the end: spreadsheets fill short rows up, which repairs nothing.</summary>
    private static IEnumerable<string> Trimmed(string[] fields) =>
        fields[..(Array.FindLastIndex(fields, f => !string.IsNullOrWhiteSpace(f)) + 1)];
}
