namespace JumpAnalytics;

/// <summary>
/// Which sheets of a workbook are the log. Sheets whose names begin with drops or landings are; failing those, sheets whose
/// headers hold what a table requires.
/// </summary>
internal static class WorkbookTables
{
    /// <param name="book">The workbook.</param>
    /// <param name="named">What the file holds by its own name.</param>
    /// <exception cref="LogFormatException">The workbook can't be read or all its sheets are empty.</exception>
    public static IReadOnlyList<RoleTable> Of(WorkbookFile book, TableRole? named)
    {
        var sheets = book.Sheets().Select(s => SheetTable.Of(book, s)).OfType<SheetTable>().ToList();
        if (sheets.Count == 0) throw new LogFormatException($"{book.Name} has no sheet with anything in it.");
        var chosen = new List<(TableRole Role, SheetTable Sheet)>();
        foreach (var sheet in sheets)
        {
            if (TableFormats.RoleOf(sheet.Sheet) is { } role) chosen.Add((role, sheet));
        }
        if (named is { } wanted && chosen.TrueForAll(c => c.Role != wanted))
        {
            var others = sheets.Where(s => TableFormats.RoleOf(s.Sheet) is null).DefaultIfEmpty(sheets[0]).ToList();
            var fitting = others.Where(s => Holds(s, wanted)).ToList();
            chosen.AddRange((fitting.Count > 0 ? fitting : [others[0]]).Select(s => (wanted, s)));
        }
        if (chosen.Count == 0) chosen.AddRange(sheets.Select(s => (Role: RoleByHeaders(s), Sheet: s)).Where(s => s.Role is not null)
            .Select(s => (s.Role!.Value, s.Sheet)));
        if (chosen.Count == 0) chosen.Add((TableRole.Flat, sheets[0]));
        return [.. chosen.Select(c => new RoleTable(c.Role, c.Sheet.With(ChoiceRemark(sheets, c.Role, chosen.Select(o => o.Sheet)))))];
    }

    private static string? ChoiceRemark(List<SheetTable> sheets, TableRole role, IEnumerable<SheetTable> chosen)
    {
        if (sheets.Count == 1) return null;
        var left = sheets.Except(chosen).Select(s => $"'{s.Sheet}'").ToList();
        var holds = role == TableRole.Flat ? "drops and landings" : role == TableRole.Drops ? "drops" : "landings";
        return $"this sheet was read as {holds}" + (left.Count == 0 ? "" : $"; sheets not read: {string.Join(", ", left)}");
    }

    private static TableRole? RoleByHeaders(SheetTable sheet) => (Holds(sheet, TableRole.Drops), Holds(sheet, TableRole.Landings)) switch
    {
        (true, true) => TableRole.Flat,
        (true, false) => TableRole.Drops,
        (false, true) => TableRole.Landings,
        _ => null,
    };

    private static bool Holds(SheetTable sheet, TableRole role) => role == TableRole.Drops
        ? HeaderMap.Of(sheet.Name, sheet.Header, LogColumns.Drops).Missing(LogColumns.RequiredOfDrops).Count == 0
        : HeaderMap.Of(sheet.Name, sheet.Header, LogColumns.Landings).Missing(LogColumns.RequiredOfLandings).Count == 0;
}
