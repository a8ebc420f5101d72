namespace JumpAnalytics;

/// <summary>The files of a log, found in a folder or named singly.</summary>
internal sealed record LogFiles(string Name, string? Notice, IReadOnlyList<ILogTable> Drops, IReadOnlyList<ILogTable> Landings, IReadOnlyList<ILogTable> Flat)
{
    private static readonly EnumerationOptions _anyCase = new() { MatchCasing = MatchCasing.CaseInsensitive, AttributesToSkip = 0 };

    /// <exception cref="LogFormatException">There is no log at the path; the message says what was found and what is accepted.</exception>
    public static LogFiles Find(string path)
    {
        var name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(path)));
        if (File.Exists(path)) return new LogFiles(name, null, [], [], [OpenTable(path)]);
        if (!Directory.Exists(path))
            throw new LogFormatException($"There is no file or folder '{name}'. Give the folder that holds drops.csv and landings.csv, or one flat table.");
        var all = Directory.GetFiles(path, "*.csv", _anyCase).Order(StringComparer.Ordinal).ToList();
        var ledgers = all.Where(QuarantineLedger.IsLedger).ToList();
        var names = all.Except(ledgers).ToList();
        var drops = Named("drops");
        var landings = Named("landings");
        if (drops.Count > 0 && landings.Count > 0) return QuarantineLedger.Apply(Open(ledgers), new LogFiles(name, NoticeIn(path), Open(drops), Open(landings), []));
        if (drops.Count == 0 && landings.Count == 0 && names.Count == 1) return QuarantineLedger.Apply(Open(ledgers), new LogFiles(name, NoticeIn(path), [], [], Open(names)));
        throw new LogFormatException(
            $"'{name}' holds no log. Accepted: files drops*.csv and landings*.csv together, or a single flat table. "
            + (names.Count == 0 ? "There is no .csv file in it." : $"Found: {string.Join(", ", names.Select(Path.GetFileName))}."));

        List<string> Named(string start) =>
            [.. names.Where(n => Path.GetFileName(n).StartsWith(start, StringComparison.OrdinalIgnoreCase))];
    }

    private static string? NoticeIn(string folder)
    {
        var file = Path.Combine(folder, "notice.txt");
        return File.Exists(file) && File.ReadAllText(file).Trim() is { Length: > 0 } text ? text.ReplaceLineEndings(" ") : null;
    }

    private static ILogTable OpenTable(string path) => CsvFile.Open(path);

    private static IReadOnlyList<ILogTable> Open(IEnumerable<string> paths) => [.. paths.Select(OpenTable)];
}
