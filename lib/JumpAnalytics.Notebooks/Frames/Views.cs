using System.Globalization;
using Deedle;

namespace JumpAnalytics;

/// <summary>A frame of another package as a table that shows itself.</summary>
internal static class Views
{
    private const int MostRows = 200;

    public static TableView OfFrame(IFrame frame) => frame.Apply(new ToTable());

    private sealed class ToTable : IFrameOperation<TableView>
    {
        public TableView Invoke<TRow, TColumn>(Frame<TRow, TColumn> frame)
        {
            var rows = frame.RowKeys.Take(MostRows).Select(key => (object?[])
                [Text(key), .. frame.ColumnKeys.Select(c => frame.Columns[c].TryGet(key) is { HasValue: true } cell ? Text(cell.Value) : null)]);
            return new TableView("frame", $"Frame of {frame.RowCount} rows and {frame.ColumnCount} columns",
                [Column(""), .. frame.ColumnKeys.Select(c => Column(Text(c) ?? ""))], [.. rows],
                frame.RowCount > MostRows ? $"The first {MostRows} rows." : null);
        }

        private static TableColumn Column(string name) => new(name, name, CellFormat.Text, name);

        private static string? Text(object? value) => Convert.ToString(value, CultureInfo.InvariantCulture);
    }
}
