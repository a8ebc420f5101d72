namespace JumpAnalytics.Tests;

public sealed class TableViewTests
{
    private static readonly TableColumn _text = new("name", "name", CellFormat.Text, "A name.");
    private static readonly TableColumn _count = new("n", "how many", CellFormat.Count, "A count.");
    private static readonly TableColumn _rate = new("rate", "rate", CellFormat.ShareRange, "A rate.");
    private static readonly TableColumn _size = new("size_m", "size (m)", CellFormat.Number, "A size.");

    private static TableView Of(params object?[][] rows) => new("t", "A table", [_text, _count, _rate, _size], rows, "A note.");

    [Fact]
    public void A_file_has_one_header_line_an_estimate_three_columns_and_nothing_for_what_is_absent()
    {
        var table = Of(
            ["plain", 1234, Estimate.Of(0.1234567890123, new Interval(0.1, 1 / 3.0)), 1e-9],
            ["", null, Estimate.WithoutRange(0.5, "one mission"), -12.5],
            ["last", 0, null, null]);
        Assert.Equal("name,n,rate,rate_low,rate_high,size_m\n"
            + "plain,1234,0.123456789,0.1,0.3333333333,1E-09\n"
            + ",,0.5,,,-12.5\n"
            + "last,0,,,,\n", table.ToCsv());
    }

    [Theory]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("say \"hi\"", "\"say \"\"hi\"\"\"")]
    [InlineData("two\nlines", "\"two\nlines\"")]
    [InlineData("semi;colon", "semi;colon")]
    [InlineData(" blanks ", " blanks ")]
    [InlineData("<b>", "<b>")]
    [InlineData("form\ffeed and \u2028 and \u0085", "form\ffeed and \u2028 and \u0085")]
    public void Text_is_escaped_and_otherwise_left_alone(string text, string field) =>
        Assert.Equal($"name,n,rate,rate_low,rate_high,size_m\n{field},1,,,,\n", Of([text, 1, null, null]).ToCsv());

    [Theory]
    [InlineData("two\r\nlines")]
    [InlineData("old\rmac")]
    public void A_line_end_inside_a_text_is_kept(string text) =>
        Assert.Equal($"name,n,rate,rate_low,rate_high,size_m\n\"{text}\",1,,,,\n", Of([text, 1, null, null]).ToCsv());

    [Fact]
    public void A_table_without_rows_keeps_its_header()
    {
        Assert.Equal("name,n,rate,rate_low,rate_high,size_m\n", Of().ToCsv());
        using var writer = new StringWriter();
        Of().WriteHtml(writer);
        Assert.Contains("<td colspan=\"4\">none</td>", writer.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_of_another_width_is_refused() =>
        Assert.Contains("3 cells for 4 columns", Assert.Throws<ArgumentException>(() => Of(["a", 1, null])).Message,
            StringComparison.Ordinal);

    [Fact]
    public void As_text_columns_are_aligned_names_left_and_numbers_right()
    {
        var text = Of(["short", 7, Estimate.Of(0.8, new Interval(0.75, 0.85)), 1.0], ["rather long", 1234, null, 123.456]).ToString();
        Assert.Equal("""
            A table
            name         how many               rate  size (m)
            short               7  80 % (75 to 85 %)      1.00
            rather long     1,234                  –    123.46
            A note.

            """.ReplaceLineEndings("\n"), text);
    }

    [Fact]
    public void In_a_page_numbers_are_set_right_and_a_missing_interval_tells_why()
    {
        using var writer = new StringWriter();
        Of(["a", 1, Estimate.WithoutRange(0.5, "one \"mission\""), null]).WriteHtml(writer);
        Assert.Contains("<td>a</td><td class=\"ja-num\">1</td><td class=\"ja-num\" title=\"no interval: "
            + "one &quot;mission&quot;\">50 %</td><td class=\"ja-num\">–</td>", writer.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_rate_table_has_the_columns_it_is_known_by()
    {
        using var log = TempLog.Plain([], []);
        var table = RateTable.Of(log.Read().Landings, new AccuracyOptions { Replicates = 200 }).Tables[0];
        Assert.Equal("rates-by-cell", table.Name);
        var header = table.ToCsv().Split('\n')[0].Split(',');
        foreach (var column in new[] { "wind_band", "terrain", "missions", "landings", "hits", "rate", "rate_low", "rate_high",
            "design_effect", "model_rate", "model_rate_low", "model_rate_high", "note" })
            Assert.Contains(column, header);
        Assert.Equal(header.Length, header.Distinct().Count());
    }
}
