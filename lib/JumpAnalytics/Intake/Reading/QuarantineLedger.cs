using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// Refused rows as files that can be repaired and read again: for each file <c>x.csv</c> of the log a file <c>x-quarantine.csv</c> with
/// the file's own headers after four columns of the ledger. In a folder with the originals, a changed row of the ledger stands in place of
/// the row it names. Originals are never changed.
/// </summary>
public static partial class QuarantineLedger
{
    internal const string NameEnd = "-quarantine.csv";

    /// <summary>The ledger's own columns: where the row stands, the mark of its fields there, why it was refused, what to try.</summary>
    internal static readonly string[] OwnColumns = ["quarantine_source", "quarantine_mark", "quarantine_reason", "quarantine_what_to_try"];

    internal static bool IsLedger(string path) => path.EndsWith(NameEnd, StringComparison.OrdinalIgnoreCase);

    /// <summary>
    /// Writes the refused rows of a log, one file for each file of the log that has any. To repair: correct the fields (not the ledger's
    /// own columns), put the ledger beside the originals, and read the folder again. A row left as it was, or left out, stays refused; a
    /// row that was only too short counts as corrected when one of the missing fields holds something, NA where nothing is known. Texts
    /// that a spreadsheet would run as a formula have an apostrophe before them, which is taken off when the ledger is read.
    /// </summary>
    /// <param name="log">The records.</param>
    /// <param name="folder">Where to; made when it is not there.</param>
    /// <returns>The files written.</returns>
    /// <exception cref="InvalidOperationException">
    /// The log was read with a ledger, which is to be corrected further and not begun anew, or two of its files would share one ledger.
    /// </exception>
    /// <exception cref="IOException">A file is already there (nothing is overwritten), or the folder can't be written to.</exception>
    public static IReadOnlyList<string> WriteQuarantine(this JumpLog log, string folder)
    {
        if (log.Intake.Files.FirstOrDefault(f => f.Ledger is not null) is { } file)
            throw new InvalidOperationException($"{file.File} was read with {file.Ledger}: go on correcting that ledger; "
                + "a new one would lose the rows that are repaired already.");
        var ledgers = Of(log.Intake).Select(l => (l.File, Path: Path.Combine(folder, l.Name), l.Rows)).ToList();
        if (ledgers.GroupBy(l => l.Path, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } shared)
            throw new InvalidOperationException($"{string.Join(" and ", shared.Select(l => l.File.File))} would share the ledger "
                + $"{Path.GetFileName(shared.Key)}: give one of them another name.");
        if (ledgers.Find(l => File.Exists(l.Path)).Path is { } there)
            throw new IOException($"{Path.GetFileName(there)} is already there: move it away first, it may hold repairs.");
        Directory.CreateDirectory(folder);
        foreach (var (source, path, rows) in ledgers)
            File.WriteAllText(path, Text(source.Header, rows), new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        return [.. ledgers.Select(l => l.Path)];
    }

    /// <summary>
    /// The ledgers as files to lay beside a report; those of files with odd names, or begun already, are left to
    /// <see cref="WriteQuarantine"/>.
    /// </summary>
    internal static IEnumerable<ShownFile> Attachments(IntakeReport intake) =>
        from ledger in Of(intake)
        where ledger.File.Ledger is null && PlainName().IsMatch(ledger.Name)
        group ledger by ledger.Name.ToUpperInvariant() into same
        where same.Count() == 1
        select new ShownFile(same.First().Name, Text(same.First().File.Header, same.First().Rows));

    private static IEnumerable<(FileIntake File, string Name, List<QuarantinedRow> Rows)> Of(IntakeReport intake) =>
        intake.Files.Select(f => (f, NameFor(f.File), intake.Quarantine.Where(q => q.Source.Table == f.File).ToList()))
            .Where(l => l.Item3.Count > 0);

    [GeneratedRegex(@"\A[A-Za-z0-9][A-Za-z0-9 _().-]*\z")]
    private static partial Regex PlainName();

    /// <summary>Puts the changed rows of ledgers in place of the rows they name.</summary>
    /// <exception cref="LogFormatException">
    /// A row of a ledger can't be placed: applying the others alone would lose a repair in silence.
    /// </exception>
    internal static LogFiles Apply(IReadOnlyList<ILogTable> ledgers, LogFiles files)
    {
        if (ledgers.Count == 0) return files;
        var named = new Dictionary<string, ILogTable>(StringComparer.OrdinalIgnoreCase);
        if (ledgers.FirstOrDefault(l => !named.TryAdd(l.Name, l)) is { } twin)
            throw new LogFormatException($"{twin.Name} and {named[twin.Name].Name} differ in case alone: keep one of them.");
        var applied = files with { Drops = Repaired(files.Drops), Landings = Repaired(files.Landings), Flat = Repaired(files.Flat) };
        return named.Count == 0 ? applied
            : throw new LogFormatException($"{named.Values.First().Name} belongs to no file of the log; "
                + $"a ledger is named like its file, with {NameEnd} in place of the extension.");

        IReadOnlyList<ILogTable> Repaired(IReadOnlyList<ILogTable> tables) =>
            [.. tables.Select(t => named.Remove(NameFor(t.Name), out var ledger) ? new RepairedTable(t, ledger) : t)];
    }

    /// <summary>
    /// A short mark of fields, so that a repair is not put in place of another row when the original was changed meanwhile.
    /// </summary>
    internal static string Mark(IReadOnlyList<string> fields) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Concat(fields.Select(f => f + '\u001F')))))[..12];

    /// <summary>The ledger of a file, or of one sheet of a workbook: <c>log-drops-quarantine.csv</c> for <c>log.xlsx [drops]</c>.</summary>
    private static string NameFor(string table)
    {
        var sheet = table.EndsWith(']') ? table.LastIndexOf(" [", StringComparison.Ordinal) : -1;
        return sheet < 0 ? Path.GetFileNameWithoutExtension(table) + NameEnd
            : $"{Path.GetFileNameWithoutExtension(table[..sheet])}-"
                + $"{string.Concat(table[(sheet + 2)..^1].Split(Path.GetInvalidFileNameChars()))}{NameEnd}";
    }

    private static string Text(IReadOnlyList<string> header, IEnumerable<QuarantinedRow> rows)
    {
        var text = new StringBuilder();
        Line(OwnColumns.Concat(header));
        foreach (var row in rows)
        {
            Line([
                row.Source.ToString(), Mark(row.Fields), string.Join("; ", row.Problems.Select(p => $"{p.Column}: {p.Reason}").Distinct()),
                string.Join("; ", row.Problems.Select(p => p.Try).Distinct()), .. row.Fields,
            ]);
        }
        return text.ToString();

        void Line(IEnumerable<string> fields) => text.AppendJoin(',', fields.Select(f => Quoted(SpreadsheetText.Guard(f)))).Append("\r\n");
    }

    private static string Quoted(string field) =>
        field.AsSpan().ContainsAny(",\"\r\n;\t|") || field != field.Trim()
            ? $"\"{field.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : field;
}
