namespace JumpAnalytics;

/// <summary>The tables of a log, found in the files of a folder or in one file.</summary>
internal sealed record LogFiles(string Name, string? Notice, IReadOnlyList<ILogTable> Drops, IReadOnlyList<ILogTable> Landings,
    IReadOnlyList<ILogTable> Flat)
{
    /// <summary>What to know of files that look like part of the log and were not read.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <exception cref="LogFormatException">There is no log at the path; the message says what was found and what is accepted.</exception>
    public static LogFiles Find(string path)
    {
        var name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(path)));
        if (File.Exists(path)) return Of(name, null, TableFormats.Open(path, null)) ?? throw HalfALog(name);
        if (!Directory.Exists(path))
            throw new LogFormatException($"There is no file or folder '{name}'. "
                + "Give the folder that holds drops.csv and landings.csv, or one flat table.");
        var all = Directory.GetFiles(path).Where(f => !IsLeftOpen(f)).Order(StringComparer.Ordinal).ToList();
        var ledgers = all.Where(QuarantineLedger.IsLedger).ToList();
        var files = all.Except(ledgers).ToList();
        var named = files.Where(f => TableFormats.RoleOf(Path.GetFileName(f)) is not null).ToList();
        var unread = named.Where(f => !TableFormats.HasEnding(f, TableFormats.Endings)).Select(f => Path.GetFileName(f)!).ToList();
        var tables = files.Where(f => TableFormats.HasEnding(f, TableFormats.TableEndings)).ToList();
        IReadOnlyList<string> read =
            named.Count > 0 || tables.Count != 1 ? [.. named.Where(f => TableFormats.HasEnding(f, TableFormats.Endings))] : tables;
        var log = Of(name, NoticeIn(path), [.. read.SelectMany(f => TableFormats.Open(f, TableFormats.RoleOf(Path.GetFileName(f))))]);
        return log is null ? throw NoLog(name, [.. named.Union(tables).Order(StringComparer.Ordinal).Select(f => Path.GetFileName(f)!)])
            : QuarantineLedger.Apply([.. ledgers.Select(l => CsvFile.Open(l, headersAreFirst: true))], log) with { Remarks =
                unread.Count == 0 ? [] : [$"Not read, for their format is none that is known: {string.Join(", ", unread)}."] };
    }

    private static LogFiles? Of(string name, string? notice, IReadOnlyList<RoleTable> tables)
    {
        var byRole = tables.ToLookup(t => t.Role, t => t.Table);
        var log = new LogFiles(name, notice, [.. byRole[TableRole.Drops]], [.. byRole[TableRole.Landings]], [.. byRole[TableRole.Flat]]);
        return log.Flat.Count > 0 || (log.Drops.Count > 0 && log.Landings.Count > 0) ? log : null;
    }

    /// <summary>What a spreadsheet lays beside a workbook while it is open.</summary>
    private static bool IsLeftOpen(string path) =>
        Path.GetFileName(path).StartsWith("~$", StringComparison.Ordinal) || Path.GetFileName(path).StartsWith('.');

    private static LogFormatException HalfALog(string name) =>
        new($"'{name}' holds drops or landings but not both. Give the folder that holds drops and landings together, or one flat table.");

    private static LogFormatException NoLog(string name, IReadOnlyList<string> found) => new(
        $"'{name}' holds no log. Accepted: files drops*.csv and landings*.csv together, or a single flat table; the endings may also be "
        + $"{string.Join(' ', TableFormats.Endings.Skip(1))}. "
        + (found.Count == 0 ? "There is no table in it." : $"Found: {string.Join(", ", found)}."));

    private static string? NoticeIn(string folder)
    {
        var file = Path.Combine(folder, "notice.txt");
        try
        {
            return File.Exists(file) && File.ReadAllText(file).Trim() is { Length: > 0 } text ? text.ReplaceLineEndings(" ") : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"notice.txt can't be opened: {e.Message}", e);
        }
    }
}
