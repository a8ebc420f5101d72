using System.Text;

namespace JumpAnalytics.Tests;

/// <summary>Separators, encodings and decimal commas of files of separated values.</summary>
public sealed class CsvDialectTests
{
    private const string GermanHeader =
        "drop_id;mission;time;terrain;target_radius_m;wind_speed_mps;forecast_east_m;forecast_north_m;remarks";

    private static CsvFile Open(TempLog log, string text, Encoding? encoding = null)
    {
        var code = encoding ?? new UTF8Encoding(false);
        log.With("t.csv", [.. code.GetPreamble(), .. code.GetBytes(text)]);
        return CsvFile.Open(Path.Combine(log.Folder, "t.csv"));
    }

    [Theory]
    [InlineData("a,b,c\n", "a|b|c")]
    [InlineData("a;b;c\n1,5;2;3", "a|b|c")]
    [InlineData("a\tb, or c\td\n", "a|b, or c|d")]
    [InlineData("a|b|c\n", "a|b|c")]
    [InlineData("\"a;b;c;d\",e\n1,2", "a;b;c;d|e")]
    [InlineData("\"a \"\"b;c;d;\"\"\",e\n1,2", "a \"b;c;d;\"|e")]
    [InlineData("only\n1\n2", "only")]
    [InlineData("\"only, one\"\n1\n", "only, one")]
    [InlineData("sep=;\r\na;b,c,d,e\r\n", "a|b,c,d,e")]
    [InlineData("SEP=\t\na\tb", "a|b")]
    public void The_separator_is_told_from_the_headers(string text, string header)
    {
        using var log = new TempLog();
        Assert.Equal(header.Split('|'), Open(log, text).Header);
    }

    [Fact]
    public void A_hint_of_the_separator_is_a_line_of_the_file()
    {
        using var log = new TempLog();
        Assert.Equal([(3, 4), (5, 5)], Open(log, "sep=;\na;b\n1;\"x\ny\"\n2;z\n").Rows().Select(r => (r.Source.Line, r.LastLine)));
    }

