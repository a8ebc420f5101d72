namespace JumpAnalytics;

/// <summary>
/// What the columns of a table show of the way their days and times are written. A table is looked through for it once, and only when a
/// value leaves it open.
/// </summary>
/// <param name="table">The table.</param>
/// <param name="map">Its headers.</param>
/// <param name="answer">What the column map says of the order of day and month.</param>
internal sealed class TableTimes(ILogTable table, HeaderMap map, DayOrder answer)
{
    /// <summary>What the column map says of the order.</summary>
    public DayOrder Answer => answer;

    private readonly Lazy<Dictionary<int, Shown>> _shown = new(() => Look(table, map));

    private sealed record Shown
    {
        public bool MonthFirst { get; set; }

        public bool DayFirst { get; set; }

        public bool Is24Hours { get; set; }
    }

    /// <summary>
    /// The order of day and month in a column: as the map says, else as the column's days above 12 show; unknown when none does or both do.
    /// </summary>
    public DayOrder OrderOf(BoundColumn column) => answer != DayOrder.Unknown ? answer
        : _shown.Value[column.Index] is { MonthFirst: var month, DayFirst: var day } && month != day
            ? month ? DayOrder.MonthFirst : DayOrder.DayFirst : DayOrder.Unknown;

    /// <summary>Whether a column goes beyond 12 hours.</summary>
    public bool Is24Hours(BoundColumn column) => _shown.Value[column.Index].Is24Hours;

    /// <summary>Why the order of a column is as it is, or is unknown.</summary>
    public string WhyOf(BoundColumn column) => answer != DayOrder.Unknown ? "as the column map says"
        : _shown.Value[column.Index] is { MonthFirst: true, DayFirst: true }
            ? "and the column has days above 12 in the first place and in the second" : OrderOf(column) == DayOrder.Unknown
                ? "and no day of the column above 12 shows which" : "as the days above 12 in its column show";

    private static Dictionary<int, Shown> Look(ILogTable table, HeaderMap map)
    {
        var columns = map.Bound.Where(b => b.Column.Kind is ColumnKind.Time or ColumnKind.Date or ColumnKind.Clock).ToList();
        var shown = columns.ToDictionary(b => b.Index, _ => new Shown());
        foreach (var row in table.Rows())
        {
            foreach (var column in columns) Take(shown[column.Index], column.TextIn(row));
        }
        return shown;
    }

    private static void Take(Shown shown, string text)
    {
        var (date, clock) = DateAndClock.Split(text);
        var order = WrittenDates.Shown(date);
        shown.MonthFirst |= order == DayOrder.MonthFirst;
        shown.DayFirst |= order == DayOrder.DayFirst;
        shown.Is24Hours |= WrittenClocks.IsBeyondTwelve(clock);
    }
}

/// <summary>A text that may hold a date, a time of day, or both.</summary>
internal static class DateAndClock
{
    /// <summary>The part before the time of day and the time of day, either empty: cut at the T or the last blank before a colon.</summary>
    public static (string Date, string Clock) Split(string text)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0) // 6/1/2031 1420, 6/1/2031 2 PM
        {
            var blank = text.IndexOf(' ', StringComparison.Ordinal);
            return blank > 0 && WrittenDates.Read(text, DayOrder.MonthFirst) is null && WrittenClocks.Read(text, true) is null
                ? Cut(text, Figures(text, blank)) : WrittenClocks.Read(text, true) is null ? (text, "") : ("", text);
        }
        var at = text.LastIndexOfAny([' ', 'T'], colon);
        return at < 0 ? ("", text) : Cut(text, at);
    }

    /// <summary>The blank behind which the time of day begins: the first that leaves a date before it.</summary>
    private static int Figures(string text, int blank)
    {
        for (var at = blank; at >= 0; at = text.IndexOf(' ', at + 1))
        {
            if (WrittenDates.Read(text[..at], DayOrder.MonthFirst) is not null) return at;
        }
        return blank;
    }

    private static (string Date, string Clock) Cut(string text, int at) => (text[..at].Trim().TrimEnd(','), text[(at + 1)..].Trim());
}
