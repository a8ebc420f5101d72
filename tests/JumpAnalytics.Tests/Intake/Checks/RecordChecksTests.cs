using System.Globalization;

namespace JumpAnalytics.Tests.Checks;

/// <summary>What single checks say of small logs whose numbers can be computed by hand.</summary>
public sealed class RecordChecksTests
{
    private const string Drops = TempLog.DropsHeader
        + ",spotter,wind_from_deg,exit_height_ft,spot_elevation_ft,streamer_minutes,spot_lat,spot_lon,exit_distance_yd,exit_bearing_deg";
    private const string Landings = TempLog.LandingsHeader + ",jumper,exit_order,canopy,measured_by,hung_up";

    /// <summary>
    /// 24 missions of one drop and two landings, two spotters, in which nothing is wrong: 20 s a yard over mph and 300 yd in 8 mph.
    /// </summary>
    private static (List<string[]> Drops, List<string[]> Landings) Sound()
    {
        var (drops, landings) = (new List<string[]>(), new List<string[]>());
        for (var m = 0; m < 24; m++)
        {
            var (wind, to) = (5 + m % 7, 15 * m);
            drops.Add([$"d{m}", $"m{m}", $"2031-07-{m + 1:00}T15:20-07:00", "timber", "25", Text(wind), Text(40 * wind + m % 3),
                Text(to % 360), m % 2 == 0 ? "Anna-Code" : "Bert-Code", Text((to + 180 + m % 5 - 2) % 360), Text(1500 + 10 * (m % 4)),
                Text(700 + 137 * m % 1000), Text(4 + m % 9),
                Text(45 + 0.01371 * m), Text(-114 - 0.01793 * m), Text(40 * wind), Text((to + 181 - m % 3) % 360)]);
            landings.Add([$"d{m}", Text(7 + 3 * m % 17 + 0.3), Text(37 * m % 360), $"J{m}a", "1", "round", "gps", "no"]);
            landings.Add([$"d{m}", Text(9 + 5 * m % 19 + 0.3), Text((37 * m + 180) % 360), $"J{m}b", "2", "round", "gps", "no"]);
        }
        return (drops, landings);
    }

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);

    private static RecordCheckReport Report((List<string[]> Drops, List<string[]> Landings) rows)
    {
        using var files = TempLog.Of(TempLog.Lines([Drops, .. rows.Drops.Select(d => string.Join(',', d))]),
            TempLog.Lines([Landings, .. rows.Landings.Select(l => string.Join(',', l))]));
        return RecordChecks.Of(files.Read());
    }

    private static RecordFlag Only(RecordCheckReport report, string check) => Assert.Single(report.Flags, f => f.Check == check);

    [Fact]
    public void Sound_records_raise_no_flag_and_every_check_looked()
    {
        var report = Report(Sound());
        Assert.Equal([], report.Flags.Select(f => f.Check + ": " + f.Found));
        Assert.All(report.Checks.Where(c => c.Check != "round numbers"), c => Assert.True(c.Rows > 0, c.Check));
        Assert.Equal(13, report.Checks.Count);
        Assert.Contains("raised no flag", report.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_of_one_drop_and_one_of_none_are_looked_at()
    {
        using var one = TempLog.Plain([], []);
        using var none = TempLog.Of(TempLog.Lines(TempLog.DropsHeader), TempLog.Lines(TempLog.LandingsHeader));
        Assert.Empty(RecordChecks.Of(one.Read()).Flags);
        Assert.Empty(RecordChecks.Of(none.Read()).Flags);
    }

    [Fact]
    public void A_reversed_drift_is_told_with_its_rows_and_twice_its_length()
    {
        var rows = Sound();
        rows.Drops[4][9] = rows.Drops[4][7]; // the wind written to where it blows
        var flag = Only(Report(rows), "from and to");
        Assert.Equal([new RowSource("drops.csv", 6)], flag.Rows);
        Close.Relative(2 * double.Parse(rows.Drops[4][6], CultureInfo.InvariantCulture), flag.Harm.Value, 1e-9);
        Assert.Equal("yd", flag.Harm.Unit);
        Assert.Null(flag.PValue);
    }

    [Fact]
    public void A_spotter_who_writes_magnetic_bearings_is_told_by_rows_and_not_by_code()
    {
        var rows = Sound();
        // 15 degrees east of north.
        foreach (var drop in rows.Drops.Where(d => d[8] == "Anna-Code"))
            drop[7] = Text((double.Parse(drop[7], CultureInfo.InvariantCulture) + 345) % 360);
        var report = Report(rows);
        var flags = report.Flags.Where(f => f.Check == "constant turn").ToList();
        Assert.Equal(["wind", "exit"], flags.Select(f => f.Found.Contains("wind blows", StringComparison.Ordinal) ? "wind" : "exit"));
        Assert.All(flags, f => Assert.Equal(new RecordGroup("spotter", "Anna-Code"), f.Group));
        Assert.All(flags, f => Assert.Equal(12, f.Rows.Count));
        Assert.All(flags, f => Assert.Contains("left (anticlockwise)", f.Found, StringComparison.Ordinal));
        // The drift in the median is 8 mph x 40 yd + 0 to 2: 2 D sin(7.5 degrees) is 0.261 D.
        Assert.All(flags, f => Assert.InRange(f.Harm.Value, 0.23 * 280, 0.29 * 362));
        Assert.DoesNotContain("Anna-Code", report.ToString(), StringComparison.Ordinal);
        Assert.Contains("the spotter of drops.csv:2", report.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_landings_give_the_range_of_the_rate()
    {
        var rows = Sound();
        rows.Landings[0][1] = rows.Landings[0][2] = ""; // hung up, no distance
        rows.Landings[0][7] = "yes";
        rows.Landings.RemoveAt(2); // first of the second stick
        var flags = Report(rows).Flags.Where(f => f.Check == "landings not written down").ToList();
        Assert.Equal(2, flags.Count);
        Assert.All(flags, f => Assert.Equal(100.0 / 47, f.Harm.Value, 9)); // 46 landings and one more
        Assert.Equal([new RowSource("landings.csv", 2)], flags[0].Rows);
        Assert.Equal([new RowSource("drops.csv", 3)], flags[1].Rows);
    }

    [Theory]
    [InlineData("J5a", false)] // spelt alike, the reader itself refuses the second row
    [InlineData("j-05A", true)]
    [InlineData("J 5 a", true)]
    [InlineData("J50a", false)]
    public void A_jumper_is_the_same_under_other_spellings(string spelt, bool same)
    {
        var rows = Sound();
        rows.Landings.Add(["d5", "12.3", "200", spelt, "", "round", "gps", "no"]);
        Assert.Equal(same ? 1 : 0, Report(rows).Flags.Count(f => f.Check == "rows told twice"));
    }

    /// <summary>Where nobody's code and no order is written, two of a stick at the same round distance are not one.</summary>
    [Fact]
    public void Jumpers_without_a_code_are_not_taken_for_one()
    {
        for (var seed = 1ul; seed <= 5; seed++)
        {
            var season = new CleanSeason(seed);
            foreach (var row in season.Landings) row["Jumper"] = row["Exit_Order"] = "";
            Assert.DoesNotContain(RecordChecks.Of(season.Read()).Flags, f => f.Check == "rows told twice");
        }
    }

    [Fact]
    public void A_landing_in_the_plane_is_turned_back_into_its_position()
    {
        var (spot, place) = (new GeoPosition(61.2, -149.9), new GeoPosition(61.203457, -149.881234));
        var drop = Made.Drop() with { Spot = spot, SpotElevation = 1200 };
        var found = WrittenPlaces.PositionOf(Made.Landing(drop, new LocalFrame(spot, 1200).ToLocal(place)));
        Close.Absolute(place.Latitude, found.Latitude, 1e-11);
        Close.Absolute(place.Longitude, found.Longitude, 1e-11);
    }

    /// <summary>10 written in fives, radius 12: 7.5 to 12.5 holds it, nine tenths inside; 15 is 12.5 to 17.5 and none of it is.</summary>
    [Fact]
    public void Heaped_distances_are_spread_over_their_rounding_intervals()
    {
        RoundedLanding At(double written) =>
            new(Made.Landing(Made.Drop(targetRadius: 12), 0, written), Math.Max(0, written - 2.5), written + 2.5);
        var rate = HeapedRate.Of([At(5), At(10), At(15), At(20)], beyond: 1);
        Assert.Equal(5, rate.Landings);
        Close.Relative(2 / 5.0, rate.Written, 1e-12);
        Close.Relative(1 / 5.0, rate.Low, 1e-12);
        Close.Relative(2 / 5.0, rate.High, 1e-12);
        Close.Relative(1.9 / 5, rate.Spread, 1e-12);
        Assert.Equal((50, 12.5, 10, 15),
            (rate.Distances[0].Percent, rate.Distances[0].Written, rate.Distances[0].Low, rate.Distances[0].High));
    }

    [Fact]
    public void Options_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new RecordCheckOptions { Confidence = 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new RecordCheckOptions { FalseAlarms = 0 });
    }

    [Fact]
    public void Harm_is_told_in_the_report_unit()
    {
        var rows = Sound();
        rows.Drops[4][9] = rows.Drops[4][7];
        using var files = TempLog.Of(TempLog.Lines([Drops, .. rows.Drops.Select(d => string.Join(',', d))]),
            TempLog.Lines([Landings, .. rows.Landings.Select(l => string.Join(',', l))]));
        var log = files.Read();
        var (yards, metres) = (RecordChecks.Of(log), RecordChecks.Of(log, new RecordCheckOptions { Units = ReportUnits.Of("m", "mph") }));
        Close.Relative(0.9144 * Only(yards, "from and to").Harm.Value, Only(metres, "from and to").Harm.Value, 1e-9);
        Assert.Equal("m", Only(metres, "from and to").Harm.Unit);
    }
}
