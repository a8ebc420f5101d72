using System.Text;
using nietras.SeparatedValues;

namespace JumpAnalytics;

/// <summary>One row as it was read: text and place, nothing interpreted.</summary>
/// <param name="Source">File and line on which the row begins.</param>
/// <param name="LastLine">Line on which it ends; a quoted field may hold line breaks.</param>
/// <param name="Fields">The fields without their quotes.</param>
/// <param name="OpenQuote">Whether a quote is opened and never closed.</param>
internal sealed record RawRow(RowSource Source, int LastLine, string[] Fields, bool OpenQuote)
{
    public bool IsBlank => Array.TrueForAll(Fields, string.IsNullOrWhiteSpace);
}

/// <summary>A file of separated values: its header and its rows, in order. Byte-order marks, CR LF and quotes are dealt with here.</summary>
internal sealed class CsvFile
{
    private readonly string _path;

    private CsvFile(string path, string[] header) => (_path, Header) = (path, header);

    public string Name => Path.GetFileName(_path);

    public IReadOnlyList<string> Header { get; }

    /// <exception cref="LogFormatException">The file can't be opened or has no header.</exception>
    public static CsvFile Open(string path)
    {
        foreach (var row in ReadAll(path))
        {
            var header = row.Fields.Select(f => f.Trim().TrimStart('\uFEFF')).ToArray();
            return new CsvFile(path, header);
        }
        throw new LogFormatException($"{Path.GetFileName(path)} is empty; its first line must hold the column headers.");
    }

    public IEnumerable<RawRow> Rows() => ReadAll(_path).Skip(1);

    private static IEnumerable<RawRow> ReadAll(string path)
    {
        var file = Path.GetFileName(path);
        using var text = OpenText(path, file);
        using var reader = Sep.Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true }).From(text);
        while (reader.MoveNext())
        {
            var row = reader.Current;
            var fields = new string[row.ColCount];
            for (var i = 0; i < fields.Length; i++) fields[i] = row[i].ToString();
            yield return new RawRow(new RowSource(file, row.LineNumberFrom), row.LineNumberToExcl - 1, fields,
                OpenQuote: row.Span.Count('"') % 2 == 1);
        }
    }

    private static StreamReader OpenText(string path, string file)
    {
        try
        {
            return new StreamReader(path, Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{file} can't be opened: {e.Message}", e);
        }
    }
}
