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

    /// <summary>When the pass was flown: wall-clock time, with its offset from UTC when the time or its zone tells one.</summary>
    public PassTime? Time()
    {
        if (Said(LogColumns.Time) is not { } whole || Said(LogColumns.Date) is not { } day) return null; // refused
        if (whole.Date is { } one && day.Date is { } two && one != two)
        {
            Refuse($"{HeaderOf(LogColumns.Time)} / {HeaderOf(LogColumns.Date)}", ValueOf(LogColumns.Time), "columns disagree",
                "is of another day than the date beside it", "keep the one that is right");
            return null;
        }
        if ((whole.Date ?? day.Date) is not { } date)
        {
            if (whole.Clock is null) RefuseBlank(map.Has(LogColumns.Time) ? LogColumns.Time : LogColumns.Date);
            else Refuse(HeaderOf(LogColumns.Time), ValueOf(LogColumns.Time), "time without date",
                "is a time of day and has no date beside it", "add the day, in this column or in one named date");
            return null;
        }
        var column = whole.Clock is not null ? LogColumns.Time : IsFilled(LogColumns.TimeOfDay) ? LogColumns.TimeOfDay : LogColumns.Date;
        // Midnight beside a time of its own is a day without a time.
        var own = whole.Clock == LocalTime.Midnight && IsFilled(LogColumns.TimeOfDay) ? null : whole.Clock;
        if ((own ?? ClockOfDay(date) ?? day.Clock) is { } clock)
            return InZone(column, (date.At(clock), whole.Offset)) is var (time, offset) ? new PassTime(time, offset) : null;
        Remark(whole.Date is null ? LogColumns.Date : LogColumns.Time, "time not recorded",
            "has a date and no time of day; passes of one day keep the order of their rows", "add the time of day where it is known");
        return new PassTime(date.AtMidnight(), null, Recorded: false);
    }

    /// <summary>
    /// What a column says of day and time of day; nothing of either when it is blank, null when the row is refused for it.
    /// </summary>
    private SaidTime? Said(LogColumn column)
    {
        if (Field(column) is not { } field) return new SaidTime(null, null, null);
        // A date cell shows midnight where no time was typed.
        if (ReadTime(field.Text) is var (time, offset))
            return new SaidTime(time.Date, column == LogColumns.Date && time.TimeOfDay == LocalTime.Midnight ? null : time.TimeOfDay,
                offset);
        var (dayText, clockText) = DateAndClock.Split(field.Text);
        var date = dayText.Length == 0 ? null : WrittenDates.Read(dayText, times?.Answer ?? DayOrder.Unknown, row.From1904);
        if (date is { IsOpen: true }) date = Ordered(field.Column, dayText);
        var clock = clockText.Length == 0 ? null : WrittenClocks.Read(clockText, isOf24Hours: false) is { IsHalfDay: true }
            ? Settled(column, field.Column, clockText) : WrittenClocks.Read(clockText, isOf24Hours: false);
        if (date is { Date: null })
        {
            Refuse(field.Column.Header, field.Text, "day and month", $"may be two days, {times?.WhyOf(field.Column)}",
                "say in columns.json \"dates\": \"month first\" or \"day first\", or write 2031-06-01");
        }
        else if ((dayText.Length > 0 && date is null) || (clockText.Length > 0 && clock is null)
            || (column == LogColumns.Date && date is null))
        {
            Refuse(field.Column.Header, field.Text, column == LogColumns.Time ? "unreadable time" : "unreadable date",
                column == LogColumns.Time ? "is not a date and time of ISO 8601" : "is not a date",
                "write it like 2031-07-14T15:20-06:00, or without the offset for local time; "
                    + "in a spreadsheet give the column a format of date and time");
        }
        if (IsRefused) return null;
        if (date is { IsSerial: true, Date: { } counted })
            Remark(column, "serial number", $"is a spreadsheet's count of days and was read as {LocalDatePattern.Iso.Format(counted)}",
                "nothing, if that is the day; else give the column a format of date");
        return new SaidTime(date?.Date,
            clock?.Time is { } t && (column == LogColumns.Time || t != LocalTime.Midnight) ? t : date?.Clock, null);
    }

    /// <summary>A date whose order the text leaves open, in the order of its column.</summary>
    private WrittenDate? Ordered(BoundColumn column, string text)
    {
        var read = WrittenDates.Read(text, times?.OrderOf(column) ?? DayOrder.Unknown);
        if (read?.Date is { } day)
            Remark(column.Column, "day and month", $"was read as {LocalDatePattern.Iso.Format(day)}, {times!.WhyOf(column)}",
                "nothing, if that is the day; else say the order in columns.json, \"dates\"");
        return read;
    }

    /// <summary>A time that may be morning or afternoon: read where its column goes beyond 12 hours, else set aside.</summary>
    private WrittenClock? Settled(LogColumn column, BoundColumn bound, string text)
    {
        if (times?.Is24Hours(bound) == true) return WrittenClocks.Read(text, isOf24Hours: true);
        Leave(column, "morning or afternoon", "may be morning or afternoon, for no time of the column goes beyond 12",
            "write 14:20, 02:20 or 2:20 PM");
        return new WrittenClock(null, IsHalfDay: true);
    }

    /// <summary>The time of day of a column of its own; unreadable, or of another day, it is set aside.</summary>
    private LocalTime? ClockOfDay(LocalDate date)
    {
        if (Field(LogColumns.TimeOfDay) is not { } field) return null;
        var clock = WrittenClocks.Read(field.Text, isOf24Hours: false);
        if (clock is { IsHalfDay: true }) return Settled(LogColumns.TimeOfDay, field.Column, field.Text)?.Time;
        if (clock is { } read) return read.Time;
        // A time cell may hold a day too: that of the pass, or the zero of the spreadsheet's calendar.
        if (ReadTime(field.Text) is var (whole, _) && (whole.Date == date || whole.Year < 1905)) return whole.TimeOfDay;
        if (WrittenDates.Read(field.Text, DayOrder.Unknown, row.From1904) is { Clock: { } serial, Date: { } of } && of == date)
            return serial;
        Leave(LogColumns.TimeOfDay, "unreadable time", "is no time of day", "write it like 14:20, 1420 or 2:20 PM");
        return null;
    }

    /// <summary>Seconds from the streamers to the exit: from the two times when both are written, else as written.</summary>
    public double? StreamerAge(PassTime exit)
    {
        var written = Measure(LogColumns.StreamerAge, least: 0);
        if (!IsFilled(LogColumns.StreamerTime)) return written;
        if (!exit.Recorded)
        {
            Leave(LogColumns.StreamerTime, "time not recorded", "has no time of the pass to measure from", "add the time of the pass");
            return written;
        }
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
        Text(LogColumns.Season) ?? (DayTold(LogColumns.Time) ?? DayTold(LogColumns.Date))?.Year.ToString(CultureInfo.InvariantCulture);

    /// <summary>The day that a column tells, in either order where that is open: the year is the same.</summary>
    private LocalDate? DayTold(LogColumn column) => Field(column) is not { } field ? null
        : ReadTime(field.Text) is var (time, _) ? time.Date
        : new[] { DayOrder.Unknown, DayOrder.MonthFirst }
            .Select(o => WrittenDates.Read(DateAndClock.Split(field.Text).Date, o, row.From1904)?.Date).FirstOrDefault(d => d is not null);

    /// <summary>Seconds from the streamers' time to the exit; a time of day alone is of the day of the exit.</summary>
    private double? StreamerTime(PassTime exit)
    {
        var text = ValueOf(LogColumns.StreamerTime);
        if (WrittenClocks.Read(text, isOf24Hours: false) is { Time: { } clock })
            return (exit.Time - exit.Time.Date.At(clock)).ToDuration().TotalSeconds;
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
                Note(column != LogColumns.StreamerTime, HeaderOf(column),
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

/// <summary>When a pass was flown.</summary>
/// <param name="Time">Wall-clock time; midnight where only the day is recorded.</param>
/// <param name="Offset">Offset from UTC, where known.</param>
/// <param name="Recorded">Whether the time of day is recorded.</param>
internal readonly record struct PassTime(LocalDateTime Time, Offset? Offset, bool Recorded = true);

/// <summary>What one column says of day and time of day.</summary>
internal readonly record struct SaidTime(LocalDate? Date, LocalTime? Clock, Offset? Offset);
