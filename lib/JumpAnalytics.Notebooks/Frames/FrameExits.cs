using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>Ways out of a table into the two frame packages: for a reader's own pivots, joins and windows. Both keep what is absent absent.</summary>
/// <remarks>
/// An estimate becomes three columns (value, <c>_low</c>, <c>_high</c>), as in files. Counts and quantities are doubles or 32-bit integers, never
/// single precision. In Deedle a missing number is a missing value, in Microsoft.Data.Analysis a null.
/// </remarks>
public static class FrameExits
{
    /// <summary>The table as a Microsoft.Data.Analysis frame with explicit column types.</summary>
    /// <param name="table">A table of any result.</param>
    public static DataFrame ToDataFrame(this TableView table) => new(
        FrameColumn.Of(table).Select(DataFrameColumn (c) => c.Kind switch
        {
            FrameColumnKind.Text => new StringDataFrameColumn(c.Name, c.Values.Cast<string?>()),
            FrameColumnKind.Count => new Int32DataFrameColumn(c.Name, c.Values.Cast<int?>()),
            _ => new DoubleDataFrameColumn(c.Name, c.Values.Cast<double?>()),
        }));

    /// <summary>The table as a Deedle frame with rows keyed 0, 1, 2…</summary>
    /// <param name="table">A table of any result.</param>
    public static Frame<int, string> ToDeedle(this TableView table)
    {
        var columns = new FrameBuilder.Columns<int, string>();
        foreach (var column in FrameColumn.Of(table))
        {
            switch (column.Kind)
            {
                case FrameColumnKind.Text: columns.Add(column.Name, Sparse<string>(column)); break;
                case FrameColumnKind.Count: columns.Add(column.Name, Sparse<int>(column)); break;
                default: columns.Add(column.Name, Sparse<double>(column)); break;
            }
        }
        return columns.Frame;
    }

    private static Series<int, T> Sparse<T>(FrameColumn column)
    {
        var present = column.Values.Select((value, row) => (value, row)).Where(v => v.value is not null).ToList();
        var series = new Series<int, T>(present.Select(v => v.row), present.Select(v => (T)v.value!));
        return series.Realign(Enumerable.Range(0, column.Values.Count));
    }
}
