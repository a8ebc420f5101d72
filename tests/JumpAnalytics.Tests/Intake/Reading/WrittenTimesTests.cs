using NodaTime;
using NodaTime.Text;

namespace JumpAnalytics.Tests;

/// <summary>Days and times of day in the forms people and spreadsheets write them.</summary>
public sealed class WrittenTimesTests
{
    [Theory]
    [InlineData("2031-06-14", "2031-06-14")]
    [InlineData("2031/6/4", "2031-06-04")]
    [InlineData("2031.06.14", "2031-06-14")]
    [InlineData("20310614", "2031-06-14")]
    [InlineData("6/14/2031", "2031-06-14")]
    [InlineData("14/6/2031", "2031-06-14")]
    [InlineData("14.6.2031", "2031-06-14")]
    [InlineData("6-6-2031", "2031-06-06")] // the same either way
    [InlineData("14 Jun 2031", "2031-06-14")]
    [InlineData("14-june-31", "2031-06-14")]
    [InlineData("Sept 9, 2031", "2031-09-09")]
    [InlineData("June 2nd 2031", "2031-06-02")]
    [InlineData("14Jun2031", "2031-06-14")]
    [InlineData("29/2/2032", "2032-02-29")]
    [InlineData("13/6/68", "2068-06-13")] // two figures as POSIX reads them
    [InlineData("13/6/69", "1969-06-13")]
    [InlineData("13/6/00", "2000-06-13")]
    [InlineData("20000", "1954-10-03")] // serial numbers by Python 3.11.7, date(1899, 12, 30) + timedelta
    [InlineData("48013", "2031-06-14")]
    [InlineData("80000", "2119-01-11")]
    [InlineData("19999", null)]
    [InlineData("80001", null)]
    [InlineData("31/6/2031", null)]
    [InlineData("29/2/2031", null)]
    [InlineData("13/13/2031", null)]
    [InlineData("0/6/2031", null)]
    [InlineData("6/14/031", null)]
    [InlineData("6/14.2031", null)]
    [InlineData("1/13/1899", null)]
    [InlineData("14 Juny 2031", null)]
    [InlineData("14 Ju 2031", null)]
    [InlineData("2031-13-01", null)]
    [InlineData("2031-00-01", null)]
    [InlineData("1420", null)]
    public void A_date(string text, string? day) =>
        Assert.Equal(day, WrittenDates.Read(text, DayOrder.Unknown)?.Date is { } date ? LocalDatePattern.Iso.Format(date) : null);

    [Fact]
    public void An_open_date_is_of_its_order()
    {
        Assert.Equal(new WrittenDate(null, IsOpen: true), WrittenDates.Read("6/1/2031", DayOrder.Unknown));
        Assert.Equal(new LocalDate(2031, 6, 1), WrittenDates.Read("6/1/2031", DayOrder.MonthFirst)?.Date);
        Assert.Equal(new LocalDate(2031, 1, 6), WrittenDates.Read("6/1/2031", DayOrder.DayFirst)?.Date);
        Assert.Equal(new LocalDate(2031, 1, 12), WrittenDates.Read("12/1/2031", DayOrder.DayFirst)?.Date);
        Assert.Null(WrittenDates.Read("25/6/2031", DayOrder.MonthFirst)?.Date); // the map says otherwise
        Assert.Null(WrittenDates.Read("6/25/2031", DayOrder.DayFirst)?.Date);
        Assert.Equal([DayOrder.MonthFirst, DayOrder.DayFirst, DayOrder.Unknown, DayOrder.Unknown, DayOrder.Unknown],
            new[] { "6/13/2031", "13/6/2031", "12/6/2031", "6/6/2031", "2031-06-13" }.Select(WrittenDates.Shown));
        Assert.Equal([true, false, false], new[] { "12/6/2031", "13/6/2031", "6/6/2031" }.Select(WrittenDates.LeavesOpen));
    }

