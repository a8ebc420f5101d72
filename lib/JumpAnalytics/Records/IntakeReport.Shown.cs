namespace JumpAnalytics;

public sealed partial class IntakeReport : ShownResult
{
    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var share = RowsRead == 0 ? 0 : (double)RowsQuarantined / RowsRead;
            var text = $"{Rounding.Count(RowsRead, "row")} read = {Rounding.Count(RowsAccepted)} accepted + "
                + $"{Rounding.Count(RowsQuarantined)} quarantined ({Rounding.Percent(share, 1)}). ";
            if (RowsRepaired > 0) text += $"{Rounding.Count(RowsRepaired)} of the accepted {(RowsRepaired == 1 ? "was" : "were")} refused "
                + $"before and {(RowsRepaired == 1 ? "stands" : "stand")} repaired in a quarantine ledger. ";
            return text + (RowsQuarantined == 0 ? "Every row was used." : Sharing is not null ? "Which they are is withheld."
                : "Nothing was dropped: every quarantined row stands in tables/quarantine.csv with file, line, value and reason.");
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
            if (_noRecords.Count > 0)
                points.Add($"{Rounding.Count(_noRecords.Count, "row")} {(_noRecords.Count == 1 ? "is no record" : "are no records")} and "
                    + $"{(_noRecords.Count == 1 ? "was" : "were")} not read ({string.Join(", ", _noRecords.CountBy(n => n.Kind)
                        .OrderBy(k => k.Key, StringComparer.Ordinal).Select(k => $"{k.Key}: {Rounding.Count(k.Value)}"))})"
                    + (Sharing is null ? $", for instance {_noRecords[0].Source} (table rows-no-records)." : "."));
            if (Sharing is { } sharing) return [.. points, .. CountsAlone(sharing)];
            if (SetAside.Count > 0)
                points.Add($"{Rounding.Count(SetAside.Count, "value")} in accepted rows could not be read and "
                    + $"count{(SetAside.Count == 1 ? "s" : "")} as not recorded (table values-set-aside).");
            foreach (var kind in Noted.GroupBy(n => n.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
                points.Add($"{Rounding.Count(kind.Count(), "value")} used with a note ({kind.Key}), for instance {kind.First().Source}: "
                    + $"{Sentence(kind.First())} (table values-noted).");
            if (DropsWithoutLandings.Count > 0)
                points.Add($"{Rounding.Count(DropsWithoutLandings.Count, "drop")} without any usable landing: "
                    + $"{Some(DropsWithoutLandings.Select(d => d.Id))}.");
            if (_quarantine.Count(q => q.IsHangUpWithoutDistance) is var hangUps and > 0)
                points.Add($"{Rounding.Count(hangUps, "hang-up")} without a distance could not be counted, "
                    + "and may be misses more often than the rest.");
            if (TerrainsRespelt.Count > 0)
                points.Add($"Terrains that differ in case or blanks alone were taken as one: {string.Join("; ", TerrainsRespelt)}.");
            return points;
        }
    }

    /// <summary>What may be said of single rows of a log for sharing.</summary>
    private IEnumerable<string> CountsAlone(LogSharing sharing)
    {
        if (_setAside.Count > 0)
            yield return $"{sharing.Count(_setAside.Count, "value")} in accepted rows could not be read; they count as not recorded.";
        foreach (var kind in _noted.GroupBy(n => n.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
            yield return $"{sharing.Count(kind.Count(), "value")} used with a note ({kind.Key}).";
        if (_dropsWithoutLandings.Count > 0)
            yield return $"{sharing.Count(_dropsWithoutLandings.Count, "drop")} without any usable landing.";
        yield return "Which rows and values these are is withheld.";
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
        _noRecords.Count == 0 ? [FilesTable, ReasonsTable] : [FilesTable, ReasonsTable, NoRecordsTable];

    /// <summary>Rows read, accepted and quarantined by file.</summary>
    public TableView FilesTable => new TableOf<FileIntake>("files-read", "What was read", Files)
    {
        { Columns.File, f => f.File },
        { Columns.Holds, f => f.Holds },
        { Columns.RowsRead, f => f.RowsRead },
        { Columns.RowsAccepted, f => f.RowsAccepted },
        { Columns.RowsQuarantined, f => f.RowsQuarantined },
        { _noRecords.Count > 0, Columns.RowsNoRecords, f => f.RowsNoRecords },
        { Columns.UnknownColumns, f => f.UnknownColumns.Count == 0 ? null : Some(f.UnknownColumns.Select(u => Short(u.Header))) },
    };

    /// <summary>Quarantined rows counted by file and kind of trouble; a row counts under its first.</summary>
    public TableView ReasonsTable => new TableOf<(string File, string Kind, int Rows, QuarantinedRow First)>(
        "quarantine-by-reason", "Why rows were quarantined",
        _quarantine.GroupBy(q => (q.Source.Table, q.Problems[0].Kind)).OrderBy(g => g.Key.Table, StringComparer.Ordinal)
            .ThenByDescending(g => g.Count()).ThenBy(g => g.Key.Kind, StringComparer.Ordinal)
            .Select(g => (g.Key.Table, g.Key.Kind, g.Count(), g.First())))
    {
        { Columns.File, g => g.File },
        { Columns.Kind, g => g.Kind },
        { Columns.Rows, g => Sharing?.IsSmall(g.Rows) == true ? null : g.Rows },
        { Columns.Example, g => Sharing is null ? $"line {g.First.Source.Line}" : null },
        { Columns.Reason, g => Sharing is null ? Sentence(g.First.Problems[0]) : null },
        { Columns.Try, g => Sharing is null ? g.First.Problems[0].Try : null },
    };

    /// <summary>Every quarantined row, one line for each trouble found in it.</summary>
    public TableView QuarantineTable => Problems("quarantine", "Quarantined rows", _quarantine.SelectMany(q => q.Problems));

    /// <summary>Every value of an accepted row that could not be read.</summary>
    public TableView SetAsideTable => Problems("values-set-aside", "Values set aside in accepted rows", _setAside);

    /// <summary>Every value that is used with a note.</summary>
    public TableView NotedTable => Problems("values-noted", "Values used with a note", _noted);

    /// <summary>Every row that is no record.</summary>
    public TableView NoRecordsTable => Problems("rows-no-records", "Rows that are no records", _noRecords);

    /// <summary>Every accepted drop without a usable landing.</summary>
    public TableView DropsWithoutLandingsTable =>
        new TableOf<Drop>("drops-without-landings", "Drops without a usable landing", _dropsWithoutLandings, withheld: Why)
        {
            { Columns.DropId, d => d.Id },
            { Columns.Mission, d => d.Mission },
            { Columns.File, d => d.Source.Table },
            { Columns.Line, d => d.Source.Line },
        };

    private string? Why => Sharing is null ? null : LogSharing.Withheld;

    /// <summary>Every trouble as one line to read beside the file: refused rows, values set aside, values used with a note.</summary>
    public Brief Account => Sharing is not null ? new Brief(LogSharing.Withheld, []) : new(
        Quarantine.Count == 0 && SetAside.Count == 0 && Noted.Count + NoRecords.Count == 0 ? "Nothing to put right." : "Line by line:",
        [.. Quarantine.SelectMany(q => q.Problems).Select(p => Line("refused", p)), .. SetAside.Select(p => Line("set aside", p)),
            .. Noted.Select(p => Line("used with a note", p)), .. NoRecords.Select(p => Line("passed over", p))]);

    private static string Line(string outcome, CellProblem p) =>
        $"{p.Source} {outcome}. {Sentence(p)}{(p.Try.Length > 0 ? $" – {p.Try}" : "")}";

    private TableView Problems(string name, string title, IEnumerable<CellProblem> problems) =>
        new TableOf<CellProblem>(name, title, problems, withheld: Why)
        {
            { Columns.File, p => p.Source.Table },
            { Columns.Line, p => p.Source.Line },
            { Columns.ColumnName, p => p.Column },
            { Columns.Value, p => p.Value },
            { Columns.Kind, p => p.Kind },
            { Columns.Reason, p => p.Reason },
            { Columns.Try, p => p.Try },
        };

    private static string Sentence(CellProblem p) =>
        p.Value.Length is > 0 and <= 40 ? $"{p.Column}: '{p.Value}' {p.Reason}" : $"{p.Column}: {p.Reason}";

    private static string Short(string header) => header.Length <= 60 ? header : header[..60] + "…";

    private static string Some(IEnumerable<string> ids)
    {
        var all = ids.ToList();
        return all.Count <= 8 ? string.Join(", ", all) : string.Join(", ", all.Take(8)) + $" and {all.Count - 8} more";
    }
}
