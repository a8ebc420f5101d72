using System.Globalization;
using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>A frame or series of another package as a table that shows itself.</summary>
internal static class Views
{
    private const int MostRows = 200;

    public static TableView OfFrame(IFrame frame) => frame.Apply(new ToTable());

    public static TableView OfFrame(DataFrame frame) => Table($"Frame of {Rounding.Count(frame.Rows.Count, "row")} and {Rounding.Count(frame.Columns.Count, "column")}",
        ["row", .. frame.Columns.Select(c => c.Name)], frame.Rows.Count, frame.Rows.Select((row, i) => (object?[])[Text(i), .. row.Select(Text)]));

    public static TableView OfSeries<TKey, TValue>(Series<TKey, TValue> series) => Table($"Series of {Rounding.Count(series.KeyCount, "value")}",
        ["key", "value"], series.KeyCount, series.Keys.Select(key => (object?[])[Text(key), series.TryGet(key) is { HasValue: true } cell ? Text(cell.Value) : null]));

    private sealed class ToTable : IFrameOperation<TableView>
    {
        public TableView Invoke<TRow, TColumn>(Frame<TRow, TColumn> frame) =>
            Table($"Frame of {Rounding.Count(frame.RowCount, "row")} and {Rounding.Count(frame.ColumnCount, "column")}", ["key", .. frame.ColumnKeys.Select(c => Text(c) ?? "")], frame.RowCount,
                frame.RowKeys.Select(key => (object?[])[Text(key), .. frame.ColumnKeys.Select(c => frame.Columns[c].TryGet(key) is { HasValue: true } cell ? Text(cell.Value) : null)]));
    }

    private static TableView Table(string title, IEnumerable<string> columns, long count, IEnumerable<object?[]> rows) =>
        new("frame", title, [.. columns.Select(name => new TableColumn(name, name, CellFormat.Text, name))], [.. rows.Take(MostRows)],
            count > MostRows ? $"The first {MostRows} rows." : null);

    private static string? Text(object? value) => value is null ? null : Convert.ToString(value, CultureInfo.InvariantCulture);
}
