using System.Globalization;
using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>A frame or series of another package as a table that shows itself.</summary>
internal static class Views
{
    private const int MostRows = 200;

    public static TableView OfFrame(IFrame frame) => frame.Apply(new ToTable());

    public static TableView OfFrame(DataFrame frame)
    {
        var title = $"Frame of {Rounding.Count(frame.Rows.Count, "row")} and {Rounding.Count(frame.Columns.Count, "column")}";
        var table = Table(title, frame.Rows.Index(), frame.Rows.Count, "row", r => r.Index);
        foreach (var (at, column) in frame.Columns.Index()) table.Add(Named(column.Name), r => Text(r.Item[at]));
        return table;
    }

    public static TableView OfSeries<TKey, TValue>(Series<TKey, TValue> series)
    {
        var table = Table($"Series of {Rounding.Count(series.KeyCount, "value")}", series.Keys, series.KeyCount, "key", key => key);
        table.Add(Named("value"), key => series.TryGet(key) is { HasValue: true } cell ? Text(cell.Value) : null);
        return table;
    }

    private sealed class ToTable : IFrameOperation<TableView>
    {
        public TableView Invoke<TRow, TColumn>(Frame<TRow, TColumn> frame)
        {
            var title = $"Frame of {Rounding.Count(frame.RowCount, "row")} and {Rounding.Count(frame.ColumnCount, "column")}";
            var table = Table(title, frame.RowKeys, frame.RowCount, "key", key => key);
            foreach (var at in frame.ColumnKeys)
                table.Add(Named(Text(at) ?? ""), key => frame.Columns[at].TryGet(key) is { HasValue: true } cell ? Text(cell.Value) : null);
            return table;
        }
    }

    private static TableOf<T> Table<T>(string title, IEnumerable<T> rows, long count, string keyName, Func<T, object?> key) =>
        new("frame", title, rows.Take(MostRows), count > MostRows ? $"The first {MostRows} rows." : null)
        {
            { Named(keyName), row => Text(key(row)) },
        };

    private static TableColumn Named(string name) => new(name, name, CellFormat.Text, name);

    private static string? Text(object? value) => value is null ? null : Convert.ToString(value, CultureInfo.InvariantCulture);
}
