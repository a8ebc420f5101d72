namespace JumpAnalytics;

/// <summary>A table as HTML.</summary>
internal static class TableHtml
{
    public static void Write(TableView table, TextWriter writer)
    {
        writer.Write($"<div class=\"ja-table\" role=\"region\" tabindex=\"0\" aria-label=\"{ShownResult.Escape(table.Title)}\"><table><caption>{ShownResult.Escape(table.Title)}</caption><thead><tr>");
        foreach (var column in table.Columns)
            writer.Write($"<th scope=\"col\"{Align(column)} title=\"{ShownResult.Escape(column.Meaning)}\">{ShownResult.Escape(column.Label)}</th>");
        writer.Write("</tr></thead><tbody>");
        foreach (var row in table.Rows)
        {
            writer.Write("<tr>");
            for (var i = 0; i < row.Length; i++) WriteCell(table.Columns[i], row[i], writer);
            writer.Write("</tr>");
        }
        if (table.Rows.Count == 0) writer.Write($"<tr><td colspan=\"{table.Columns.Count}\">none</td></tr>");
        writer.Write("</tbody></table></div>");
        if (table.Note is { } note) writer.Write($"<p class=\"ja-note\">{ShownResult.Escape(note)}</p>");
    }

    private static void WriteCell(TableColumn column, object? cell, TextWriter writer)
    {
        var why = cell is Estimate { WhyNoRange: { } reason } ? $" title=\"{ShownResult.Escape("no interval: " + reason)}\"" : "";
        writer.Write($"<td{Align(column)}{why}>{ShownResult.Escape(TableView.Show(cell, column.Format))}</td>");
    }

    private static string Align(TableColumn column) => column.Format == CellFormat.Text ? "" : " class=\"ja-num\"";
}
