using System.Collections.Frozen;
using System.Text;
using nietras.SeparatedValues;

namespace JumpAnalytics;

/// <summary>
/// A file of separated values: its header and its rows, in order. Byte-order marks, encodings, separators, CR LF, quotes and decimal commas
/// are dealt with here.
/// </summary>
internal sealed partial class CsvFile : ILogTable
{
    private readonly string _path;
    private readonly Encoding _encoding;
    private readonly CsvDialect _dialect;
    private readonly int _above;
    private readonly IReadOnlySet<int> _decimalCommas = FrozenSet<int>.Empty;
    private readonly IReadOnlySet<int> _unreadPoints = FrozenSet<int>.Empty;

    private CsvFile(string path, bool headersAreFirst)
    {
        _path = path;
        using (var stream = OpenBytes(path))
        {
            (_encoding, var remark) = TextEncoding.Of(stream);
            using var text = new StreamReader(stream, _encoding);
            _dialect = CsvDialect.Of(text);
            Remarks = remark is null ? [] : [remark];
        }
        (Header, _above) = ReadHeader(headersAreFirst ? 1 : HeaderSearch.Rows);
        if (_above > 0) Remarks = [.. Remarks, $"the headers stand in row {_above + 1}; what stands above them was not read"];
        if (_dialect.Separator == ',') return;
        var commas = new DecimalCommas();
        foreach (var row in Rows()) commas.Add(row.Fields);
        (_decimalCommas, _unreadPoints) = (commas.Decimal, commas.UnreadPoints);
        Remarks = [.. Remarks, .. commas.Remarks(Header)];
    }

    public string Name => Path.GetFileName(_path);

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<string> Remarks { get; }

    /// <param name="path">The file.</param>
    /// <param name="headersAreFirst">Whether no title can stand above the headers.</param>
    /// <exception cref="LogFormatException">The file can't be opened or has no header.</exception>
    public static CsvFile Open(string path, bool headersAreFirst = false) => new(path, headersAreFirst);

    public IEnumerable<RawRow> Rows() => ReadAll().Skip(_above + 1);

    /// <summary>The headers, and how many rows stand above them.</summary>
    private (string[] Header, int Above) ReadHeader(int rows)
    {
        var top = ReadAll().Take(rows).TakeWhile((r, i) => i == 0 || r.QuoteTrouble is null).ToList();
        if (top.Count == 0) throw new LogFormatException($"{Name} is empty; its first line must hold the column headers.");
        var above = HeaderSearch.Among([.. top.Select(r => Trimmed(r.Fields))]);
        if (top[above].QuoteTrouble is { } trouble)
            throw new LogFormatException($"{Name}: in its header {trouble}, so lines 1 to {top[above].LastLine} may have run together. "
                + "Write the headers without quotes.");
        return (Trimmed(top[above].Fields), above);

        static string[] Trimmed(string[] fields) => [.. fields.Select(f => f.Trim().TrimStart('\uFEFF'))];
    }

    private IEnumerable<RawRow> ReadAll()
    {
        using var text = new StreamReader(OpenBytes(_path), _encoding);
        var before = _dialect.HasHint ? 1 : 0;
        if (_dialect.HasHint) text.ReadLine();
        // The first row is read when the reader is made.
        using var reader = Guarded(() => Sep.New(_dialect.Separator)
            .Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true }).From(text));
        while (Guarded(reader.MoveNext))
        {
            var row = reader.Current;
            var trouble = QuoteTrouble(row.Span, reader.Spec.Sep.Separator); // first: reading a field takes its quotes off in place
            var afterEnd = row.Span.Length > 0 && row.Span[^1] is '\n' or '\r' ? 1 : 0; // an open quote runs on past the last line's end
            var fields = new string[row.ColCount];
            for (var i = 0; i < fields.Length; i++) fields[i] = SpreadsheetText.Unguard(row[i].ToString());
            yield return new RawRow(new RowSource(Name, before + row.LineNumberFrom),
                before + row.LineNumberToExcl - 1 - afterEnd, fields, trouble)
            {
                DecimalCommas = _decimalCommas, UnreadPoints = _unreadPoints,
            };
        }
    }

    private T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is NotSupportedException or ArgumentException or OverflowException or IndexOutOfRangeException)
        {
            throw new LogFormatException(
                $"{Name} holds a row too long to be read: more than 16 million letters. Look for a quote that is not closed.", e);
        }
    }

    private static FileStream OpenBytes(string path)
    {
        var file = Path.GetFileName(path);
        try
        {
            var stream = File.OpenRead(path);
            Span<byte> start = stackalloc byte[64];
            start = start[..stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)];
            stream.Position = 0;
            var wide = start.StartsWith((byte[])[0xFF, 0xFE]) || start.StartsWith((byte[])[0xFE, 0xFF]);
            if (start.StartsWith("PK\u0003\u0004"u8) || (!wide && start.Contains((byte)0)))
            {
                stream.Dispose();
                throw new LogFormatException($"{file} is not a text "
                    + $"file{(start.StartsWith("PK"u8) ? " but a workbook or an archive" : "")}. Save the table as CSV UTF-8.");
            }
            return stream;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{file} can't be opened: {e.Message}", e);
        }
    }
}
