using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace JumpAnalytics;

/// <summary>Times of day: with an offset from UTC, or local in a named zone, or local and no more.</summary>
internal sealed partial class RowReader
{
    private static readonly LocalDateTimePattern[] _dateTimes =
        [.. new[] { "uuuu-MM-dd'T'HH:mm", "uuuu-MM-dd HH:mm", "uuuu-MM-dd'T'HH:mm:ss;FFFFFFFFF", "uuuu-MM-dd HH:mm:ss;FFFFFFFFF" }
            .Select(LocalDateTimePattern.CreateWithInvariantCulture)];

    private static readonly LocalTimePattern[] _clockTimes =
        [.. new[] { "HH:mm", "HH:mm:ss" }.Select(LocalTimePattern.CreateWithInvariantCulture)];

    /// <summary>When the pass was flown: wall-clock time, with its offset from UTC when the time or its zone tells one.</summary>
    public (LocalDateTime Time, Offset? Offset)? Time()
    {
        if (Field(LogColumns.Time) is not { } field)
        {
            RefuseBlank(LogColumns.Time);
            return null;
        }
        if (ReadTime(field.Text) is { } read) return InZone(LogColumns.Time, read);
        Refuse(field.Column.Header, field.Text, "unreadable time", "is not a date and time of ISO 8601",
            "write it like 2031-07-14T15:20-06:00, or without the offset for local time; "
                + "in a spreadsheet give the column a format of date and time");
        return null;
    }

    /// <summary>Seconds from the streamers to the exit: from the two times when both are written, else as written.</summary>
    public double? StreamerAge((LocalDateTime Time, Offset? Offset) exit)
    {
        var written = Measure(LogColumns.StreamerAge, least: 0);
        if (!IsFilled(LogColumns.StreamerTime)) return written;
        if (StreamerTime(exit) is not { } age) return written;
        if (age < 0)
        {
            Leave(LogColumns.StreamerTime, "streamers after exit",
                string.Create(CultureInfo.InvariantCulture, $"lies {-age / 60:0} minutes after the exit"),
                "check both clocks and their zones");
            return written;
        }
        if (written is { } minutes && Math.Abs(minutes - age) > 60)
        {
            Remark(LogColumns.StreamerAge, "streamer age", string.Create(CultureInfo.InvariantCulture,
                $"differs from the {age / 60:0.#} minutes between the two times, which are used"), "check both clocks");
        }
        return age;
    }

    /// <summary>The season a row tells of itself, whatever else is wrong with it: its season, or the year of its time.</summary>
    public string? SeasonTold() =>
        Text(LogColumns.Season) ?? (Field(LogColumns.Time) is { } time && ReadTime(time.Text) is { } read
            ? read.Time.Year.ToString(CultureInfo.InvariantCulture) : null);

    /// <summary>Seconds from the streamers' time to the exit; a time of day alone is of the day of the exit.</summary>
    private double? StreamerTime((LocalDateTime Time, Offset? Offset) exit)
    {
        var text = ValueOf(LogColumns.StreamerTime);
        foreach (var pattern in _clockTimes)
        {
            if (pattern.Parse(text) is { Success: true } clock)
                return (exit.Time - exit.Time.Date.At(clock.Value)).ToDuration().TotalSeconds;
        }
        if (ReadTime(text) is { } read)
        {
            var streamers = InZone(LogColumns.StreamerTime, read);
            if (streamers is not { } s) return null;
            return s.Offset is { } a && exit.Offset is { } b
                ? (exit.Time.WithOffset(b) - s.Time.WithOffset(a)).TotalSeconds
                : (exit.Time - s.Time).ToDuration().TotalSeconds;
        }
        Leave(LogColumns.StreamerTime, "unreadable time", "is neither a date and time of ISO 8601 nor a time of day",
            "write it like the time of the pass, or 15:08");
        return null;
    }

    /// <summary>
    /// A local time in the zone the row names. A time that daylight saving skipped can't have been; of a time it
    /// repeats, the first is taken.
    /// </summary>
    private (LocalDateTime Time, Offset? Offset)? InZone(LogColumn column, (LocalDateTime Time, Offset? Offset) read)
    {
        if (!IsFilled(LogColumns.TimeZone)) return read;
        if (Zone(ValueOf(LogColumns.TimeZone)) is not { } zone)
        {
            Leave(LogColumns.TimeZone, "unknown time zone", "is not a zone of the IANA database",
                "write it like America/Denver, or give the time its offset");
            return read;
        }
        if (read.Offset is { } offset)
        {
            var usual = zone.GetUtcOffset(read.Time.WithOffset(offset).ToInstant());
            if (usual != offset) Remark(column, "offset and zone", $"has an offset other than {ValueOf(LogColumns.TimeZone)} had then "
                + $"({usual}); the offset is used", "keep the one that is right");
            return read;
        }
        var mapping = zone.MapLocal(read.Time);
        switch (mapping.Count)
        {
            case 1: return (read.Time, mapping.Single().Offset);
            case 2:
                Remark(column, "repeated hour", $"came twice when the clocks of {ValueOf(LogColumns.TimeZone)} "
                    + "went back; the first is taken", "give the time its offset");
                return (read.Time, mapping.First().Offset);
            default:
                Note(column == LogColumns.Time, HeaderOf(column),
                    ValueOf(column), "skipped hour", $"was skipped when the clocks of {ValueOf(LogColumns.TimeZone)} went forward",
                    "check the clock and the zone, or give the time its offset");
                return null;
        }
    }

    private static DateTimeZone? Zone(string name) =>
        DateTimeZoneProviders.Tzdb.GetZoneOrNull(name)
        ?? (DateTimeZoneProviders.Tzdb.Ids.FirstOrDefault(id => id.Equals(name, StringComparison.OrdinalIgnoreCase)) is { } id
            ? DateTimeZoneProviders.Tzdb[id] : null);

    private static (LocalDateTime Time, Offset? Offset)? ReadTime(string text)
    {
        var (local, zone) = SplitZone(text);
        Offset? offset = zone is "" ? null : zone is "Z" or "z" ? NodaTime.Offset.Zero
            : OffsetPattern.GeneralInvariant.Parse(zone) is { Success: true } parsed ? parsed.Value : NodaTime.Offset.MaxValue;
        if (offset == NodaTime.Offset.MaxValue) return null;
        foreach (var pattern in _dateTimes)
        {
            if (pattern.Parse(local) is { Success: true } time) return (time.Value, offset);
        }
        return null;
    }

    private static (string Local, string Zone) SplitZone(string text)
    {
        if (text.Length == 0 || text[^1] is 'Z' or 'z') return (text[..^Math.Min(1, text.Length)], "Z");
        var sign = text.LastIndexOfAny(['+', '-']);
        return sign > text.IndexOf(':', StringComparison.Ordinal) && sign > 10 ? (text[..sign], text[sign..]) : (text, "");
    }
}
