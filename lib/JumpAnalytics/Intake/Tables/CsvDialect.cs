namespace JumpAnalytics;

/// <summary>How a file of separated values parts its fields and writes its decimals.</summary>
/// <param name="Separator">Comma, semicolon, tab or upright bar.</param>
/// <param name="HasHint">Whether the first line is a spreadsheet's hint such as <c>sep=;</c> and no header.</param>
internal sealed record CsvDialect(char Separator, bool HasHint)
{
    private const string Separators = ",;\t|";

    /// <summary>
    /// Reads the dialect off the first line: the separator that stands most often outside quotes, a comma when there is none.
    /// </summary>
    /// <param name="text">The file from its first letter.</param>
    public static CsvDialect Of(TextReader text)
    {
        var first = text.ReadLine() ?? "";
        if (first.Length == 5 && first.StartsWith("sep=", StringComparison.OrdinalIgnoreCase)
            && Separators.Contains(first[4], StringComparison.Ordinal))
            return new CsvDialect(first[4], HasHint: true);
        while (first is not null && first.Length == 0) first = text.ReadLine();
        var counts = new int[Separators.Length];
        var quoted = false;
        foreach (var c in first ?? "")
        {
            quoted ^= c == '"';
            if (!quoted && Separators.IndexOf(c, StringComparison.Ordinal) is var i and >= 0) counts[i]++;
        }
        return new CsvDialect(Separators[Array.IndexOf(counts, counts.Max())], HasHint: false);
    }
}
