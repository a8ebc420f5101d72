namespace JumpAnalytics;

internal sealed partial class CsvFile
{
    /// <summary>
    /// Looks for a quoted stretch that holds a separator or a line break and does not fill its field, such as two
    /// inch marks some rows apart.
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
}
