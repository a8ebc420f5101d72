using System.Text;

namespace JumpAnalytics.Tests;

/// <summary>What the files may look like: marks, line ends, quotes, blanks.</summary>
public sealed class CsvFileTests
{
    private static readonly string _drops = TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",clear");

    private static JumpLog Read(string drops, string? landings = null)
    {
        using var log = TempLog.Of(drops, landings ?? TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        return log.Read();
    }

    private static void AssertOneOfEach(JumpLog log)
    {
        Assert.Empty(log.Intake.Quarantine);
        Assert.Single(log.Drops);
        Assert.Single(log.Landings);
    }

    [Theory]
    [InlineData("utf-8")]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    [InlineData("utf-32")]
    public void A_byte_order_mark_is_no_part_of_the_first_header(string encoding)
    {
        var code = Encoding.GetEncoding(encoding);
        using var log = TempLog.Of("", TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1))
            .With("drops.csv", [.. code.GetPreamble(), .. code.GetBytes(_drops)]);
        AssertOneOfEach(log.Read());
    }

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\n")]
    [InlineData("\r")]
    public void Any_line_end_will_do(string end)
    {
        var log = Read(_drops.Replace("\n", end, StringComparison.Ordinal));
        AssertOneOfEach(log);
        Assert.Equal("clear", log.Drops[0].Remarks);
        Assert.Equal(2, log.Drops[0].Source.Line);
    }

    [Fact]
    public void The_last_line_needs_no_end() =>
        AssertOneOfEach(Read(_drops.TrimEnd('\n'), TempLog.LandingsHeader + "\n" + TempLog.Landing1));

    [Theory]
    [InlineData(';')]
    [InlineData('\t')]
    public void Semicolons_and_tabs_part_fields_too(char separator) => AssertOneOfEach(Read(_drops.Replace(',', separator)));

    [Fact]
    public void Headers_match_in_any_case_and_with_blanks_round_them() => AssertOneOfEach(
        Read(TempLog.Lines(" Drop_ID ,MISSION,Time,Terrain,Target_Radius_YD,Wind_Speed_MPH,FORECAST_DRIFT_YD,Forecast_To_Deg",
            " " + TempLog.Drop1)));

    [Fact]
    public void Quoted_fields_hold_separators_quotes_and_line_breaks_and_line_numbers_stay_right()
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks",
            TempLog.Drop1 + ",\"gusts, then calm\"",
            "\"d2\",m1,2031-07-14T15:40,\"timber\",25,8,300,90,\"they called it \"\"the hole\"\"\"",
            "d3,m1,2031-07-14T15:50,timber,25,8,300,90,\"first line", "second, line", "third\"",
            "d4,m1,not a time,timber,25,8,300,90,x",
            "d5,m1,2031-07-14T16:10,timber,25,8,300,90,"));
        Assert.Equal(["gusts, then calm", "they called it \"the hole\"", "first line\nsecond, line\nthird", null],
            log.Drops.Select(d => d.Remarks));
        Assert.Equal([2, 3, 4, 8], log.Drops.Select(d => d.Source.Line));
        var refused = Assert.Single(log.Intake.Quarantine);
        Assert.Equal(new RowSource("drops.csv", 7), refused.Source);
        Assert.Equal("not a time", Assert.Single(refused.Problems).Value);
    }

    [Fact]
    public void Blank_lines_are_counted_and_passed_over()
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader, "", TempLog.Drop1, "   ", ",,,,,,,", "", "d2,m1,bad,timber,25,8,300,90"));
        var file = log.Intake.Files[0];
        Assert.Equal((2, 1, 1, 4), (file.RowsRead, file.RowsAccepted, file.RowsQuarantined, file.BlankLines));
        Assert.Equal(3, log.Drops[0].Source.Line);
        Assert.Equal(7, log.Intake.Quarantine[0].Source.Line);
    }

    [Theory]
    [InlineData("d2,m1,2031-07-14T15:20,timber,25,8,300", "7 fields where the header has 8")]
    [InlineData("d2,m1,2031-07-14T15:20,timber,25,8,300,90,extra", "9 fields where the header has 8")]
    [InlineData("d2", "1 fields where the header has 8")]
    public void Ragged_rows_are_set_apart(string row, string reason)
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1, row));
        var refused = Assert.Single(log.Intake.Quarantine);
        Assert.Equal("ragged row", Assert.Single(refused.Problems).Kind);
        Assert.Contains(reason, refused.Problems[0].Reason, StringComparison.Ordinal);
        Assert.Equal(row.Split(','), refused.Fields);
        Assert.Equal(3, refused.Source.Line);
    }

    [Fact]
    public void Blank_fields_past_the_header_are_harmless() =>
        AssertOneOfEach(Read(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1 + ",, ,")));

    [Fact]
    public void A_quote_that_does_not_close_sets_its_lines_apart_together()
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",ok",
            "d2,m1,2031-07-14T15:20,timber,25,8,300,90,\"gusts", "d3,m1,2031-07-14T15:20,timber,25,8,300,90,ok",
            "d4,m1,2031-07-14T15:20,timber,25,8,300,90,ok"));
        var refused = Assert.Single(log.Intake.Quarantine);
        var problem = Assert.Single(refused.Problems);
        Assert.Equal(("quote not closed", new RowSource("drops.csv", 3)), (problem.Kind, refused.Source));
        Assert.Contains("lines 3 to 5 ran together", problem.Reason, StringComparison.Ordinal);
        Assert.Contains("d4,m1", string.Join(',', refused.Fields), StringComparison.Ordinal);
        Assert.Single(log.Drops);
    }

    [Fact]
    public void A_quote_that_does_not_close_on_the_last_line_is_told()
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",ok",
            "d2,m1,2031-07-14T15:20,timber,25,8,300,90,\"gusts"));
        Assert.Equal("quote not closed", log.Intake.Quarantine[0].Problems[0].Kind);
    }

    /// <summary>
    /// An inch mark in an unquoted field is a quote to a reader of separated values. Two of them in one column, some rows apart, make one
    /// row of the right number of fields out of all the rows between: none of those may vanish.
    /// </summary>
    [Theory]
    [InlineData("a 5\" limb", "a 6\" trunk")]
    [InlineData("\"a 5 inch limb", "\"a 6 inch trunk")]
    [InlineData("a limb\"", "a trunk\"")]
    public void Stray_quotes_do_not_swallow_the_rows_between_them(string first, string second)
    {
        const string Row = ",m1,2031-07-14T15:20,timber,25,8,300,90,";
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",ok",
            "d2" + Row + first, "d3" + Row + "ok", "d4" + Row + "ok", "d5" + Row + second, "d6" + Row + "ok"));
        var kept = log.Drops.Select(d => d.Id).Concat(log.Intake.Quarantine.SelectMany(q => q.Fields)).ToList();
        Assert.All(["d1", "d2", "d3", "d4", "d5", "d6"], id => Assert.Contains(kept, k => k.Contains(id, StringComparison.Ordinal)));
        Assert.DoesNotContain(log.Drops, d => d.Remarks?.Contains("d3,", StringComparison.Ordinal) == true);
    }

    [Fact]
    public void A_stray_quote_is_told_with_the_lines_that_ran_together()
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks",
            TempLog.Drop1 + ",a 5\" limb", "d2,m1,2031-07-14T15:20,timber,25,8,300,90,ok",
            "d3,m1,2031-07-14T15:20,timber,25,8,300,90,a 6\" trunk"),
            TempLog.LandingsHeader);
        var problem = Assert.Single(Assert.Single(log.Intake.Quarantine).Problems);
        Assert.Equal("stray quote", problem.Kind);
        Assert.Contains("lines 2 to 4 ran together", problem.Reason, StringComparison.Ordinal);
        Assert.Empty(log.Drops);
    }

    [Theory]
    [InlineData("a 5\" by 6\" limb")]
    [InlineData("known as \"\"the hole\"\"")]
    public void Quotes_inside_one_field_do_no_harm(string remark) =>
        Assert.Equal(remark,
            Assert.Single(Read(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + "," + remark)).Drops).Remarks);

    [Theory]
    [InlineData("a \"quoted, part\" of a field")]
    [InlineData("\"quoted, part\" of a field")]
    public void A_quoted_part_of_a_field_that_hides_a_separator_is_set_apart(string remark)
    {
        var log = Read(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + "," + remark), TempLog.LandingsHeader);
        Assert.Equal("stray quote", Assert.Single(log.Intake.Quarantine).Problems[0].Kind);
    }

    [Theory]
    [InlineData(",sky\"")]
    [InlineData(",\"sky")]
    public void A_stray_quote_in_the_header_is_told(string column)
    {
        var error = Assert.Throws<LogFormatException>(() =>
            Read(TempLog.Lines(TempLog.DropsHeader + column, TempLog.Drop1 + ",a 5\" limb", TempLog.Drop1 + ",x")));
        Assert.Contains("lines 1 to 2 may have run together", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\uFEFF")]
    public void An_empty_file_is_told(string text) =>
        Assert.Contains("drops.csv is empty", Assert.Throws<LogFormatException>(() => Read(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_header_alone_is_a_log_without_rows()
    {
        var log = Read(TempLog.DropsHeader, TempLog.LandingsHeader + "\n");
        Assert.Empty(log.Drops);
        Assert.Equal(0, log.Intake.RowsRead);
        Assert.StartsWith("0 rows read = 0 accepted + 0 quarantined (0.0 %)", log.Intake.Reading, StringComparison.Ordinal);
    }
}
