using System.Text;
using CsCheck;

namespace JumpAnalytics.Tests;

/// <summary>What a workbook may look like: kinds of cells, where the headers stand, which sheets are the log, and damage.</summary>
public sealed class WorkbookTests
{
    private static readonly string[] _dropsHeader = TempLog.DropsHeader.Split(',');
    private static readonly string[] _drop1 = TempLog.Drop1.Split(',');
    private static readonly string _drops = MadeWorkbook.Texts(1, _dropsHeader) + MadeWorkbook.Texts(2, _drop1);
    private static readonly string _landings =
        MadeWorkbook.Texts(1, TempLog.LandingsHeader.Split(',')) + MadeWorkbook.Texts(2, TempLog.Landing1.Split(','));

    private static JumpLog Read(params (string Name, MadeWorkbook Book)[] files)
    {
        using var log = new TempLog();
        foreach (var (name, book) in files) log.With(name, book.ToBytes());
        return log.Read();
    }

    private static RawRow FirstRow(MadeWorkbook book)
    {
        using var log = new TempLog().With("t.xlsx", book.ToBytes());
        return SheetTable.Of(new WorkbookFile(Path.Combine(log.Folder, "t.xlsx")), "s")!.Rows().First();
    }

    [Fact]
    public void Cells_become_the_text_a_log_is_written_in()
    {
        var book = new MadeWorkbook { SharedStrings = ["<t>plain</t>", "<r><t>ri</t></r><r><t>ch</t></r><rPh><t>no</t></rPh>"] }.With("s",
            MadeWorkbook.Texts(1, [.. Enumerable.Range(0, 20).Select(i => $"h{i}")]) + MadeWorkbook.Row(2,
                MadeWorkbook.Cell("A2", "0.1"), MadeWorkbook.Cell("B2", "12.300000000000001"),
                MadeWorkbook.Cell("C2", "48043.638888888891", style: 1),
                MadeWorkbook.Cell("D2", "5.1", style: 2), MadeWorkbook.Cell("E2", "1", "b"), MadeWorkbook.Cell("F2", "0", "b"),
                MadeWorkbook.Cell("G2", "#N/A", "e"),
                MadeWorkbook.Cell("H2", "text", "str", formula: "A1"), MadeWorkbook.Cell("I2", "2", formula: "1+1"),
                MadeWorkbook.Cell("J2", "48043", style: 3),
                MadeWorkbook.Cell("K2", "2031-07-14T15:20:00", "d"), MadeWorkbook.Cell("L2", "0", "s"), MadeWorkbook.Cell("M2", "1", "s"),
                MadeWorkbook.Cell("N2", "7", "s"),
                MadeWorkbook.Cell("O2", "1E-3"), MadeWorkbook.Cell("P2", "48043.638900462966", style: 1),
                MadeWorkbook.Cell("Q2", "-4", style: 1), "<c r=\"R2\"/>",
                "<c r=\"S2\" t=\"inlineStr\"><is><t>a_x000A_b</t></is></c>", "<c r=\"T2\" t=\"inlineStr\"><is><t>'=cmd</t></is></c>"));
        Assert.Equal(
            [
                "0.1", "12.3", "2031-07-14T15:20", "5.1", "yes", "no", "#N/A", "text", "2", "2031-07-14",
                "2031-07-14T15:20:00", "plain", "rich", "7", "0.001",
                "2031-07-14T15:20:01", "-4", "", "a\nb", "=cmd",
            ], FirstRow(book).Fields);
    }

    /// <summary>Serial day 0 is 1899-12-30 or 1904-01-01: four years and a day apart.</summary>
    [Fact]
    public void Dates_counted_from_1904_are_not_four_years_off() => Assert.Equal("2035-07-15T15:20",
        FirstRow(new MadeWorkbook { Date1904 = true }.With("s",
            MadeWorkbook.Texts(1, "time") + MadeWorkbook.Row(2, MadeWorkbook.Cell("A2", "48043.638888888891", style: 1)))).Fields[0]);

    [Fact]
    public void One_workbook_serves_both_tables()
    {
        var log = Read(("season 2031.xlsx",
            new MadeWorkbook().With("Notes", MadeWorkbook.Texts(1, "hello")).With("Landings", _landings).With("DROPS 2031", _drops)));
        Assert.Equal(new RowSource("season 2031.xlsx", 2, "DROPS 2031"), Assert.Single(log.Drops).Source);
        Assert.Equal("season 2031.xlsx [Landings]:2", Assert.Single(log.Landings).Source.ToString());
        Assert.Equal(["season 2031.xlsx [DROPS 2031]", "season 2031.xlsx [Landings]"], log.Intake.Files.Select(f => f.File));
        Assert.Equal(["this sheet was read as drops; sheets not read: 'Notes'"], log.Intake.Files[0].Remarks);
        Assert.Contains("season 2031.xlsx [Landings]: this sheet was read as landings; sheets not read: 'Notes'", log.Intake.Points);
    }

    [Fact]
    public void A_sheet_of_any_name_is_told_by_its_headers()
    {
        var log = Read(("book.xlsx", new MadeWorkbook().With("Sheet1", MadeWorkbook.Texts(1, "to do")).With("A", _landings)
            .With("B", _drops).With("old", _drops, state: "hidden")));
        Assert.Empty(log.Intake.Quarantine);
        Assert.Equal(("B", "A"), (log.Drops[0].Source.Sheet, log.Landings[0].Source.Sheet));
        var named = Read(("drops.xlsx", new MadeWorkbook().With("Sheet1", MadeWorkbook.Texts(1, "to do")).With("B", _drops)),
            ("landings.xlsx", new MadeWorkbook().With("B", _landings)));
        Assert.Equal("B", Assert.Single(named.Drops).Source.Sheet);
        Assert.Empty(named.Intake.Files[1].Remarks);
    }