    [Fact]
    public void A_serial_number_counts_from_1900_or_1904()
    {
        Assert.Equal(new WrittenDate(new LocalDate(2031, 6, 14), IsSerial: true, Clock: new LocalTime(14, 20)),
            WrittenDates.Read("48013.5972222222", DayOrder.Unknown));
        Assert.Equal(new WrittenDate(new LocalDate(2031, 6, 14), IsSerial: true), WrittenDates.Read("46551", DayOrder.Unknown,
            from1904: true));
    }

    [Theory]
    [InlineData("14:20", "14:20:00")]
    [InlineData("09:05", "09:05:00")]
    [InlineData("0:05", "00:05:00")]
    [InlineData("14:20:09", "14:20:09")]
    [InlineData("14:20:09.7", "14:20:09")]
    [InlineData("2:20 PM", "14:20:00")]
    [InlineData("2:20pm", "14:20:00")]
    [InlineData("2:20 p.m.", "14:20:00")]
    [InlineData("12:20 am", "00:20:00")]
    [InlineData("12:00 PM", "12:00:00")]
    [InlineData("2 PM", "14:00:00")]
    [InlineData("12 AM", "00:00:00")]
    [InlineData("1420", "14:20:00")]
    [InlineData("920", "09:20:00")]
    [InlineData("0000", "00:00:00")]
    [InlineData("2359", "23:59:00")]
    [InlineData("1420 hrs", "14:20:00")]
    [InlineData("1420L", "14:20:00")]
    [InlineData("0.5", "12:00:00")]
    [InlineData(".25", "06:00:00")]
    [InlineData("0.597222222222222", "14:20:00")]
    [InlineData("24:00", null)]
    [InlineData("14:60", null)]
    [InlineData("14:20:60", null)]
    [InlineData("13:20 PM", null)]
    [InlineData("0:20 PM", null)]
    [InlineData("0 PM", null)]
    [InlineData("13 PM", null)]
    [InlineData("2400", null)]
    [InlineData("1260", null)]
    [InlineData("20", null)]
    [InlineData("14200", null)]
    [InlineData("0.0", null)]
    [InlineData("0.999999", null)] // midnight of the next day
    [InlineData("1.5", null)]
    [InlineData("14.20", null)]
    [InlineData("2:20", null)] // morning or afternoon
    public void A_time_of_day(string text, string? time) => Assert.Equal(time,
        WrittenClocks.Read(text, isOf24Hours: false)?.Time is { } read ? LocalTimePattern.ExtendedIso.Format(read) : null);

    [Fact]
    public void One_figure_for_the_hour_needs_a_column_that_goes_beyond_12()
    {
        Assert.Equal(new WrittenClock(null, IsHalfDay: true), WrittenClocks.Read("9:20", isOf24Hours: false));
        Assert.Equal(new LocalTime(9, 20), WrittenClocks.Read("9:20", isOf24Hours: true)?.Time);
        Assert.Equal([true, false, false, false], new[] { "13:00", "12:59", "24:00", "01:00 PM" }.Select(WrittenClocks.IsBeyondTwelve));
    }

    private static JumpLog Read(string columns, string? map, params string[] values)
    {
        using var log = new TempLog().With("drops.csv", TempLog.Lines(["drop_id,mission,terrain,target_radius_yd,wind_speed_mph,"
            + $"forecast_drift_yd,forecast_to_deg,{columns}", .. values.Select((v, i) => $"d{i},m{i},timber,25,8,300,90,{v}")]))
            .With("landings.csv", TempLog.Lines([TempLog.LandingsHeader, .. values.Select((_, i) => $"d{i},12,45")]));
        if (map is not null) log.With("columns.json", map);
        return log.Read();
    }

