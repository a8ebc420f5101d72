namespace JumpAnalytics;

public sealed partial class IntakeReport : ShownResult
{
    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var share = RowsRead == 0 ? 0 : (double)RowsQuarantined / RowsRead;
            var text = $"{Rounding.Count(RowsRead, "row")} read = {Rounding.Count(RowsAccepted)} accepted + {Rounding.Count(RowsQuarantined)} quarantined ({Rounding.Percent(share, 1)}). ";
            if (RowsRepaired > 0) text += $"{Rounding.Count(RowsRepaired)} of the accepted {(RowsRepaired == 1 ? "was" : "were")} refused before and {(RowsRepaired == 1 ? "stands" : "stand")} repaired in a quarantine ledger. ";
            return text + (RowsQuarantined == 0 ? "Every row was used." : "Nothing was dropped: every quarantined row stands in tables/quarantine.csv with file, line, value and reason.");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points
    {
        get
        {
            var points = new List<string>(Remarks);
            points.AddRange(Files.SelectMany(f => f.Remarks.Select(r => $"{f.File}: {r}")));
            points.AddRange(MapNotes);
            foreach (var file in Files.Where(f => f.UnknownColumns.Count > 0))
            {
                points.Add($"{file.File}: columns not read because they are none of the log's: "
                    + Some(file.UnknownColumns.Select(u => u.Hint is null ? Short(u.Header) : $"{u.Header} ({u.Hint})")) + ".");
            }
            if (SetAside.Count > 0)
                points.Add($"{Rounding.Count(SetAside.Count, "value")} in accepted rows could not be read and count{(SetAside.Count == 1 ? "s" : "")} as not recorded (table values-set-aside).");
            foreach (var kind in Noted.GroupBy(n => n.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
                points.Add($"{Rounding.Count(kind.Count(), "value")} used with a note ({kind.Key}), for instance {kind.First().Source}: {Sentence(kind.First())} (table values-noted).");
            if (DropsWithoutLandings.Count > 0)
                points.Add($"{Rounding.Count(DropsWithoutLandings.Count, "drop")} without any usable landing: {Some(DropsWithoutLandings.Select(d => d.Id))}.");
            if (Quarantine.Count(q => q.IsHangUpWithoutDistance) is var hangUps and > 0)
                points.Add($"{Rounding.Count(hangUps, "hang-up")} without a distance could not be counted, and may be misses more often than the rest.");
            if (TerrainsRespelt.Count > 0)
                points.Add($"Terrains that differ in case or blanks alone were taken as one: {string.Join("; ", TerrainsRespelt)}.");
            return points;
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [FilesTable, ReasonsTable];

    /// <summary>Rows read, accepted and quarantined by file.</summary>
    public TableView FilesTable => new("files-read", "What was read",
        [Columns.File, Columns.Holds, Columns.RowsRead, Columns.RowsAccepted, Columns.RowsQuarantined, Columns.UnknownColumns],
        [.. Files.Select(f => new object?[]
        {
            f.File, f.Holds, f.RowsRead, f.RowsAccepted, f.RowsQuarantined, f.UnknownColumns.Count == 0 ? null : Some(f.UnknownColumns.Select(u => Short(u.Header))),
        })]);

    /// <summary>Quarantined rows counted by file and kind of trouble; a row counts under its first.</summary>
    public TableView ReasonsTable => new("quarantine-by-reason", "Why rows were quarantined",
        [Columns.File, Columns.Kind, Columns.Rows, Columns.Example, Columns.Reason, Columns.Try],
        [.. Quarantine.GroupBy(q => (q.Source.Table, q.Problems[0].Kind)).OrderBy(g => g.Key.Table, StringComparer.Ordinal)
            .ThenByDescending(g => g.Count()).ThenBy(g => g.Key.Kind, StringComparer.Ordinal)
            .Select(g => new object?[]
            {
                g.Key.Table, g.Key.Kind, g.Count(), $"line {g.First().Source.Line}", Sentence(g.First().Problems[0]), g.First().Problems[0].Try,
            })]);

    /// <summary>Every quarantined row, one line for each trouble found in it.</summary>
    public TableView QuarantineTable => new("quarantine", "Quarantined rows",
        _problemColumns, [.. Quarantine.SelectMany(q => q.Problems).Select(ProblemCells)]);

    /// <summary>Every value of an accepted row that could not be read.</summary>
    public TableView SetAsideTable => new("values-set-aside", "Values set aside in accepted rows",
        _problemColumns, [.. SetAside.Select(ProblemCells)]);

    /// <summary>Every value that is used with a note.</summary>
    public TableView NotedTable => new("values-noted", "Values used with a note", _problemColumns, [.. Noted.Select(ProblemCells)]);

    /// <summary>Every accepted drop without a usable landing.</summary>
    public TableView DropsWithoutLandingsTable => new("drops-without-landings", "Drops without a usable landing",
        [Columns.DropId, Columns.Mission, Columns.File, Columns.Line],
        [.. DropsWithoutLandings.Select(d => new object?[] { d.Id, d.Mission, d.Source.Table, d.Source.Line })]);

    /// <summary>Every trouble as one line to read beside the file: refused rows, values set aside, values used with a note.</summary>
    public Brief Account => new(Quarantine.Count == 0 && SetAside.Count == 0 && Noted.Count == 0 ? "Nothing to put right." : "Line by line:",
        [.. Quarantine.SelectMany(q => q.Problems).Select(p => Line("refused", p)), .. SetAside.Select(p => Line("set aside", p)), .. Noted.Select(p => Line("used with a note", p))]);

    private static string Line(string outcome, CellProblem p) => $"{p.Source} {outcome}. {Sentence(p)}{(p.Try.Length > 0 ? $" – {p.Try}" : "")}";

    private static readonly TableColumn[] _problemColumns =
        [Columns.File, Columns.Line, Columns.ColumnName, Columns.Value, Columns.Kind, Columns.Reason, Columns.Try];

    private static object?[] ProblemCells(CellProblem p) => [p.Source.Table, p.Source.Line, p.Column, p.Value, p.Kind, p.Reason, p.Try];

    private static string Sentence(CellProblem p) => p.Value.Length is > 0 and <= 40 ? $"{p.Column}: '{p.Value}' {p.Reason}" : $"{p.Column}: {p.Reason}";

    private static string Short(string header) => header.Length <= 60 ? header : header[..60] + "…";

    private static string Some(IEnumerable<string> ids)
    {
        var all = ids.ToList();
        return all.Count <= 8 ? string.Join(", ", all) : string.Join(", ", all.Take(8)) + $" and {all.Count - 8} more";
    }
}
