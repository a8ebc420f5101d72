namespace JumpAnalytics;

/// <summary>Reads the tables of a log into drops and landings, and keeps account of every row.</summary>
internal sealed class LogReader(ColumnMap? columnMap)
{
    /// <summary>Letters; no remark is as long, and what is longer would fill a report.</summary>
    private const int LongestField = 10_000;

    /// <summary>Letters of a value that a report shows of a row whose fields can't be told apart.</summary>
    private const int LongestShown = 1_000;

    private readonly Dictionary<string, Drop> _drops = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (RowSource Source, string? Season)> _refusedDrops = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _terrains = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _spelt = new(StringComparer.Ordinal); // terrains as they stand
    private readonly SortedDictionary<(string Written, string ReadAs), int> _respelt = [];
    private readonly Dictionary<(string DropId, string Jumper), RowSource> _jumpers = [];
    private readonly List<Landing> _landings = [];
    private readonly List<FileIntake> _files = [];
    private readonly List<(ILogTable, HeaderMap)> _tables = [];
    private readonly List<QuarantinedRow> _quarantine = [];
    private readonly List<CellProblem> _setAside = [];
    private readonly List<CellProblem> _noted = [];
    private readonly List<CellProblem> _noRecords = [];
    private readonly HashSet<string> _shapes = new(StringComparer.Ordinal); // of the ids of drops

    private readonly KeptCodes _keptCodes = new();

    /// <summary>
    /// Makes a record of a row, on any core: it may look at what was taken before its table, and changes nothing but the row's own notes.
    /// </summary>
    private delegate object? Maker(RowReader row);

    /// <summary>Takes the record of a row into the log, row by row in their order; tells whether the row is a landing's.</summary>
    private delegate bool Taker(RowReader row, object? record);

    public static JumpLog Read(LogFiles files, ColumnMap? map)
    {
        IReadOnlyList<ILogTable> tables = [.. files.Drops, .. files.Landings, .. files.Flat];
        map?.RequireHeaders(tables);
        var reader = new LogReader(map);
        foreach (var file in files.Drops)
            reader.ReadTable(file, "drops", LogColumns.Drops, LogColumns.RequiredOfDrops, MakeDrop, reader.TakeDrop);
        foreach (var file in files.Landings)
            reader.ReadTable(file, "landings", LogColumns.Landings, LogColumns.RequiredOfLandings, reader.MakeLanding, reader.TakeLanding);
        foreach (var file in files.Flat)
        {
            reader.ReadTable(file, "drops and landings", LogColumns.Drops.Concat(LogColumns.Landings),
                LogColumns.RequiredOfDrops.Concat(LogColumns.RequiredOfLandings), MakeDrop, reader.TakeFlatRow);
        }
        var (drops, landings, restarted) =
            SeasonKeys.Of([.. reader._drops.Values.OrderBy(d => d.Source.Table, StringComparer.Ordinal).ThenBy(d => d.Source.Line)],
                reader._landings);
        var used = landings.Select(l => l.Drop).ToHashSet(ReferenceEqualityComparer.Instance);
        var respelt = reader._respelt.Select(r => $"'{r.Key.Written}' as '{r.Key.ReadAs}' ({Rounding.Count(r.Value, "row")})").ToList();
        return new JumpLog(files.Name, files.Notice, drops, landings, new IntakeReport
        {
            Files = reader._files, Quarantine = reader._quarantine, SetAside = reader._setAside, Noted = reader._noted,
            NoRecords = reader._noRecords,
            DropsWithoutLandings = [.. drops.Where(d => !used.Contains(d))], TerrainsRespelt = respelt,
            Remarks = [.. files.Remarks, .. restarted, .. EastOnly(drops)],
            MapNotes = map is null ? [] : [.. map.Notes(tables), .. reader._keptCodes.Notes(map.Name)],
        }, new Origins(reader._tables).Of);
    }

    /// <summary>With no time offset to contradict it, a minus or a W that everybody leaves out can't be seen; so it is asked.</summary>
    private static IEnumerable<string> EastOnly(IReadOnlyList<Drop> drops)
    {
        var placed = drops.Where(d => d.Spot is not null).ToList();
        if (placed.Count > 0 && placed.TrueForAll(d => d.Spot!.Value.Longitude > 0 && d.UtcOffset is null))
            yield return "All longitudes were read as east of Greenwich, and no time has an offset to check them by. "
                + "If they are west, write them with a minus or a W: misses by position are mirrored otherwise.";
    }

