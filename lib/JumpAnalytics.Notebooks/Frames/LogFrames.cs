using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>
/// A log as frames of either package, and back. Columns are those of the log format, in metres, m/s, seconds and
/// degrees true, units in their names.
/// </summary>
/// <remarks>
/// The frame of landings holds the columns of drop and landing side by side (remarks of drops apart) and some that are worked out:
/// <c>landing</c> (the drop's id, a stroke, and the landing's number in it), <c>day</c>, <c>miss_m</c>, <c>downwind_m</c> (+ long),
/// <c>right_m</c>, <c>outcome</c>, and <c>hit</c> (1, 0, or absent where it can't be told). Those are left alone when a frame is read as a
/// log. A frame that is read as a log leads to no tracks and no files; <c>log.Where(frame)</c> keeps them. People's codes and remarks are
/// in it, as they are in the log.
/// </remarks>
public static class LogFrames
{
    private const string Key = "landing";
    private static readonly HashSet<string> _workedOut = [Key, "day", "miss_m", "downwind_m", "right_m", "outcome", "hit"];

    /// <summary>The landings as a Microsoft.Data.Analysis frame, in the order of the log.</summary>
    /// <param name="log">The records.</param>
    public static DataFrame ToDataFrame(this JumpLog log) =>
        FrameMaking.DataFrameOf([new(Key, FrameColumnKind.Text, Keys(log)), .. Landings(log)]);

    /// <summary>The landings as a Deedle frame keyed by landing, in the order of the log.</summary>
    /// <param name="log">The records.</param>
    public static Frame<string, string> ToDeedle(this JumpLog log) => FrameMaking.DeedleOf(Keys(log), Landings(log));

    /// <summary>The missions with a landing as a Microsoft.Data.Analysis frame, in order of time.</summary>
    /// <param name="log">The records.</param>
    public static DataFrame MissionsToDataFrame(this JumpLog log)
    {
        var missions = MissionRow.Of(log);
        return FrameMaking.DataFrameOf(
            [new("mission", FrameColumnKind.Text, [.. missions.Select(m => m.Mission)]), .. MissionRow.Columns(missions)]);
    }

    /// <summary>
    /// The missions with a landing as a Deedle frame in order of time, keyed 1, 2, 3 …: for moving windows, which need keys that rise,
    /// and ids need not. The id is the column <c>mission</c>.
    /// </summary>
    /// <param name="log">The records.</param>
    public static Frame<int, string> MissionsToDeedle(this JumpLog log)
    {
        var missions = MissionRow.Of(log);
        return FrameMaking.DeedleOf<int>([.. Enumerable.Range(1, missions.Count)],
            [new("mission", FrameColumnKind.Text, [.. missions.Select(m => m.Mission)]), .. MissionRow.Columns(missions)]);
    }

    /// <summary>
    /// A frame of landings as a log, read through the same intake as a file: rows that can't be used are refused with their reason.
    /// </summary>
    /// <param name="frame">
    /// One row for each landing, with the columns of the log format for drop and landing; drops without a landing are not in it.
    /// </param>
    /// <param name="name">Name of the log in reports.</param>
    /// <exception cref="LogFormatException">A column that a log needs is missing; the message names it.</exception>
    /// <exception cref="ArgumentException">A column holds values of a type that no log has.</exception>
    public static JumpLog ToLog(this DataFrame frame, string name = "frame") =>
        FrameTable.Read(FrameReading.Columns(frame).Where(c => !_workedOut.Contains(c.Name)), name);

    /// <summary>
    /// A frame of landings as a log, read through the same intake as a file: rows that can't be used are refused with their reason.
    /// </summary>
    /// <param name="frame">
    /// One row for each landing, with the columns of the log format for drop and landing; drops without a landing are not in it.
    /// </param>
    /// <param name="name">Name of the log in reports.</param>
    /// <exception cref="LogFormatException">A column that a log needs is missing; the message names it.</exception>
    /// <exception cref="ArgumentException">A column holds values of a type that no log has.</exception>
    public static JumpLog ToLog<TKey>(this Frame<TKey, string> frame, string name = "frame") where TKey : notnull =>
        FrameTable.Read(FrameReading.Columns(frame).Where(c => !_workedOut.Contains(c.Name)), name);

