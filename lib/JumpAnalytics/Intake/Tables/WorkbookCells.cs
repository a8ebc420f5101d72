using System.Globalization;
using System.Xml;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using SheetCell = DocumentFormat.OpenXml.Spreadsheet.Cell;
using SheetCellFormat = DocumentFormat.OpenXml.Spreadsheet.CellFormat;

namespace JumpAnalytics;

/// <summary>Turns the cells of a workbook into text: shared strings, results of formulas, dates by their number format.</summary>
internal sealed class WorkbookCells
{
    private readonly IReadOnlyList<string> _strings;
    private readonly IReadOnlyList<bool> _styleIsDate;
    private readonly DateTime _dayZero;

    public WorkbookCells(WorkbookPart book)
    {
        _strings = [.. book.SharedStringTablePart?.SharedStringTable.Elements<SharedStringItem>().Select(TextOf) ?? []];
        var formats = book.WorkbookStylesPart?.Stylesheet;
        var custom = formats?.NumberingFormats?.Elements<NumberingFormat>().Where(f => f.NumberFormatId is not null)
            .ToLookup(f => f.NumberFormatId!.Value, f => f.FormatCode?.Value ?? "");
        _styleIsDate =
            [.. formats?.CellFormats?.Elements<SheetCellFormat>().Select(f => IsDate(f.NumberFormatId?.Value ?? 0, custom)) ?? []];
        // Counted from here a serial number is right from March 1900 on: the 1900 calendar of spreadsheets has a 29
        // February that never was.
        _dayZero = book.Workbook.WorkbookProperties?.Date1904?.Value == true ? new DateTime(1904, 1, 1) : new DateTime(1899, 12, 30);
    }

    /// <summary>The text of a cell; of a cell in error the error itself, such as <c>#N/A</c>.</summary>
    public string TextOf(SheetCell cell)
    {
        var raw = cell.CellValue?.Text ?? "";
        var type = cell.DataType?.Value ?? CellValues.Number;
        if (type == CellValues.SharedString)
            return int.TryParse(raw, NumberStyles.None, CultureInfo.InvariantCulture, out var i) && i < _strings.Count ? _strings[i] : raw;
        if (type == CellValues.InlineString) return cell.InlineString is { } inline ? TextOf(inline) : "";
        if (type == CellValues.Boolean) return raw.Length == 0 ? "" : CellText.Of(raw is "1" or "true");
        if (type != CellValues.Number) return type == CellValues.String ? Decoded(raw) : raw;
        if (!double.TryParse(raw, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)) return raw;
        return cell.StyleIndex?.Value is { } style && style < _styleIsDate.Count && _styleIsDate[(int)style]
            ? DateText(number) : CellText.Of(number);
    }

    /// <summary>Rounded to the millisecond, which a serial number of days can't tell apart any finer.</summary>
    private string DateText(double days)
    {
        if (days is < 1 or >= 2958466) return CellText.Of(days);
        var time = _dayZero.AddMilliseconds(Math.Round(days * 86_400_000));
        return time.TimeOfDay == TimeSpan.Zero ? CellText.Of(DateOnly.FromDateTime(time)) : CellText.Of(time);
    }

    /// <summary>
    /// Whether a number format shows a date: one of the built-in ones, or a code with a day or a year outside quotes and brackets.
    /// </summary>
    private static bool IsDate(uint id, ILookup<uint, string>? custom)
    {
        if (custom?[id].FirstOrDefault() is not { } code) return id is (>= 14 and <= 17) or 22 or (>= 27 and <= 36) or (>= 50 and <= 58);
        var (quoted, bracketed) = (false, false);
        for (var i = 0; i < code.Length && code[i] != ';'; i++)
        {
            if (code[i] is '\\' or '_' or '*') i++;
            else if (code[i] == '"') quoted = !quoted;
            else if (!quoted && code[i] is '[' or ']') bracketed = code[i] == '[';
            else if (!quoted && !bracketed && code[i] is 'd' or 'D' or 'y' or 'Y') return true;
        }
        return false;
    }

    /// <summary>The runs of a rich text joined; phonetic hints left out.</summary>
    private static string TextOf(OpenXmlElement item) =>
        Decoded(string.Concat(item.Descendants<Text>().Where(t => t.Parent is not PhoneticRun).Select(t => t.Text)));

    /// <summary>Letters that XML can't hold are written <c>_x000D_</c>.</summary>
    private static string Decoded(string text) => text.Contains("_x", StringComparison.Ordinal) ? XmlConvert.DecodeName(text) : text;
}
