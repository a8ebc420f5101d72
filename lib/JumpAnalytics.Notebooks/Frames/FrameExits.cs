using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>
/// Ways out of a table into the two frame packages: for a reader's own pivots, joins and windows. Both keep what is absent absent.
/// </summary>
/// <remarks>
/// An estimate becomes three columns (value, <c>_low</c>, <c>_high</c>), as in files. Counts and quantities are doubles or 32-bit integers,
/// never single precision. In Deedle a missing number is a missing value, in Microsoft.Data.Analysis a null.
/// </remarks>
public static class FrameExits
{
    /// <summary>The table as a Microsoft.Data.Analysis frame with explicit column types.</summary>
    /// <param name="table">A table of any result.</param>
    public static DataFrame ToDataFrame(this TableView table) => FrameMaking.DataFrameOf(FrameColumn.Of(table));

    /// <summary>The table as a Deedle frame with rows keyed 0, 1, 2…</summary>
    /// <param name="table">A table of any result.</param>
    public static Frame<int, string> ToDeedle(this TableView table) =>
        FrameMaking.DeedleOf([.. Enumerable.Range(0, table.Rows.Count)], FrameColumn.Of(table));

    /// <summary>A Deedle frame as a Microsoft.Data.Analysis frame: its keys become the first column.</summary>
    /// <param name="frame">A frame whose values are texts, numbers, days, yes or no.</param>
    /// <param name="keyName">Name of the column of keys.</param>
    /// <exception cref="ArgumentException">A column holds values of another type; the message names it.</exception>
    public static DataFrame ToDataFrame<TKey>(this Frame<TKey, string> frame, string keyName = "key") where TKey : notnull =>
        FrameMaking.DataFrameOf(
            [new(keyName, FrameColumnKind.Text, [.. frame.RowKeys.Select(k => FrameReading.Text(k))]), .. FrameReading.Columns(frame)]);

    /// <summary>A Microsoft.Data.Analysis frame as a Deedle frame.</summary>
    /// <param name="frame">A frame whose values are texts, numbers, days, yes or no.</param>
    /// <param name="keyName">The column that gives the keys; without it, rows are keyed by their number from 0.</param>
    /// <exception cref="ArgumentException">
    /// There is no such column, a key is missing or comes twice, or a column holds values of another type.
    /// </exception>
    public static Frame<string, string> ToDeedle(this DataFrame frame, string? keyName = null)
    {
        var columns = FrameReading.Columns(frame).ToList();
        if (keyName is null)
            return FrameMaking.DeedleOf([.. Enumerable.Range(0, (int)frame.Rows.Count).Select(i => FrameReading.Text(i)!)], columns);
        var key = columns.Find(c => c.Name == keyName)
            ?? throw new ArgumentException(
                $"The frame has no column '{keyName}'; there are {string.Join(", ", columns.Select(c => c.Name))}.", nameof(keyName));
        if (key.Values.Contains(null))
            throw new ArgumentException($"The key '{keyName}' is missing in row {key.Values.ToList().IndexOf(null)}.", nameof(keyName));
        string[] keys = [.. key.Values.Select(v => FrameReading.Text(v)!)];
        if (keys.GroupBy(k => k).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new ArgumentException($"The key '{keyName}' is {twice.Key} in {twice.Count()} rows; a key names one row.",
                nameof(keyName));
        return FrameMaking.DeedleOf(keys, columns.Where(c => c != key));
    }
}
