using System.Text;

namespace JumpAnalytics;

/// <summary>A table as plain text with aligned columns.</summary>
internal static class TableText
{
    public static void Write(TableView table, StringBuilder text)
    {
        var lines = new List<string[]> { table.Columns.Select(c => c.Label).ToArray() };
        lines.AddRange(table.Rows.Select(r => r.Select((cell, i) => Line(TableView.Show(cell, table.Columns[i].Format))).ToArray()));
        var widths = Enumerable.Range(0, table.Columns.Count).Select(i => lines.Max(l => l[i].Length)).ToArray();
        text.Append(table.Title).Append('\n');
        foreach (var line in lines)
        {
            var cells = line.Select((cell, i) => table.Columns[i].Format == CellFormat.Text ? cell.PadRight(widths[i]) : cell.PadLeft(widths[i]));
            text.Append(string.Join("  ", cells).TrimEnd()).Append('\n');
        }
        if (table.Note is { } note) text.Append(VisibleText.WithoutSequences(note)).Append('\n');
    }

    private static string Line(string cell) => VisibleText.WithoutSequences(cell).ReplaceLineEndings("⏎").Replace('\t', ' ');
}
