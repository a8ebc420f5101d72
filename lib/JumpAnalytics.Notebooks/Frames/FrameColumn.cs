using System.Globalization;

namespace JumpAnalytics;

/// <summary>The type of a column of a frame.</summary>
internal enum FrameColumnKind
{
    Text, Count, Quantity, YesNo, Day,
}

/// <summary>A column as a frame holds it: one value or null for each row.</summary>
internal sealed record FrameColumn(string Name, FrameColumnKind Kind, IReadOnlyList<object?> Values)
{
    /// <summary>The columns of a table; an estimate becomes three.</summary>
    public static IEnumerable<FrameColumn> Of(TableView table)
    {
        for (var i = 0; i < table.Columns.Count; i++)
        {
            var (column, cells) = (table.Columns[i], table.Rows.Select(r => r[i]).ToList());
            switch (column.Format)
            {
                case CellFormat.Text:
                    yield return new(column.Name, FrameColumnKind.Text, Each(c => Convert.ToString(c, CultureInfo.InvariantCulture)));
                    break;
                case CellFormat.Count: yield return new(column.Name, FrameColumnKind.Count, cells); break;
                case CellFormat.Number or CellFormat.Precise or CellFormat.Share or CellFormat.Probability or CellFormat.PValue:
                    yield return new(column.Name, FrameColumnKind.Quantity, Each(c => Convert.ToDouble(c, CultureInfo.InvariantCulture)));
                    break;
                default:
                    yield return Part(column.FileNames[0], e => e.Value);
                    yield return Part(column.FileNames[1], e => e.Range?.Low);
                    yield return Part(column.FileNames[2], e => e.Range?.High);
                    break;
            }

            // A cell may hold a number where its column is text (the line of a file), and a whole one where it is a quantity.
            IReadOnlyList<object?> Each(Func<object, object?> convert) => [.. cells.Select(c => c is null ? null : convert(c))];

            FrameColumn Part(string name, Func<Estimate, double?> of) =>
                new(name, FrameColumnKind.Quantity, [.. cells.Select(c => c is Estimate e ? (object?)of(e) : null)]);
        }
    }

    /// <summary>The columns of a table as a log writes it.</summary>
    public static IEnumerable<FrameColumn> Of(WrittenTable table) => table.Columns.Select((c, i) => new FrameColumn(c.Header,
        c.Type == typeof(string) ? FrameColumnKind.Text : c.Type == typeof(int) ? FrameColumnKind.Count : c.Type == typeof(bool)
            ? FrameColumnKind.YesNo : FrameColumnKind.Quantity,
        [.. table.Rows.Select(r => r[i])]));
}