    private void ReadTable(ILogTable file, string holds, IEnumerable<LogColumn> columns,
        IEnumerable<LogColumn[][]> required, Maker make, Taker take)
    {
        var map = HeaderMap.Of(file.Name, file.Header, columns, columnMap);
        if (map.Missing(required) is { Count: > 0 } missing)
            throw new LogFormatException(MissingColumns(file, map, missing));
        _tables.Add((file, map));
        var times = new TableTimes(file, map, columnMap?.Dates ?? DayOrder.Unknown);
        var (read, quarantined, blank, repaired, noRecords) = (0, 0, 0, 0, 0);
        foreach (var (raw, row, record) in RowsAhead.Of(file.Rows(), raw =>
        {
            var row = new RowReader(map, raw, times);
            CheckShape(row, raw, map.Header.Count);
            return (row, row.IsRefused ? null : make(row));
        }))
        {
            if (raw.IsBlank)
            {
                blank++;
                continue;
            }
            if (row.IsRefused && !raw.IsRepair && NoRecord.KindOf(raw, map.Header, map.Bound, IsId) is { } kind)
            {
                noRecords++;
                var text = string.Join(" | ", raw.Fields.Select(f => f.Trim()).Where(f => f.Length > 0));
                _noRecords.Add(new CellProblem(raw.Source, "(row)", Shortened(text), kind, "is no record and was not read", ""));
                continue;
            }
            read++;
            _keptCodes.Count(map, raw);
            var isLanding = take(row, record);
            if (row.IsRefused)
            {
                quarantined++;
                _quarantine.Add(new QuarantinedRow(raw.Source, row.Refusals, raw.Fields, SeasonOf(row),
                    isLanding && row.Refusals.All(p => p.Kind != ProblemKinds.RepeatedLanding)));
            }
            else
            {
                _setAside.AddRange(row.SetAside);
                _noted.AddRange(row.Noted);
                if (raw.IsRepair) repaired++;
            }
        }
        _files.Add(new FileIntake
        {
            File = file.Name, Holds = holds, RowsRead = read, RowsAccepted = read - quarantined,
            RowsQuarantined = quarantined, BlankLines = blank, RowsNoRecords = noRecords,
            RowsRepaired = repaired, Ledger = (file as RepairedTable)?.Ledger, Header = map.Header,
            Columns = [.. map.Bound.Select(b => new ReadColumn(b.Header, b.Column.Name, b.Unit))],
            UnknownColumns = map.Unknown,
            Remarks = file.Remarks,
        });
    }

    private static void CheckShape(RowReader row, RawRow raw, int columns)
    {
        if (raw.QuoteTrouble is { } trouble)
        {
            row.Refuse("(row)", Shortened(Array.Find(raw.Fields, f => f.AsSpan().ContainsAny('"', '\n', '\r')) ?? raw.Fields[^1]),
                trouble == RawRow.OpenQuote ? "quote not closed" : "stray quote",
                raw.LastLine > raw.Source.Line ? $"{trouble}: lines {raw.Source.Line} to {raw.LastLine} ran together" : trouble,
                "close the quote, or double it when it is part of the text and quote the whole field");
        }
        else if (Array.Find(raw.Fields, f => f.Contains(RawRow.Undecoded, StringComparison.Ordinal)) is { } undecoded)
        {
            row.Refuse("(row)", Shortened(undecoded), "not UTF-8", "holds letters that are not written in UTF-8, so names would be changed",
                "save the file as CSV UTF-8; spreadsheets offer that under this name");
        }
        else if (Array.FindIndex(raw.Fields, f => f.Length > LongestField) is var at and >= 0)
        {
            row.Refuse("(row)", raw.Fields[at][..40] + "…", "field too long", $"field {at + 1} has {Rounding.Count(raw.Fields[at].Length)} "
                + $"letters, more than the {Rounding.Count(LongestField)} a field may have",
                "look for a quote that is not closed, or shorten the text");
        }
        else if (raw.Fields.Length < columns || (raw.Fields.Length > columns && raw.Fields.Skip(columns).Any(f => f.Trim().Length > 0)))
        {
            row.Refuse("(row)", Shortened(string.Join(',', raw.Fields)), "ragged row",
                $"has {raw.Fields.Length} fields where the header has {columns}, so its values may stand under the wrong headers",
                "quote fields that hold a comma; add what is missing");
        }
    }

    private static string Shortened(string value) => value.Length <= LongestShown ? value : value[..LongestShown] + "…";

    private string? SeasonOf(RowReader row)
    {
        var id = row.ValueOf(LogColumns.DropId);
        return _drops.TryGetValue(id, out var drop) ? drop.Season
            : row.SeasonTold() ?? (_refusedDrops.TryGetValue(id, out var refused) ? refused.Season : null);
    }

