using System.Globalization;
using nietras.SeparatedValues;

namespace JumpAnalytics.Statistics;

/// <summary>A table of a result: shown in a notebook, and written as a file of separated values beside a report.</summary>
public sealed class TableView : ShownResult
{
    /// <summary>Makes a table.</summary>
    /// <param name="name">File name without its extension: lower case letters, digits and hyphens.</param>
    /// <param name="title">Caption.</param>
    /// <param name="columns">The columns.</param>
    /// <param name="rows">
    /// One array for each row, with a cell for each column: text, number, <see cref="Estimate"/>, or null when absent.
    /// </param>
    /// <param name="note">What a reader should know beside the numbers.</param>
    /// <exception cref="ArgumentException">A row has another number of cells than there are columns.</exception>
    internal TableView(string name, string title, IReadOnlyList<TableColumn> columns, IReadOnlyList<object?[]> rows, string? note = null)
    {
        if (rows.FirstOrDefault(r => r.Length != columns.Count) is { } odd)
            throw new ArgumentException($"Table {name}: a row has {odd.Length} cells for {columns.Count} columns.", nameof(rows));
        (Name, Title, Columns, Rows, Note) = (name, title, columns, rows, AnnouncesInVain(note, rows) ? $"{note} {NoInterval}" : note);
    }

    /// <summary>What a note says where it tells of intervals and no row has one.</summary>
    private const string NoInterval = "Too little is on record for an interval here.";

    private static bool AnnouncesInVain(string? note, IReadOnlyList<object?[]> rows) => rows.Count > 0
        && note?.Contains("intervals at", StringComparison.OrdinalIgnoreCase) == true
        && !rows.Any(r => r.Any(c => c is Estimate { Range: not null }));

    /// <summary>File name without its extension.</summary>
    public string Name { get; }

    /// <summary>Caption.</summary>
    public string Title { get; }

    /// <summary>The columns.</summary>
    public IReadOnlyList<TableColumn> Columns { get; }

    /// <summary>The cells, row by row.</summary>
    public IReadOnlyList<object?[]> Rows { get; }

    /// <summary>What a reader should know beside the numbers.</summary>
    public string? Note { get; }

    /// <inheritdoc/>
    public override string Reading => "";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [this];

    /// <summary>
    /// The table as comma-separated values: one header line, LF line ends, numbers with ten significant digits and a decimal point, an
    /// estimate as three columns, nothing for what is absent. A text that a spreadsheet would run as a formula (it begins with = + - @, a
    /// tab or a line break, and is not a plain number) has an apostrophe before it. A number without limit is <c>inf</c>.
    /// </summary>
    public string ToCsv()
    {
        var text = new StringWriter { NewLine = "\n" }; // line ends inside a value stay as they are
        using (var writer = Sep.New(',').Writer(o => o with { Escape = true, WriteHeader = true }).To(text))
        {
            foreach (var cells in Rows)
            {
                using var line = writer.NewRow();
                for (var i = 0; i < Columns.Count; i++)
                {
                    var names = Columns[i].FileNames;
                    var values = Values(cells[i], Columns[i].Format, names.Count);
                    for (var j = 0; j < names.Count; j++) line[names[j]].Set(values[j]);
                }
            }
            if (Rows.Count == 0) writer.Header.Add([.. Columns.SelectMany(c => c.FileNames)]);
            if (Rows.Count == 0) writer.Header.Write();
        }
        return text.ToString();
    }

    /// <summary>A cell as a reader sees it.</summary>
    internal static string Show(object? cell, CellFormat format) => (cell, format) switch
    {
        (null, _) => "–",
        (int number, CellFormat.Text) => number.ToString(CultureInfo.InvariantCulture),
        (Estimate e, CellFormat.ShareRange) => Rounding.Percent(e),
        (Estimate e, CellFormat.ShareChange) => Rounding.Points(e),
        (Estimate e, CellFormat.SignedRange) => Rounding.Number(e, signed: true),
        (Estimate e, _) => Rounding.Number(e),
        (double number, _) when !double.IsFinite(number) => double.IsNaN(number) ? "–" : "unlimited",
        (double share, CellFormat.Share) => Rounding.Percent(share),
        (double chance, CellFormat.Probability) => Rounding.Chance(chance),
        (double p, CellFormat.PValue) => Rounding.PValue(p),
        (double number, CellFormat.Precise) => Rounding.Fixed(number, 4),
        (double number, _) => Rounding.Fixed(number, 2),
        (int count, _) => Rounding.Count(count),
        _ => Convert.ToString(cell, CultureInfo.InvariantCulture) ?? "",
    };

    private static string[] Values(object? cell, CellFormat format, int columns) => cell switch
    {
        null => [.. Enumerable.Repeat("", columns)],
        Estimate e => [Digits(e.Value), e.Range is { } r ? Digits(r.Low) : "", e.Range is { } s ? Digits(s.High) : ""],
        double number => [Digits(number)],
        string text when format == CellFormat.Text => [SpreadsheetText.Guard(text)],
        _ => [Convert.ToString(cell, CultureInfo.InvariantCulture) ?? ""],
    };

    private static string Digits(double value) => double.IsNaN(value) ? "" : double.IsInfinity(value) ? (value > 0 ? "inf" : "-inf")
        : value.ToString("G10", CultureInfo.InvariantCulture);
}
