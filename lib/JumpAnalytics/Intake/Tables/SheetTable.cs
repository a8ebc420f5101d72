namespace JumpAnalytics;

/// <summary>
/// One sheet of a workbook as a table: its headers may stand below a title or under headings merged over several columns.
/// </summary>
internal sealed class SheetTable : ILogTable
{
    private readonly WorkbookFile _book;
    private readonly string _sheet;
    private readonly int _headerRow;
    private readonly bool _from1904;

    private SheetTable(WorkbookFile book, string sheet, int headerRow, IReadOnlyList<string> header, IReadOnlyList<string> remarks) =>
        (_book, _sheet, _headerRow, Header, Remarks, _from1904) = (book, sheet, headerRow, header, remarks, book.CountsFrom1904);

    public string Name => $"{_book.Name} [{_sheet}]";

    public string Sheet => _sheet;

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<string> Remarks { get; }

    /// <summary>The table of a sheet; null when the sheet is empty.</summary>
    public static SheetTable? Of(WorkbookFile book, string sheet)
    {
        var top = book.Rows(sheet).Take(HeaderSearch.Rows).ToList();
        if (top.Count == 0) return null;
        var merged = book.Merged(sheet);
        var candidates = top.Select(r => Candidate(r, top, merged)).ToList();
        var (row, cells, filled) = candidates[HeaderSearch.Among([.. candidates.Select(c => c.Cells)])];
        while (cells.Count > 0 && cells[^1].Length == 0) cells.RemoveAt(cells.Count - 1);
        var remarks = new List<string>();
        if (row > 1) remarks.Add($"the headers stand in row {row}; what stands above them was not read");
        if (filled.Count > 0) remarks.Add($"headers of merged cells were taken from the rows above: {string.Join(", ", filled)}");
        return new SheetTable(book, sheet, row, cells, remarks);
    }

    /// <summary>The same table with one more remark.</summary>
    public SheetTable With(string? remark) =>
        remark is null ? this : new SheetTable(_book, _sheet, _headerRow, Header, [remark, .. Remarks]);

    public IEnumerable<RawRow> Rows()
    {
        foreach (var row in _book.Rows(_sheet).SkipWhile(r => r.Number <= _headerRow))
        {
            var fields = new string[Math.Max(Header.Count, row.Cells.Count)];
            for (var i = 0; i < fields.Length; i++) fields[i] = i < row.Cells.Count ? SpreadsheetText.Unguard(row.Cells[i]) : "";
            yield return new RawRow(new RowSource(_book.Name, row.Number, _sheet), row.Number, fields, null) { From1904 = _from1904 };
        }
    }

    /// <summary>A row that may hold the headers, and those of them that were brought down from the rows above.</summary>
    private sealed record HeaderRow(int Number, List<string> Cells, List<string> FromAbove);

    /// <summary>The cells of a row; one that is merged with cells above it has its text there.</summary>
    private static HeaderRow Candidate(SheetRow row, List<SheetRow> rows, IReadOnlyList<MergedCells> merged)
    {
        var cells = row.Cells.Select(c => c.Trim()).ToList();
        var filled = new List<string>();
        foreach (var block in merged.Where(m => m.Top < row.Number && m.Bottom >= row.Number && m.Left == m.Right))
        {
            if (rows.Find(r => r.Number == block.Top) is not { } above || block.Left >= above.Cells.Count) continue;
            while (cells.Count <= block.Left) cells.Add("");
            if (cells[block.Left].Length > 0) continue;
            cells[block.Left] = above.Cells[block.Left].Trim();
            filled.Add(cells[block.Left]);
        }
        return new HeaderRow(row.Number, cells, filled);
    }
}
