namespace JumpAnalytics;

/// <summary>Reads the tables of a log into drops and landings, and keeps account of every row.</summary>
internal sealed class LogReader
{
    private readonly Dictionary<string, Drop> _drops = new(StringComparer.Ordinal);
    private readonly Dictionary<string, RowSource> _refusedDrops = new(StringComparer.Ordinal);
    private readonly Dictionary<(string DropId, string Jumper), RowSource> _jumpers = [];
    private readonly List<Landing> _landings = [];
    private readonly List<FileIntake> _files = [];
    private readonly List<QuarantinedRow> _quarantine = [];
    private readonly List<CellProblem> _setAside = [];
    private int _refusedLandings;
    private int _refusedHangUps;

    public static JumpLog Read(LogFiles files)
    {
        var reader = new LogReader();
        foreach (var file in files.Drops) reader.ReadTable(file, "drops", LogColumns.Drops, LogColumns.RequiredOfDrops, reader.TakeDrop);
        foreach (var file in files.Landings) reader.ReadTable(file, "landings", LogColumns.Landings, LogColumns.RequiredOfLandings, reader.TakeLanding);
        foreach (var file in files.Flat)
        {
            reader.ReadTable(file, "drops and landings", LogColumns.Drops.Concat(LogColumns.Landings),
                LogColumns.RequiredOfDrops.Concat(LogColumns.RequiredOfLandings), reader.TakeFlatRow);
        }
        var used = reader._landings.Select(l => l.Drop).ToHashSet(ReferenceEqualityComparer.Instance);
        var drops = reader._drops.Values.OrderBy(d => d.Source.File, StringComparer.Ordinal).ThenBy(d => d.Source.Line).ToList();
        return new JumpLog(drops, reader._landings, new IntakeReport(reader._files, reader._quarantine, reader._setAside,
            [.. drops.Where(d => !used.Contains(d))], reader._refusedLandings, reader._refusedHangUps));
    }

    private void ReadTable(CsvFile file, string holds, IEnumerable<LogColumn> columns, IEnumerable<LogColumn[][]> required, Action<RowReader> take)
    {
        var map = HeaderMap.Of(file.Header, columns);
        if (map.Missing(required) is { Count: > 0 } missing)
            throw new LogFormatException(MissingColumns(file, map, missing));
        var (read, quarantined, blank) = (0, 0, 0);
        foreach (var raw in file.Rows())
        {
            if (raw.IsBlank)
            {
                blank++;
                continue;
            }
            read++;
            var row = new RowReader(map, raw);
            CheckShape(row, raw, map.Header.Count);
            take(row);
            if (row.Refusals.Count > 0)
            {
                quarantined++;
                _quarantine.Add(new QuarantinedRow(raw.Source, row.Refusals, raw.Fields));
            }
            else
            {
                _setAside.AddRange(row.SetAside);
            }
        }
        _files.Add(new FileIntake
        {
            File = file.Name, Holds = holds, RowsRead = read, RowsAccepted = read - quarantined, RowsQuarantined = quarantined, BlankLines = blank,
            Columns = [.. map.Bound.Select(b => new ReadColumn(b.Header, b.Column.Name, b.Unit))],
            UnknownColumns = map.Unknown,
        });
    }

    private static void CheckShape(RowReader row, RawRow raw, int columns)
    {
        if (raw.QuoteTrouble is { } trouble)
        {
            row.Refuse("(row)", Array.Find(raw.Fields, f => f.AsSpan().ContainsAny('"', '\n', '\r')) ?? raw.Fields[^1],
                trouble == RawRow.OpenQuote ? "quote not closed" : "stray quote",
                raw.LastLine > raw.Source.Line ? $"{trouble}: lines {raw.Source.Line} to {raw.LastLine} ran together" : trouble,
                "close the quote, or double it when it is part of the text and quote the whole field");
        }
        else if (raw.Fields.Length < columns || raw.Fields.Skip(columns).Any(f => f.Trim().Length > 0))
        {
            row.Refuse("(row)", string.Join(',', raw.Fields), "ragged row",
                $"has {raw.Fields.Length} fields where the header has {columns}, so its values may stand under the wrong headers",
                "quote fields that hold a comma; add what is missing");
        }
    }

