namespace JumpAnalytics;

/// <summary>Where a row stands in what was read.</summary>
/// <param name="File">File name without its folder.</param>
/// <param name="Line">Line of the file on which the row begins, counted from 1 (the header is line 1).</param>
public readonly record struct RowSource(string File, int Line)
{
    /// <inheritdoc/>
    public override string ToString() => $"{File}:{Line}";
}
