namespace JumpAnalytics;

/// <summary>How a file of separated values parts its fields and writes its decimals.</summary>
/// <param name="Separator">Comma, semicolon, tab or upright bar.</param>
/// <param name="HasHint">Whether the first line is a spreadsheet's hint such as <c>sep=;</c> and no header.</param>
internal sealed record CsvDialect(char Separator, bool HasHint)
{
    private const string Separators = ",;\t|";

    /// <summary>Letters of a line that are looked at; a line may be as long as the file.</summary>
    private const int LongestLine = 1 << 20;

    /// <summary>
    /// Reads the dialect off the first line: the separator that stands most often outside quotes, a comma when there is none. A first line
    /// with one separator or none may be a title; then the line among the first with the most separators tells.
    /// </summary>
    /// <param name="text">The file from its first letter.</param>
    public static CsvDialect Of(TextReader text)
    {
        var first = Line(text);
        if (first is { Length: 5 } && first.StartsWith("sep=", StringComparison.OrdinalIgnoreCase)
            && Separators.Contains(first[4], StringComparison.Ordinal))
            return new CsvDialect(first[4], HasHint: true);
        while (first is not null && first.Length == 0) first = Line(text);
        var counts = Count(first ?? "");
        for (var i = 1; counts.Max() <= 1 && i < HeaderSearch.Rows && Line(text) is { } line; i++)
        {
            if (Count(line) is var more && more.Max() > 2) counts = more;
        }
        return new CsvDialect(Separators[Array.IndexOf(counts, counts.Max())], HasHint: false);
    }

    private static int[] Count(string line)
    {
        var counts = new int[Separators.Length];
        var quoted = false;
        foreach (var c in line)
        {
            quoted ^= c == '"';
            if (!quoted && Separators.IndexOf(c, StringComparison.Ordinal) is var i and >= 0) counts[i]++;
        }
        return counts;
    }

    /// <summary>A line, cut where it is longer than any header; null at the end.</summary>
    private static string? Line(TextReader text)
    {
        var line = new System.Text.StringBuilder();
        for (var c = text.Read(); c >= 0; c = text.Read())
        {
            if (c is '\n' or '\r')
            {
                if (c == '\r' && text.Peek() == '\n') text.Read();
                return line.ToString();
            }
            if (line.Length == LongestLine) return line.ToString();
            line.Append((char)c);
        }
        return line.Length > 0 ? line.ToString() : null;
    }
}