    /// <summary>
    /// The part of the log whose landings stand in a frame, with their tracks and origins; changed values of the frame are left alone.
    /// </summary>
    /// <param name="log">The records.</param>
    /// <param name="frame">Rows of <see cref="ToDataFrame"/>, with the column <c>landing</c>.</param>
    /// <param name="filter">How reports name the part.</param>
    /// <exception cref="ArgumentException">The frame has no column <c>landing</c>, or a row of it names no landing of the log.</exception>
    public static JumpLog Where(this JumpLog log, DataFrame frame, string filter = "rows of a frame") => Part(log, filter,
        (FrameReading.Columns(frame).FirstOrDefault(c => c.Name == Key)
            ?? throw new ArgumentException($"The frame has no column '{Key}'.", nameof(frame)))
            .Values.Select(FrameReading.Text));

    /// <summary>
    /// The part of the log whose landings stand in a frame, with their tracks and origins; changed values of the frame are left alone.
    /// </summary>
    /// <param name="log">The records.</param>
    /// <param name="frame">Rows of <see cref="ToDeedle"/>, by their keys.</param>
    /// <param name="filter">How reports name the part.</param>
    /// <exception cref="ArgumentException">A key of the frame names no landing of the log.</exception>
    public static JumpLog Where(this JumpLog log, Frame<string, string> frame, string filter = "rows of a frame") =>
        Part(log, filter, frame.RowKeys);

    private static JumpLog Part(JumpLog log, string filter, IEnumerable<string?> keys)
    {
        var wanted = keys.Select(k => k ?? "").ToHashSet(StringComparer.Ordinal);
        var landings = Keys(log).Zip(log.Landings).Where(l => wanted.Remove(l.First)).Select(l => l.Second)
            .ToHashSet<Landing>(ReferenceEqualityComparer.Instance);
        return wanted.Count == 0 ? log.Where(landings.Contains, filter)
            : throw new ArgumentException($"'{wanted.First()}' is no landing of {log.Name}: a key is the id of its drop, "
                + "a stroke, and its number in the drop.");
    }

    /// <summary>Names of the landings of a log, which are the same in a part of it.</summary>
    private static string[] Keys(JumpLog log)
    {
        var (seen, keys) =
            (new Dictionary<string, int>(StringComparer.Ordinal), new Dictionary<Landing, string>(ReferenceEqualityComparer.Instance));
        foreach (var landing in log.Whole.Landings)
            keys[landing] = $"{landing.Drop.Id}/{seen[landing.Drop.Id] = seen.GetValueOrDefault(landing.Drop.Id) + 1}";
        return [.. log.Landings.Select(l => keys[l])];
    }

    private static IEnumerable<FrameColumn> Landings(JumpLog log)
    {
        var landings = log.Landings;
        var drops = FrameColumn.Of(WrittenTable.OfDrops([.. landings.Select(l => l.Drop)])).Where(c => c.Name != "remarks");
        var own = FrameColumn.Of(WrittenTable.OfLandings(landings)).Where(c => c.Name != "drop_id");
        return
        [
            .. drops, .. own,
            new("day", FrameColumnKind.Day, [.. landings.Select(l => (object?)l.Drop.Time.ToDateTimeUnspecified())]),
            new("miss_m", FrameColumnKind.Quantity, [.. landings.Select(l => (object?)l.MissDistance)]),
            new("downwind_m", FrameColumnKind.Quantity, [.. landings.Select(l => (object?)l.MissDownwind?.Along)]),
            new("right_m", FrameColumnKind.Quantity, [.. landings.Select(l => (object?)l.MissDownwind?.Across)]),
            new("outcome", FrameColumnKind.Text, [.. landings.Select(l => l.Outcome.ToString().ToLowerInvariant())]),
            new("hit", FrameColumnKind.Quantity, [.. landings.Select(l => (object?)HitOf(l))]),
        ];
    }

    internal static double? HitOf(Landing landing) =>
        landing.Outcome switch { LandingOutcome.Hit => 1, LandingOutcome.Miss => 0, _ => null };
}