    [Fact]
    public void Western_letters_that_are_not_UTF_8_are_read_and_told()
    {
        using var log = TempLog.Of("", TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1))
            .With("drops.csv", [.. CodePagesEncodingProvider.Instance.GetEncoding(1252)!
                .GetBytes(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",Müller – 5 €"))]);
        var read = log.Read();
        Assert.Equal("Müller – 5 €", Assert.Single(read.Drops).Remarks);
        Assert.Contains(read.Intake.Points,
            p => p.StartsWith("drops.csv: not UTF-8, so it was read as Windows-1252", StringComparison.Ordinal));
    }

    /// <summary>
    /// One damaged letter among good ones is damage, not another encoding: read as Windows-1252 every good letter would change.
    /// </summary>
    [Fact]
    public void A_damaged_letter_in_UTF_8_sets_its_row_apart_alone()
    {
        byte[] bytes = [.. Encoding.UTF8.GetBytes(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",Müller")),
            .. "d2,m1,2031-07-14T15:20,timber,25,8,300,90,M"u8, 0xFC, .. "ller\n"u8];
        using var log = TempLog.Of("", TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1)).With("drops.csv", bytes);
        var read = log.Read();
        Assert.Equal("Müller", Assert.Single(read.Drops).Remarks);
        Assert.Equal("not UTF-8", Assert.Single(read.Intake.Quarantine).Problems[0].Kind);
        Assert.Empty(read.Intake.Files[0].Remarks);
    }

    [Fact]
    public void Letters_across_the_edge_of_a_buffer_are_one_letter()
    {
        using var log = new TempLog();
        for (var shift = 0; shift < 5; shift++)
        {
            var table = Open(log, "a\n" + new string('x', 65530 + shift) + "€€é😀\n");
            Assert.Empty(table.Remarks);
            Assert.EndsWith("x€€é😀", Assert.Single(table.Rows()).Fields[0], StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("utf-8")]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    [InlineData("utf-32")]
    public void A_byte_order_mark_tells_the_encoding(string encoding)
    {
        using var log = new TempLog();
        var table = Open(log, "é;b\n1;2\n", Encoding.GetEncoding(encoding));
        Assert.Equal(["é", "b"], table.Header);
        Assert.Empty(table.Remarks);
    }

    [Fact]
    public void Decimal_commas_are_read_where_the_whole_column_has_them_and_told()
    {
        using var log = TempLog.Of(
            TempLog.Lines(GermanHeader, "d1;m1;2031-07-14T15:20;Wald;22,5;3,25;1,234;-200,5;0,5 m Schnee",
                "d2;m1;2031-07-14T15:40;Wald;22;3;0,5;-200;x"),
            TempLog.Lines("drop_id;landing_distance_m;landing_bearing_deg", "d1;12,5;45"));
        var read = log.Read();
        Assert.Empty(read.Intake.Quarantine);
        var drop = read.Drops[0];
        Assert.Equal((22.5, 3.25, new LocalVector(1.234, -200.5), "0,5 m Schnee"),
            (drop.TargetRadius, drop.WindSpeed, drop.ForecastDrift, drop.Remarks));
        Assert.Equal(["decimal commas were read as decimal points in target_radius_m, wind_speed_mps, forecast_east_m, forecast_north_m"],
            read.Intake.Files[0].Remarks);
        Assert.Equal(12.5, read.Landings[0].MissDistance);
    }

    [Fact]
    public void Commas_that_may_part_thousands_are_not_guessed_at()
    {
        using var log = TempLog.Of(
            TempLog.Lines(GermanHeader, "d1;m1;2031-07-14T15:20;Wald;22,5;3,5;1,234;-200;x",
                "d2;m1;2031-07-14T15:20;Wald;22;3.5;234;-200;x"),
            TempLog.Lines(TempLog.LandingsHeader));
        var read = log.Read();
        var problems = Assert.Single(read.Intake.Quarantine).Problems;
        Assert.Equal([("wind_speed_mps", "3,5"), ("forecast_east_m", "1,234")], problems.Select(p => (p.Column, p.Value)));
        Assert.Equal("d2", Assert.Single(read.Drops).Id);
        Assert.Equal(3, read.Intake.Files[0].Remarks.Count);
        Assert.Contains(read.Intake.Files[0].Remarks,
            r => r.StartsWith("commas in forecast_east_m may part thousands or decimals", StringComparison.Ordinal));
        Assert.Contains(read.Intake.Files[0].Remarks,
            r => r.StartsWith("wind_speed_mps has numbers with commas and numbers with points", StringComparison.Ordinal));
    }

    /// <summary>
    /// Where decimals have a comma, 1.234 is as likely a thousand as not: it is refused, never read as a hit of one metre.
    /// </summary>
    [Theory]
    [InlineData("1.234;90,5", "20;90,5")]
    [InlineData("1.234;90", "12,5;90")]
    public void A_point_that_may_part_thousands_is_not_read_where_decimals_have_a_comma(string doubtful, string good)
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines("drop_id;landing_distance_m;landing_bearing_deg", "d1;" + doubtful, "d1;" + good));
        var read = log.Read();
        var problem = Assert.Single(Assert.Single(read.Intake.Quarantine).Problems);
        Assert.Equal(("landing_distance_m", "1.234", "not a number"), (problem.Column, problem.Value, problem.Kind));
        Assert.Contains("may part thousands", problem.Reason, StringComparison.Ordinal);
        Assert.True(Assert.Single(read.Landings).MissDistance > 12);
        Assert.Contains(read.Intake.Files[1].Remarks,
            r => r.StartsWith("points in landing_distance_m may part thousands", StringComparison.Ordinal));
    }

    [Fact]
    public void A_comma_inside_quotes_of_a_comma_file_is_no_decimal_comma()
    {
        using var log = TempLog.Plain(["d2,m1,2031-07-14T15:20,timber,\"25,5\",8,300,90"], []);
        Assert.Equal("not a number", Assert.Single(log.Read().Intake.Quarantine).Problems[0].Kind);
    }
}
