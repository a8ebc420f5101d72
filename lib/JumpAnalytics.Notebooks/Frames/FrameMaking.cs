using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>
/// Columns as a frame of either package. What is absent stays absent: a missing value in Deedle, a null in Microsoft.Data.Analysis.
/// </summary>
internal static class FrameMaking
{
    public static DataFrame DataFrameOf(IEnumerable<FrameColumn> columns) => new(columns.Select(DataFrameColumn (c) => c.Kind switch
    {
        FrameColumnKind.Text => new StringDataFrameColumn(c.Name, c.Values.Cast<string?>()),
        FrameColumnKind.Count => new Int32DataFrameColumn(c.Name, c.Values.Cast<int?>()),
        FrameColumnKind.YesNo => new BooleanDataFrameColumn(c.Name, c.Values.Cast<bool?>()),
        FrameColumnKind.Day => new DateTimeDataFrameColumn(c.Name, c.Values.Cast<DateTime?>()),
        _ => new DoubleDataFrameColumn(c.Name, c.Values.Cast<double?>()),
    }));

    public static Frame<TKey, string> DeedleOf<TKey>(IReadOnlyList<TKey> keys, IEnumerable<FrameColumn> columns) where TKey : notnull
    {
        var frame = new FrameBuilder.Columns<TKey, string>();
        foreach (var column in columns)
        {
            switch (column.Kind)
            {
                case FrameColumnKind.Text: frame.Add(column.Name, Sparse<TKey, string>(keys, column)); break;
                case FrameColumnKind.Count: frame.Add(column.Name, Sparse<TKey, int>(keys, column)); break;
                case FrameColumnKind.YesNo: frame.Add(column.Name, Sparse<TKey, bool>(keys, column)); break;
                case FrameColumnKind.Day: frame.Add(column.Name, Sparse<TKey, DateTime>(keys, column)); break;
                default: frame.Add(column.Name, Sparse<TKey, double>(keys, column)); break;
            }
        }
        return frame.Frame;
    }

    private static Series<TKey, T> Sparse<TKey, T>(IReadOnlyList<TKey> keys, FrameColumn column) where TKey : notnull
    {
        var present = column.Values.Select((value, row) => (value, row)).Where(v => v.value is not null).ToList();
        var series = new Series<TKey, T>(present.Select(v => keys[v.row]), present.Select(v => (T)v.value!));
        return series.Realign(keys);
    }
}