    [Fact]
    public void Headers_are_found_below_a_title_and_under_merged_headings()
    {
        var log = Read(("log.xlsx", new MadeWorkbook()
            .With("drops", MadeWorkbook.Texts(2, "Season of 2031") + MadeWorkbook.Texts(4, _dropsHeader) + MadeWorkbook.Texts(6, _drop1))
            .With("landings", MadeWorkbook.Texts(1, "drop_id", "Landing", "", "remarks")
                + MadeWorkbook.Texts(2, "", "landing_distance_yd", "landing_bearing_deg") + MadeWorkbook.Texts(3, "d1", "12", "45", "ok"),
                "<mergeCells><mergeCell ref=\"A1:A2\"/><mergeCell ref=\"B1:C1\"/><mergeCell ref=\"D1:D2\"/></mergeCells>")));
        Assert.Equal(6, Assert.Single(log.Drops).Source.Line);
        Assert.Equal((3, "ok"), (Assert.Single(log.Landings).Source.Line, log.Landings[0].Remarks));
        Assert.Contains("the headers stand in row 4; what stands above them was not read", log.Intake.Files[0].Remarks);
        Assert.Contains("headers of merged cells were taken from the rows above: drop_id, remarks", log.Intake.Files[1].Remarks);
    }

    [Fact]
    public void A_cell_in_error_is_quoted_in_the_quarantine()
    {
        var row = MadeWorkbook.Texts(3, "d2", "m1", "2031-07-14T15:20", "timber")
            .Replace("</row>", MadeWorkbook.Cell("E3", "#DIV/0!", "e", formula: "1/0") + MadeWorkbook.Cell("F3", "8")
                + MadeWorkbook.Cell("G3", "300") + MadeWorkbook.Cell("H3", "90") + "</row>", StringComparison.Ordinal);
        var log = Read(("log.xlsx", new MadeWorkbook().With("drops", _drops + row).With("landings", _landings)));
        var problem = Assert.Single(Assert.Single(log.Intake.Quarantine).Problems);
        Assert.Equal(("target_radius_yd", "#DIV/0!", "log.xlsx [drops]:3"), (problem.Column, problem.Value, problem.Source.ToString()));
    }

    [Fact]
    public void A_sheet_formatted_to_its_last_row_is_read_at_once()
    {
        var log = Read(("log.xlsx", new MadeWorkbook().With("drops", _drops + "<row r=\"1048576\"><c r=\"XFD1048576\" s=\"1\"/></row>")
            .With("landings", _landings)));
        Assert.Equal(2, log.Intake.RowsRead);
    }

    private static string Refusal(byte[] bytes)
    {
        using var log = new TempLog().With("book.xlsx", bytes);
        return Assert.Throws<LogFormatException>(log.Read).Message;
    }

    [Fact]
    public void An_archive_that_unpacks_without_end_is_refused()
    {
        var bomb = new MadeWorkbook().With("drops", _drops).With("landings", _landings)
            .WithPart("xl/media/x.bin", new byte[8 << 20]).ToBytes();
        Assert.True(bomb.Length < 20_000);
        Assert.Contains("unpacks to far more", Refusal(bomb), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("PK\u0003\u0004 and no more", "can't be read as a workbook")]
    [InlineData("drop_id,mission", "is not a workbook although its name says so")]
    [InlineData("", "is not a workbook although its name says so")]
    public void What_is_no_workbook_is_told(string text, string message) =>
        Assert.Contains(message, Refusal(Encoding.UTF8.GetBytes(text)), StringComparison.Ordinal);

    [Fact]
    public void An_encrypted_workbook_is_told() =>
        Assert.Contains("is encrypted or an old Excel file", Refusal([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, 0, 0]),
            StringComparison.Ordinal);

    [Fact]
    public void An_entity_in_a_sheet_is_refused() => Assert.Contains("can't be read as a workbook",
        Refusal(new MadeWorkbook().With("drops", _drops).With("landings", "&bomb;").ToBytes()), StringComparison.Ordinal);

    /// <summary>Damaged bytes and damaged XML: a log, or the error of the format.</summary>
    [Fact]
    public void A_damaged_workbook_throws_nothing_but_the_error_of_the_format()
    {
        var good = new MadeWorkbook { SharedStrings = ["<t>x</t>"] }.With("drops", _drops).With("landings", _landings).ToBytes();
        using var log = new TempLog();
        var refused = 0;
        Cases.Each(Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte, Gen.Bool), 300, 41, blow =>
        {
            var (at, value, cut) = blow;
            byte[] bytes = cut ? good[..at] : [.. good[..at], value, .. good[(at + 1)..]];
            log.With("book.xlsx", bytes);
            try
            {
                var read = log.Read();
                Assert.Equal(read.Intake.RowsRead, read.Intake.RowsAccepted + read.Intake.RowsQuarantined);
            }
            catch (LogFormatException)
            {
                refused++;
            }
        });
        Assert.InRange(refused, 100, 299);
    }

    [Theory]
    [InlineData("<row r=\"1\"><c t=\"s\"><v>99</v></c></row><row r=\"x\"/>")]
    [InlineData("<row><c r=\"ZZZZZZZZZZZZ1\"><v>1</v></c></row>")]
    [InlineData("<row r=\"99999999999\"/>")]
    [InlineData("<row><c s=\"99999\"><v>1</v></c></row>")]
    [InlineData("<row><c t=\"nonsense\"><v>1</v></c></row>")]
    [InlineData("<row><c>")]
    public void Hostile_cells_are_a_log_or_the_error_of_the_format(string rows) =>
        Assert.NotEmpty(Refusal(new MadeWorkbook().With("drops", rows).With("landings", rows).ToBytes()));
}