    private void TakeDrop(RowReader row)
    {
        var id = row.ValueOf(LogColumns.DropId);
        var drop = row.Refusals.Count == 0 ? DropReader.Read(row) : null;
        if (drop is null)
        {
            if (id.Length > 0) _refusedDrops.TryAdd(id, row.Source);
        }
        else if (_drops.TryGetValue(id, out var first))
        {
            var same = first == drop with { Source = first.Source };
            row.Refuse(row.HeaderOf(LogColumns.DropId), id, "repeated drop_id", $"was already given at {first.Source}"
                + (same ? " with the same values" : " with other values"), same ? "delete this row" : "give the drop its own id, or delete the row that is wrong");
        }
        else
        {
            _drops.Add(id, drop);
        }
    }

    private void TakeLanding(RowReader row)
    {
        var before = row.Refusals.Count;
        if (before == 0) ReadLanding(row);
        if (row.Refusals.Count > 0) CountRefusedLanding(row);
    }

    private void ReadLanding(RowReader row)
    {
        if (row.Text(LogColumns.DropId, required: true) is not { } id) return;
        if (!_drops.TryGetValue(id, out var drop))
        {
            var header = row.HeaderOf(LogColumns.DropId);
            if (_refusedDrops.TryGetValue(id, out var at))
                row.Refuse(header, id, "drop refused", $"belongs to a drop that was refused at {at}", "repair that drop");
            else
                row.Refuse(header, id, "no such drop", "is not among the drops", "add the drop, or correct the id");
            return;
        }
        if (LandingReader.Read(row, drop) is not { } landing) return;
        if (landing.Jumper is { } jumper && !_jumpers.TryAdd((id, jumper), row.Source))
        {
            row.Refuse(row.HeaderOf(LogColumns.Jumper), jumper, "repeated landing",
                $"already landed from drop {id} at {_jumpers[(id, jumper)]}", "delete the row that is not theirs");
            return;
        }
        _landings.Add(landing);
    }

    private void TakeFlatRow(RowReader row)
    {
        if (row.Refusals.Count == 0)
        {
            if (DropReader.Read(row) is { } drop)
            {
                if (_drops.TryGetValue(drop.Id, out var first) && first != drop with { Source = first.Source, Remarks = first.Remarks })
                {
                    row.Refuse(row.HeaderOf(LogColumns.DropId), drop.Id, "columns disagree",
                        $"gives the drop other values than {first.Source} does", "make the columns of the drop the same in all its rows, or give it its own id");
                }
                else if (LandingReader.SaysAnything(row))
                {
                    if (first is null) _drops.Add(drop.Id, drop);
                    ReadLanding(row);
                }
                else
                {
                    _drops.TryAdd(drop.Id, drop);
                }
            }
        }
        if (row.Refusals.Count > 0) CountRefusedLanding(row);
    }

    private void CountRefusedLanding(RowReader row)
    {
        if (row.Refusals.Any(p => p.Kind == "repeated landing")) return;
        _refusedLandings++;
        if (row.Refusals.Any(p => p.Kind == "hang-up without distance")) _refusedHangUps++;
    }

    private static string MissingColumns(CsvFile file, HeaderMap map, IReadOnlyList<string> missing)
    {
        var hints = map.Unknown.Where(u => u.Hint is not null).Select(u => $"\n  '{u.Header}' {u.Hint}").ToList();
        return $"{file.Name} lacks {missing.Count} required column{(missing.Count == 1 ? "" : "s")}. Missing:"
            + string.Concat(missing.Select(m => "\n  " + m))
            + $"\nFound: {string.Join(", ", file.Header)}."
            + (hints.Count > 0 ? "\nPerhaps:" + string.Concat(hints) : "")
            + "\nRename the headers to the accepted ones (any case); units stand in the header's suffix.";
    }
}