    /// <summary>
    /// Spellings of a terrain that differ in case or blanks alone are one terrain; the first one stands, and the others are told.
    /// </summary>
    private Drop WithOneSpelling(Drop drop)
    {
        if (_spelt.Contains(drop.Terrain)) return drop;
        var key = string.Join(' ', drop.Terrain.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (_terrains.TryAdd(key, drop.Terrain) || _terrains[key] == drop.Terrain)
        {
            _spelt.Add(drop.Terrain);
            return drop;
        }
        _respelt[(drop.Terrain, _terrains[key])] = _respelt.GetValueOrDefault((drop.Terrain, _terrains[key])) + 1;
        return drop with { Terrain = _terrains[key] };
    }

    private bool IsId(string text) =>
        _drops.ContainsKey(text) || _refusedDrops.ContainsKey(text) || _shapes.Contains(NoRecord.ShapeOf(text));

    private static Drop? MakeDrop(RowReader row) => DropReader.Read(row);

    private bool TakeDrop(RowReader row, object? record)
    {
        var id = row.ValueOf(LogColumns.DropId);
        if (record is not Drop drop)
        {
            if (id.Length > 0) _refusedDrops.TryAdd(id, (row.Source, row.SeasonTold()));
        }
        else if (_drops.TryGetValue(id, out var first))
        {
            var same = first == drop with { Source = first.Source };
            row.Refuse(row.HeaderOf(LogColumns.DropId), id, "repeated drop_id", $"was already given at {first.Source}"
                + (same ? " with the same values" : " with other values"),
                same ? "delete this row" : "give the drop its own id, or delete the row that is wrong");
        }
        else
        {
            _drops.Add(id, WithOneSpelling(drop));
            _shapes.Add(NoRecord.ShapeOf(id));
        }
        return false;
    }

    private bool TakeLanding(RowReader row, object? record)
    {
        if (record is Landing landing) Add(row, landing);
        return true;
    }

    private Landing? MakeLanding(RowReader row)
    {
        if (row.Text(LogColumns.DropId, required: true) is not { } id) return null;
        if (!_drops.TryGetValue(id, out var drop))
        {
            var header = row.HeaderOf(LogColumns.DropId);
            if (_refusedDrops.TryGetValue(id, out var refused))
                row.Refuse(header, id, "drop refused", $"belongs to a drop that was refused at {refused.Source}", "repair that drop");
            else
                row.Refuse(header, id, "no such drop", "is not among the drops", "add the drop, or correct the id");
            return null;
        }
        return LandingReader.Read(row, drop);
    }

    private void Add(RowReader row, Landing landing)
    {
        var id = landing.Drop.Id;
        if (landing.Jumper is { } jumper && !_jumpers.TryAdd((id, jumper), row.Source))
        {
            row.Refuse(row.HeaderOf(LogColumns.Jumper), jumper, ProblemKinds.RepeatedLanding,
                $"already landed from drop {id} at {_jumpers[(id, jumper)]}", "delete the row that is not theirs");
            return;
        }
        _landings.Add(landing);
    }

    private bool TakeFlatRow(RowReader row, object? record)
    {
        if (record is not Drop drop) return true;
        drop = WithOneSpelling(drop);
        if (_drops.TryGetValue(drop.Id, out var first) && first != drop with { Source = first.Source, Remarks = first.Remarks })
        {
            row.Refuse(row.HeaderOf(LogColumns.DropId), drop.Id, "columns disagree",
                $"gives the drop other values than {first.Source} does",
                "make the columns of the drop the same in all its rows, or give it its own id");
            return true;
        }
        if (_drops.TryAdd(drop.Id, drop)) _shapes.Add(NoRecord.ShapeOf(drop.Id));
        if (!LandingReader.SaysAnything(row)) return false;
        if (MakeLanding(row) is { } landing) Add(row, landing);
        return true;
    }

    private static string MissingColumns(ILogTable file, HeaderMap map, IReadOnlyList<string> missing)
    {
        var hints = map.Unknown.Where(u => u.Hint is not null).Take(20).Select(u => $"\n  '{VisibleText.Of(u.Header)}' {u.Hint}").ToList();
        return $"{file.Name} lacks {missing.Count} required column{(missing.Count == 1 ? "" : "s")}. Missing:"
            + string.Concat(missing.Select(m => "\n  " + m))
            + $"\nFound: {Found(file.Header)}."
            + (hints.Count > 0 ? "\nPerhaps:" + string.Concat(hints) : "")
            + "\nRename the headers to the accepted ones (any case; units stand in the header's suffix), or put a columns.json beside the "
            + "tables that says what yours mean: the notebook map proposes one.";
    }

    private static string Found(IReadOnlyList<string> header)
    {
        const int most = 60;
        var shown = VisibleText.Of(string.Join(", ", header.Take(most).Select(h => h.Length <= most ? h : h[..most] + "…")));
        return header.Count <= most ? shown : $"{shown} and {header.Count - most} more";
    }
}
