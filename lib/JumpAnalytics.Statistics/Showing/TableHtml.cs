namespace JumpAnalytics.Statistics;

/// <summary>A table as HTML.</summary>
internal static class TableHtml
{
    /// <summary>Rows above which a table is folded behind its title.</summary>
    private const int Foldable = 30;

    /// <summary>Rows above which a page holds only the first ones; the file beside the report holds all.</summary>
    private const int Shown = 300;

    /// <summary>Letters above which a cell asks for room, so that a narrow page scrolls instead of breaking it into slivers.</summary>
    private const int LongText = 24;

    /// <summary>Columns above which a table is set in smaller type.</summary>
    private const int Wide = 11;

    public static void Write(TableView table, TextWriter writer)
    {
        var folded = table.Rows.Count > Foldable;
        if (folded)
            writer.Write($"<details><summary>{ShownResult.Escape(table.Title)} ({Rounding.Count(table.Rows.Count, "row")})</summary>");
        writer.Write($"<div class=\"ja-table{(table.Columns.Count > Wide ? " ja-wide" : "")}\" role=\"group\" tabindex=\"0\" "
            + $"aria-label=\"{ShownResult.Escape(table.Title)}\"><table><caption>{ShownResult.Escape(table.Title)}</caption><thead><tr>");
        foreach (var column in table.Columns)
            writer.Write($"<th scope=\"col\"{Align(column)} "
                + $"title=\"{ShownResult.Escape(column.Meaning)}\">{ShownResult.Escape(column.Label)}</th>");
        writer.Write("</tr></thead><tbody>");
        foreach (var row in table.Rows.Take(Shown))
        {
            writer.Write("<tr>");
            for (var i = 0; i < row.Length; i++) WriteCell(table.Columns[i], row[i], writer);
            writer.Write("</tr>");
        }
        if (table.Rows.Count == 0) writer.Write($"<tr><td colspan=\"{table.Columns.Count}\">none</td></tr>");
        writer.Write("</tbody></table></div>");
        if (table.Rows.Count > Shown) writer.Write($"<p class=\"ja-note\">The first {Shown} of {Rounding.Count(table.Rows.Count, "row")}; "
            + $"all are in {ShownResult.Escape(table.Name)}.csv.</p>");
        if (table.Note is { } note) writer.Write($"<p class=\"ja-note\">{ShownResult.Escape(note)}</p>");
        if (folded) writer.Write("</details>");
    }

    private static void WriteCell(TableColumn column, object? cell, TextWriter writer)
    {
        var why = cell is Estimate { WhyNoRange: { } reason } ? $" title=\"{ShownResult.Escape("no interval: " + reason)}\"" : "";
        var text = TableView.Show(cell, column.Format);
        var style = column.Format == CellFormat.Text && text.Length > LongText ? " class=\"ja-long\"" : Align(column);
        writer.Write($"<td{style}{why}>{ShownResult.Escape(text)}</td>");
    }

    private static string Align(TableColumn column) => column.Format == CellFormat.Text ? "" : " class=\"ja-num\"";
}
