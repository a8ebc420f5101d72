namespace JumpAnalytics;

/// <summary>Where a row stands in what was read.</summary>
/// <param name="File">File name without its folder.</param>
/// <param name="Line">
/// Line of the file on which the row begins, counted from 1; in a workbook the row's number at the left edge. A file without lines
/// (Parquet) counts its rows from 2, as though its headers were line 1.
/// </param>
/// <param name="Sheet">Sheet of a workbook; null for a file that is one table.</param>
[TypeFormatterSource]
public readonly record struct RowSource(string File, int Line, string? Sheet = null)
{
    /// <summary>The file, and its sheet where it has several.</summary>
    public string Table => Sheet is null ? File : $"{File} [{Sheet}]";

    /// <inheritdoc/>
    public override string ToString() => $"{Table}:{Line}";
}