    /// <summary>What a row reads as, what is noted of it, what is set aside and why it is refused.</summary>
    [Theory]
    [InlineData("time", "2031-06-14", "2031-06-14T00:00 day", "noted time not recorded")]
    [InlineData("time", "6/14/2031 2:20 PM", "2031-06-14T14:20", "")]
    [InlineData("time", "6/14/2031 1420", "2031-06-14T14:20", "")]
    [InlineData("time", "\"June 14, 2031 2 PM\"", "2031-06-14T14:00", "")]
    [InlineData("time", "48013.5972222222", "2031-06-14T14:20", "noted serial number")]
    [InlineData("time", "48013", "2031-06-14T00:00 day", "noted serial number, noted time not recorded")]
    [InlineData("time", "6/14/2031 9:20", "2031-06-14T00:00 day", "noted time not recorded, aside morning or afternoon")]
    [InlineData("time", "14:20", null, "time without date")]
    [InlineData("time", "6/1/2031 14:20", null, "day and month")]
    [InlineData("time", "6/14/2031 25:20", null, "unreadable time")]
    [InlineData("time", "soon", null, "unreadable time")]
    [InlineData("time,date", "14:20,6/14/2031", "2031-06-14T14:20", "")]
    [InlineData("time,date", ",2031-06-14", "2031-06-14T00:00 day", "noted time not recorded")]
    [InlineData("time,date", "2031-06-14T14:20,6/14/2031", "2031-06-14T14:20", "")]
    [InlineData("time,date", "2031-06-14T14:20,6/15/2031", null, "columns disagree")]
    [InlineData("time,date", ",", null, "blank")]
    [InlineData("date,time_of_day", "6/14/2031,1420", "2031-06-14T14:20", "")]
    [InlineData("date,time_of_day", "2031-06-14T00:00,0.5", "2031-06-14T12:00", "")]
    [InlineData("date,time_of_day", "2031-06-14T00:00,", "2031-06-14T00:00 day", "noted time not recorded")]
    [InlineData("date,time_of_day", "2031-06-14,2031-06-14T14:20", "2031-06-14T14:20", "")]
    [InlineData("date,time_of_day", "2031-06-14,1899-12-30T14:20", "2031-06-14T14:20", "")]
    [InlineData("date,time_of_day", "2031-06-14,2031-06-15T14:20", "2031-06-14T00:00 day",
        "noted time not recorded, aside unreadable time")]
    [InlineData("date,time_of_day", "2031-06-14,48013.5", "2031-06-14T12:00", "")]
    [InlineData("date,time_of_day", "2031-06-14,48014.5", "2031-06-14T00:00 day", "noted time not recorded, aside unreadable time")]
    [InlineData("date,time_of_day", "2031-06-14,noon", "2031-06-14T00:00 day", "noted time not recorded, aside unreadable time")]
    [InlineData("date,time_of_day", "2031-06-14,2:20", "2031-06-14T00:00 day", "noted time not recorded, aside morning or afternoon")]
    [InlineData("date,time_of_day", "someday,1420", null, "unreadable date")]
    [InlineData("date,time_of_day,time_zone", "2031-06-14,1420,America/Denver", "2031-06-14T14:20 -06", "")]
    [InlineData("date,time_of_day,time_zone", "2031-06-14,,America/Denver", "2031-06-14T00:00 day", "noted time not recorded")]
    [InlineData("date,time_of_day,time_zone", "2031-03-09,0230,America/Denver", null, "skipped hour")]
    [InlineData("date,streamer_time", "2031-06-14,14:10", "2031-06-14T00:00 day", "noted time not recorded, aside time not recorded")]
    public void A_row(string columns, string values, string? time, string notes)
    {
        var read = Read(columns, null, values);
        var drop = read.Drops.SingleOrDefault();
        Assert.Equal(time, drop is null ? null : LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Format(drop.Time)
            + (drop.TimeRecorded ? "" : " day") + (drop.UtcOffset is { } offset ? $" {offset}" : ""));
        Assert.Equal(notes, string.Join(", ", read.Intake.Noted.Select(n => "noted " + n.Kind)
            .Concat(read.Intake.SetAside.Select(n => "aside " + n.Kind))
            .Concat(read.Intake.Quarantine.Where(q => q.Source.File == "drops.csv").SelectMany(q => q.Problems).Select(p => p.Kind))));
    }

