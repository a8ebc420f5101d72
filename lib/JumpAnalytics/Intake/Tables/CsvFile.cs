using System.Text;
using nietras.SeparatedValues;

namespace JumpAnalytics;

/// <summary>A file of separated values: its header and its rows, in order. Byte-order marks, CR LF and quotes are dealt with here.</summary>
internal sealed class CsvFile : ILogTable
{
    private readonly string _path;

    private CsvFile(string path, string[] header) => (_path, Header) = (path, header);

    public string Name => Path.GetFileName(_path);

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<string> Remarks => [];

    /// <exception cref="LogFormatException">The file can't be opened or has no header.</exception>
    public static CsvFile Open(string path)
    {
        foreach (var row in ReadAll(path))
        {
            if (row.QuoteTrouble is { } trouble)
                throw new LogFormatException($"{Path.GetFileName(path)}: in its header {trouble}, so lines 1 to {row.LastLine} may have run together. Write the headers without quotes.");
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
        while (Next(reader, file))
        {
            var row = reader.Current;
            var trouble = QuoteTrouble(row.Span, reader.Spec.Sep.Separator); // first: reading a field takes its quotes off in place
            var afterEnd = row.Span.Length > 0 && row.Span[^1] is '\n' or '\r' ? 1 : 0; // an open quote runs on past the last line's end
            var fields = new string[row.ColCount];
            for (var i = 0; i < fields.Length; i++) fields[i] = row[i].ToString();
            yield return new RawRow(new RowSource(file, row.LineNumberFrom), row.LineNumberToExcl - 1 - afterEnd, fields, trouble);
        }
    }

    private static bool Next(SepReader reader, string file)
    {
        try
        {
            return reader.MoveNext();
        }
        catch (NotSupportedException e)
        {
            throw new LogFormatException($"{file} holds a row too long to be read: more than 16 million letters. Look for a quote that is not closed.", e);
        }
    }

    /// <summary>
    /// Looks for a quoted stretch that holds a separator or a line break and does not fill its field, such as two inch marks some rows apart.
    /// </summary>
    private static string? QuoteTrouble(ReadOnlySpan<char> row, char separator)
    {
        if (!row.Contains('"')) return null;
        var (inside, fills, holds, atStart, stray) = (false, false, false, true, false);
        for (var i = 0; i < row.Length; i++)
        {
            var c = row[i];
            if (c == '"' && !inside)
            {
                (inside, fills, holds) = (true, atStart, false);
            }
            else if (c == '"')
            {
                if (i + 1 < row.Length && row[i + 1] == '"')
                {
                    i++;
                    continue;
                }
                inside = false;
                var rest = row[(i + 1)..].TrimStart(' ');
                stray |= holds && !(fills && (rest.IsEmpty || rest[0] == separator));
            }
            else if (inside)
            {
                holds |= c == separator || c is '\n' or '\r';
            }
            atStart = !inside && (c == separator || (atStart && c == ' '));
        }
        return inside ? RawRow.OpenQuote : stray ? RawRow.StrayQuote : null;
    }

    private static StreamReader OpenText(string path, string file)
    {
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
                throw new LogFormatException($"{file} is not a text file{(start.StartsWith("PK"u8) ? " but a workbook or an archive" : "")}. Save the table as CSV UTF-8.");
            }
            return new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{file} can't be opened: {e.Message}", e);
        }
    }
}
