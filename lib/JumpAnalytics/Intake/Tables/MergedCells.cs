namespace JumpAnalytics;

/// <summary>A block of merged cells: rows as numbered at the left edge, columns counted from 0, both ends included.</summary>
internal readonly record struct MergedCells(int Top, int Left, int Bottom, int Right)
{
    /// <summary>Reads a range such as <c>B2:C3</c>.</summary>
    public static MergedCells Parse(string range)
    {
        var ends = range.Split(':');
        return new MergedCells(Row(ends[0]), Column(ends[0]), Row(ends[^1]), Column(ends[^1]));
    }

    /// <summary>The column of a reference such as <c>AB12</c>, counted from 0.</summary>
    public static int Column(string reference)
    {
        var column = 0;
        foreach (var c in reference.AsSpan().TrimStart('$'))
        {
            if (!char.IsAsciiLetter(c)) break;
            column = Math.Min(26 * column + (c & 31), 1 << 20);
        }
        return Math.Max(column - 1, 0);
    }

    private static int Row(string reference) =>
        int.TryParse(reference.AsSpan().TrimStart("$ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"), out var row) ? row : 0;
}