    [Theory]
    [InlineData(null, new[] { "6/1/2031", "6/14/2031" }, new[] { "2031-06-01", "2031-06-14" })]
    [InlineData(null, new[] { "6/1/2031", "14/6/2031" }, new[] { "2031-01-06", "2031-06-14" })]
    [InlineData(null, new[] { "6/1/2031", "14/6/2031", "6/15/2031" }, new[] { "2031-06-14", "2031-06-15" })] // both: each by itself
    [InlineData(null, new[] { "6/1/2031", "7/12/2031" }, new string[0])]
    [InlineData("month first", new[] { "6/1/2031", "14/6/2031" }, new[] { "2031-06-01" })]
    [InlineData("day first", new[] { "6/1/2031", "7/12/2031" }, new[] { "2031-01-06", "2031-12-07" })]
    public void The_column_or_the_map_settles_day_and_month(string? map, string[] written, string[] days)
    {
        var read = Read("date", map is null ? null : $$"""{"dates": "{{map}}"}""", written);
        Assert.Equal(days, read.Drops.Select(d => LocalDatePattern.Iso.Format(d.Time.Date)));
        Assert.Equal(written.Length - days.Length, read.Intake.Quarantine.Count(q => q.Source.File == "drops.csv"));
        Assert.All(read.Drops, d => Assert.Equal("2031", d.Season));
        Assert.All(read.Intake.Quarantine, q => Assert.Equal("2031", q.Season)); // the year is the same either way
    }

    [Fact]
    public void A_column_that_goes_beyond_12_settles_the_clock() => Assert.Equal([new LocalTime(9, 20), new LocalTime(14, 5)],
        Read("date,time_of_day", null, "2031-06-14,9:20", "2031-06-14,14:05").Drops.Select(d => d.Time.TimeOfDay));

    /// <summary>Minutes of the streamers' age: the written one, the one between two times, and what is told where they differ.</summary>
    [Theory]
    [InlineData("5,", 5.0, "")]
    [InlineData(",", null, "")]
    [InlineData(",15:10", 10.0, "")]
    [InlineData(",2031-07-14T15:10:30", 9.5, "")]
    [InlineData("11,15:10", 10.0, "")] // a minute apart: not told
    [InlineData("11.1,15:10", 10.0, "noted streamer age")]
    [InlineData("8.9,15:10", 10.0, "noted streamer age")]
    [InlineData("5,15:20", 0.0, "noted streamer age")] // thrown as the jumper left: an age of nothing is an age
    [InlineData("5,15:21", 5.0, "aside streamers after exit")]
    [InlineData("5,soon", 5.0, "aside unreadable time")]
    [InlineData("5,3:10", 5.0, "aside unreadable time")]
    public void The_age_of_the_streamers(string values, double? minutes, string notes)
    {
        var read = Read("time,streamer_minutes,streamer_time", null, "2031-07-14T15:20," + values);
        Assert.Equal(minutes * 60, Assert.Single(read.Drops).StreamerAge);
        Assert.Equal(notes, string.Join(", ", read.Intake.Noted.Select(n => "noted " + n.Kind)
            .Concat(read.Intake.SetAside.Select(n => "aside " + n.Kind))));
    }

    /// <summary>Nothing that needs a clock uses a pass without one: order is that of the rows, and no pass was flown twice.</summary>
    [Fact]
    public void Passes_without_a_time_of_day_keep_the_order_of_their_rows()
    {
        var read = Read("date,spotter", null, [.. Enumerable.Range(0, 12).Select(_ => "2031-06-14,s1")]);
        Assert.Equal(Enumerable.Range(0, 12).Select(i => $"m{i}"), MissionInTime.Of(read.Landings).Select(m => m.Mission)); // m10 after m9
        Assert.DoesNotContain(RecordChecks.Of(read).Flags, f => f.Check == "rows told twice");
        var (first, second) = (read.Drops[0], read.Drops[1]);
        Assert.False(first.IsBefore(second with { Time = first.Time.PlusHours(15), TimeRecorded = true }));
        Assert.True(first.IsBefore(second with { Time = first.Time.PlusDays(1) }));
        using var files = new TempLog();
        read.Write(files.Folder, LogFileFormat.Csv);
        Assert.All(files.Read().Drops, d => Assert.False(d.TimeRecorded));
    }
}
