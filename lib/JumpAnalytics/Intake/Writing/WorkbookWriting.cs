using System.Globalization;
using System.Text.RegularExpressions;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using SheetCell = DocumentFormat.OpenXml.Spreadsheet.Cell;

namespace JumpAnalytics;

/// <summary>Writes tables as the sheets of an Excel workbook: numbers as numbers, yes and no as booleans, all else as text.</summary>
internal static partial class WorkbookWriting
{
    public static void Write(string path, IReadOnlyList<WrittenTable> tables)
    {
        using var stream = new FileStream(path, FileMode.CreateNew, FileAccess.ReadWrite);
        using var document = SpreadsheetDocument.Create(stream, SpreadsheetDocumentType.Workbook);
        var book = document.AddWorkbookPart();
        var sheets = new Sheets();
        foreach (var table in tables)
        {
            var part = book.AddNewPart<WorksheetPart>();
            WriteSheet(part, table);
            sheets.Append(new Sheet { Name = table.Name, SheetId = (uint)sheets.ChildElements.Count + 1, Id = book.GetIdOfPart(part) });
        }
        book.Workbook = new Workbook(sheets);
    }

    private static void WriteSheet(WorksheetPart part, WrittenTable table)
    {
        using var writer = OpenXmlWriter.Create(part);
        writer.WriteStartElement(new Worksheet());
        writer.WriteStartElement(new SheetData());
        writer.WriteElement(RowOf(table.Columns.Select(c => c.Header)));
        foreach (var values in table.Rows) writer.WriteElement(RowOf(values));
        writer.WriteEndElement();
        writer.WriteEndElement();
    }

    private static Row RowOf(IEnumerable<object?> values) => new(values.Select(CellOf));

    private static SheetCell CellOf(object? value) => value switch
    {
        null => new SheetCell(),
        string text => new SheetCell
        {
            DataType = CellValues.InlineString,
            InlineString = new InlineString(new Text(Encoded(SpreadsheetText.Guard(text))) { Space = SpaceProcessingModeValues.Preserve }),
        },
        bool yes => new SheetCell { DataType = CellValues.Boolean, CellValue = new CellValue(yes ? "1" : "0") },
        _ => new SheetCell { DataType = CellValues.Number, CellValue = new CellValue(CellText.Of(value)) },
    };

    /// <summary>Letters that XML can't hold, or would change, as spreadsheets write them: <c>_x000D_</c>.</summary>
    private static string Encoded(string text) =>
        Unwritable().Replace(text, m => string.Create(CultureInfo.InvariantCulture, $"_x{(int)m.ValueSpan[0]:X4}_"));

    [GeneratedRegex(@"_(?=x[0-9A-Fa-f]{4})|[\u0000-\u0008\u000B-\u001F\uFFFE\uFFFF]|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]|"
        + @"[\uD800-\uDBFF](?![\uDC00-\uDFFF])")]
    private static partial Regex Unwritable();
}
