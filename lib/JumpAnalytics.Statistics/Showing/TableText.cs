using System.Text;

namespace JumpAnalytics.Statistics;

/// <summary>A table as plain text with aligned columns; long texts run on in further lines of their column.</summary>
internal static class TableText
{
    /// <summary>Letters beyond which a text is broken between words.</summary>
    private const int Widest = 40;

    public static void Write(TableView table, StringBuilder text)
    {
        var rows = new List<string[][]> { table.Columns.Select(c => Lines(c.Label)).ToArray() };
        rows.AddRange(
            table.Rows.Select(r => r.Select((cell, i) => Lines(OneLine(TableView.Show(cell, table.Columns[i].Format)))).ToArray()));
        var widths = Enumerable.Range(0, table.Columns.Count).Select(i => rows.Max(r => r[i].Max(l => l.Length))).ToArray();
        text.Append(table.Title).Append('\n');
        foreach (var row in rows)
        {
            for (var line = 0; line < row.Max(c => c.Length); line++)
            {
                var cells = row.Select((cell, i) => (Text: line < cell.Length ? cell[line] : "", Width: widths[i],
                    IsText: table.Columns[i].Format == CellFormat.Text));
                text.Append(string.Join("  ", cells.Select(c => c.IsText ? c.Text.PadRight(c.Width) : c.Text.PadLeft(c.Width))).TrimEnd())
                    .Append('\n');
            }
        }
        if (table.Note is { } note) text.Append(VisibleText.WithoutSequences(note)).Append('\n');
    }

    private static string OneLine(string cell) => VisibleText.WithoutSequences(cell).ReplaceLineEndings("⏎").Replace('\t', ' ');

    private static string[] Lines(string text)
    {
        if (text.Length <= Widest) return [text];
        var lines = new List<string>();
        while (text.Length > Widest)
        {
            var cut = text.LastIndexOf(' ', Widest);
            if (cut <= 0) cut = Widest;
            lines.Add(text[..cut]);
            text = text[cut..].TrimStart(' ');
        }
        return text.Length > 0 ? [.. lines, text] : [.. lines];
    }
}
