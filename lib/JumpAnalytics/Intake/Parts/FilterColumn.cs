using System.Globalization;
using NodaTime;

namespace JumpAnalytics;

/// <summary>
/// A column that a log can be cut by: its header and what a record holds of it, a text, a number in the header's unit, or null.
/// </summary>
/// <param name="Header">An accepted header of the log format.</param>
/// <param name="Column">The quantity of the log.</param>
/// <param name="IsOfLandings">Whether it belongs to the landing rather than to its drop.</param>
/// <param name="Value">What a record holds; the landing is null where a drop alone is asked.</param>
internal sealed record FilterColumn(string Header, LogColumn Column, bool IsOfLandings, Func<Drop, Landing?, object?> Value)
{
    /// <summary>Whether it holds numbers or times, which have an order.</summary>
    public bool IsOrdered => Column.Kind is not (ColumnKind.Text or ColumnKind.YesNo);

    /// <summary>Whether it tells of single people: its values are never listed.</summary>
    public bool IsOfPeople =>
        Column == LogColumns.Spotter || Column == LogColumns.Jumper || Column == LogColumns.Track || Column == LogColumns.Injured;

    /// <summary>Whether a log for sharing may be cut by it: classes of drops and landings, and nothing finer.</summary>
    public bool CanBeShared => Column == LogColumns.Base || Column == LogColumns.Season || Column == LogColumns.Terrain
        || Column == LogColumns.Canopy || Column == LogColumns.MeasuredBy;

    public static IReadOnlyList<FilterColumn> All { get; } =
    [
        OfDrop(LogColumns.DropId, d => d.Id), OfDrop(LogColumns.Mission, d => d.Mission), OfDrop(LogColumns.Season, d => d.Season),
        OfDrop(LogColumns.Base, d => d.Base), OfDrop(LogColumns.Terrain, d => d.Terrain), OfDrop(LogColumns.Spotter, d => d.Spotter),
        OfDrop(LogColumns.Aircraft, d => d.Aircraft), OfDrop(LogColumns.Time, d => d.Time),
        .. Numbers(LogColumns.TargetRadius, (d, _) => d.TargetRadius), .. Numbers(LogColumns.WindSpeed, (d, _) => d.WindSpeed),
        .. Numbers(LogColumns.ForecastDrift, (d, _) => d.ForecastDrift.Length),
        .. Numbers(LogColumns.ForecastTo, (d, _) => d.ForecastDrift.Direction?.Degrees),
        .. Numbers(LogColumns.WindFrom, (d, _) => d.WindFrom?.Degrees),
        .. Numbers(LogColumns.SurfaceWindSpeed, (d, _) => d.SurfaceWindSpeed),
        .. Numbers(LogColumns.SpotElevation, (d, _) => d.SpotElevation), .. Numbers(LogColumns.ExitHeight, (d, _) => d.ExitHeight),
        .. Numbers(LogColumns.StreamerAge, (d, _) => d.StreamerAge), .. Numbers(LogColumns.RunHeading, (d, _) => d.RunHeading?.Degrees),
        .. Numbers(LogColumns.GroundSpeed, (d, _) => d.GroundSpeed), .. Numbers(LogColumns.ExitSpacing, (d, _) => d.ExitSpacing),
        OfLanding(LogColumns.Jumper, l => l.Jumper), OfLanding(LogColumns.ExitOrder, l => (double?)l.ExitOrder),
        OfLanding(LogColumns.Canopy, l => l.Canopy), OfLanding(LogColumns.HungUp, l => Word(l.HungUp)),
        OfLanding(LogColumns.MeasuredBy, l => l.MeasuredBy), OfLanding(LogColumns.Track, l => l.Track),
        OfLanding(LogColumns.Injured, l => Word(l.Injured)),
        .. Numbers(LogColumns.LandingDistance, (_, l) => l!.MissDistance, isOfLandings: true),
        .. Numbers(LogColumns.LandingBeyond, (_, l) => l!.Beyond, isOfLandings: true),
        .. Numbers(LogColumns.MeasuredSd, (_, l) => l!.MeasuredSd, isOfLandings: true),
    ];

    /// <summary>The column of a header, in any case.</summary>
    /// <exception cref="ArgumentException">
    /// There is none that a log can be cut by; the message lists those there are, and the nearest.
    /// </exception>
    public static FilterColumn Named(string header)
    {
        if (All.FirstOrDefault(c => c.Header.Equals(header, StringComparison.OrdinalIgnoreCase)) is { } found) return found;
        if (All.FirstOrDefault(c => c.Column.Name.Equals(header, StringComparison.OrdinalIgnoreCase)) is { } bare)
            throw new ArgumentException(
                $"'{header}' needs its unit: {string.Join(", ", All.Where(c => c.Column == bare.Column).Select(c => c.Header))}.");
        var near = LogFilter.Nearest(header, All.Select(c => c.Header));
        throw new ArgumentException($"A log can't be cut by a column '{header}'{(near is null ? "" : $"; did you mean {near}?")} There are "
            + string.Join(", ", All.GroupBy(c => c.Column).Select(g => g.Count() == 1 ? g.First().Header
                : $"{g.Key.Name}_{string.Join("|", g.Select(c => c.Header[(g.Key.Name.Length + 1)..]))}")) + ".");
    }

    /// <summary>A written number, time or yes-or-no as the records hold it.</summary>
    /// <exception cref="ArgumentException">The text is none.</exception>
    public object Read(string text) => Column.Kind switch
    {
        ColumnKind.Text => text,
        ColumnKind.YesNo => Word(YesNo.Read(text)) ?? throw new ArgumentException($"{Header} is yes or no, not '{text}'."),
        ColumnKind.Time => DateTime.TryParseExact(text, ["yyyy-MM-dd", "yyyy-MM-dd'T'HH:mm"],
            CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? LocalDateTime.FromDateTime(time)
            : throw new ArgumentException($"{Header} is a day or a time, 2031-07-14 or 2031-07-14T15:20, not '{text}'."),
        _ => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? number : throw new ArgumentException($"{Header} is a number, not '{text}'."),
    };

    private static FilterColumn OfDrop(LogColumn column, Func<Drop, object?> value) => new(column.Name, column, false, (d, _) => value(d));

    private static FilterColumn OfLanding(LogColumn column, Func<Landing, object?> value) =>
        new(column.Name, column, true, (_, l) => value(l!));

    /// <summary>A quantity under each header that states its unit; magnetic bearings are not held.</summary>
    private static IEnumerable<FilterColumn> Numbers(LogColumn column, Func<Drop, Landing?, double?> si, bool isOfLandings = false) =>
        column.Headers().Where(h => !h.IsMagnetic).Select(h => new FilterColumn(h.Text, column, isOfLandings,
            (d, l) => si(d, l) is { } value ? h.Unit?.FromSi(value) ?? value : null));

    private static string? Word(bool? flag) => flag is null ? null : flag.Value ? "yes" : "no";
}
