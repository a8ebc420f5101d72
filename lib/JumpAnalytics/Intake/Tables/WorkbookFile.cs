using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using SheetCell = DocumentFormat.OpenXml.Spreadsheet.Cell;

namespace JumpAnalytics;

/// <summary>A row of a sheet as it stands there.</summary>
internal sealed record SheetRow(int Number, IReadOnlyList<string> Cells);

/// <summary>An Excel workbook (.xlsx, .xlsm): the names of its sheets and their cells as text, streamed.</summary>
internal sealed class WorkbookFile(string path)
{
    /// <summary>Letters in one part of the file.</summary>
    private const long LongestPart = 512L << 20;

    /// <summary>Columns read; a sheet formatted to its right edge has 16,384 of them.</summary>
    private const int MostColumns = 1024;

    public string Name => Path.GetFileName(path);

    /// <summary>The sheets that hold cells and are not hidden.</summary>
    /// <exception cref="LogFormatException">The file can't be opened, is encrypted, damaged or too large.</exception>
    public IReadOnlyList<string> Sheets() => Read(book => SheetsOf(book).Select(s => s.Name!.Value!).ToList());

    /// <summary>Whether its days are counted from 1904.</summary>
    public bool CountsFrom1904 => Read(book => book.Workbook.WorkbookProperties?.Date1904?.Value == true);

    /// <summary>The cells merged in a sheet.</summary>
    public IReadOnlyList<MergedCells> Merged(string sheet) => Read(book =>
    {
        using var reader = OpenXmlReader.Create(PartOf(book, sheet));
        var found = new List<MergedCells>();
        while (reader.Read())
        {
            if (reader.ElementType == typeof(SheetData)) reader.Skip();
            if (reader.ElementType == typeof(MergeCell) && reader.IsStartElement
                && ((MergeCell)reader.LoadCurrentElement()!).Reference?.Value is { } range)
                found.Add(MergedCells.Parse(range));
        }
        return found;
    });

    /// <summary>The rows of a sheet that hold anything.</summary>
    public IEnumerable<SheetRow> Rows(string sheet)
    {
        using var stream = OpenBytes();
        using var document = Guarded(() => SpreadsheetDocument.Open(stream, false, new OpenSettings { MaxCharactersInPart = LongestPart }));
        var cells = Guarded(() => new WorkbookCells(document.WorkbookPart!));
        using var reader = Guarded(() => OpenXmlReader.Create(PartOf(document.WorkbookPart!, sheet)));
        var last = 0;
        while (Guarded(() => NextRow(reader, cells, last)) is { } row)
        {
            last = row.Number;
            yield return row;
        }
    }

    private static SheetRow? NextRow(OpenXmlReader reader, WorkbookCells cells, int last)
    {
        while (reader.Read())
        {
            if (reader.ElementType != typeof(Row) || !reader.IsStartElement) continue;
            var row = (Row)reader.LoadCurrentElement()!;
            last = row.RowIndex?.Value is { } number ? (int)number : last + 1;
            var texts = new List<string>();
            foreach (var cell in row.Elements<SheetCell>())
            {
                var at = cell.CellReference?.Value is { } reference ? MergedCells.Column(reference) : texts.Count;
                if (at >= MostColumns) break;
                while (texts.Count <= at) texts.Add("");
                texts[at] = cells.TextOf(cell);
            }
            if (texts.Exists(t => t.Length > 0)) return new SheetRow(last, texts);
        }
        return null;
    }

    private T Read<T>(Func<WorkbookPart, T> read)
    {
        using var stream = OpenBytes();
        return Guarded(() =>
        {
            using var document = SpreadsheetDocument.Open(stream, false, new OpenSettings { MaxCharactersInPart = LongestPart });
            return read(document.WorkbookPart ?? throw new InvalidDataException("it has no workbook part"));
        });
    }

    private static IEnumerable<Sheet> SheetsOf(WorkbookPart book) =>
        (book.Workbook.Sheets ?? throw new InvalidDataException("it has no sheets")).Elements<Sheet>()
            .Where(s => s.Name?.Value is not null && (s.State is null || s.State.Value == SheetStateValues.Visible) && s.Id?.Value is { } id
                && book.GetPartById(id) is WorksheetPart);

    private static WorksheetPart PartOf(WorkbookPart book, string sheet) =>
        (WorksheetPart)book.GetPartById(SheetsOf(book).First(s => s.Name == sheet).Id!.Value!);

    private FileStream OpenBytes() => Guarded(() =>
    {
        var stream = File.OpenRead(path);
        try
        {
            WorkbookGuard.Check(stream, Name);
            return stream;
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    });

    /// <summary>Whatever a damaged archive or a damaged part makes the library throw is one error to a reader.</summary>
    private T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is UnauthorizedAccessException or FileNotFoundException or DirectoryNotFoundException)
        {
            throw new LogFormatException($"{Name} can't be opened: {e.Message}", e);
        }
        catch (Exception e) when (e is not (LogFormatException or OutOfMemoryException))
        {
            throw new LogFormatException(
                $"{Name} can't be read as a workbook: {e.Message} Open it in a spreadsheet and save it again as .xlsx.", e);
        }
    }
}
