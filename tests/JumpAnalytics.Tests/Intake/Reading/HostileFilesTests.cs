using System.Text;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>
/// Files made to break a reader: huge fields and rows, thousands of columns, deep quotes, files cut anywhere, paths that lead out.
/// </summary>
public sealed class HostileFilesTests
{
    [Fact]
    public void A_huge_field_is_refused_and_shown_short()
    {
        using var log = new TempLog().With("drops.csv", TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ","
            + new string('x', 10_000), TempLog.Drop1.Replace("d1", "d2", StringComparison.Ordinal) + "," + new string('y', 10_001)))
            .With("landings.csv", TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        var read = log.Read();
        Assert.Single(read.Drops);
        var refused = Assert.Single(read.Intake.Quarantine);
        var problem = Assert.Single(refused.Problems);
        Assert.Equal(("field too long", "field 9 has 10,001 letters, more than the 10,000 a field may have"),
            (problem.Kind, problem.Reason));
        Assert.Equal(41, problem.Value.Length);
        Assert.Equal(10_001, refused.Fields[8].Length); // nothing of it is lost
    }

    [Fact]
    public void A_row_of_many_fields_is_shown_short()
    {
        using var log = TempLog.Plain([TempLog.Drop1 + new string(',', 5_000) + "x"], []);
        var problem = Assert.Single(Assert.Single(log.Read().Intake.Quarantine).Problems);
        Assert.Equal(("ragged row", 1_001), (problem.Kind, problem.Value.Length));
    }

    [Fact]
    public void A_row_longer_than_can_be_read_is_the_error_of_the_format()
    {
        using var log = TempLog.Plain(["\"" + new string('x', 17_000_000) + "\""], []);
        Assert.Contains("row too long", Assert.Throws<LogFormatException>(log.Read).Message, StringComparison.Ordinal);
    }

    /// <summary>A line of 17 million letters anywhere: quoted or not, in the headers, all of it separators, in a semicolon file.</summary>
    [Theory]
    [InlineData("drops.csv", true, 'x')]
    [InlineData("drops.csv", false, 'x')]
    [InlineData("drops.csv", true, ',')]
    [InlineData("drops.csv", false, ';')]
    [InlineData("d-quarantine.csv", true, 'x')]
    public void A_line_too_long_anywhere_is_the_error_of_the_format(string file, bool inHeader, char letter)
    {
        var line = new string(letter, 17_000_000);
        using var log = TempLog.Plain([], []).With(file, inHeader ? line : TempLog.Lines(TempLog.DropsHeader, line));
        Assert.Contains(file, Assert.Throws<LogFormatException>(log.Read).Message, StringComparison.Ordinal);
        Assert.Throws<LogFormatException>(() => ColumnMap.Propose(log.Folder));
    }

    /// <summary>Links that lead to themselves, in place of every kind of file and of the folder.</summary>
    [Theory]
    [InlineData("drops.csv")]
    [InlineData("drops.xlsx")]
    [InlineData("drops.parquet")]
    [InlineData("drops.geojson")]
    [InlineData("landings2.gpx")]
    [InlineData("columns.json")]
    [InlineData("notice.txt")]
    [InlineData("drops-quarantine.csv")]
    [InlineData("loop")]
    public void A_link_that_leads_to_itself_is_the_error_of_the_format(string file)
    {
        if (OperatingSystem.IsWindows()) return; // links need rights there
        using var log = TempLog.Plain([], []);
        var path = Path.Combine(log.Folder, file);
        File.Delete(path);
        File.CreateSymbolicLink(path, path);
        Assert.Contains(file, Assert.Throws<LogFormatException>(() => JumpLog.Read(file == "loop" ? path : log.Folder)).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Ten_thousand_columns_are_read_and_named_in_short()
    {
        var more = string.Concat(Enumerable.Range(0, 10_000).Select(i => $",x{i}"));
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + more, TempLog.Drop1 + new string(',', 10_000)),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        var intake = log.Read().Intake;
        Assert.Empty(intake.Quarantine);
        Assert.Equal(10_000, intake.Files[0].UnknownColumns.Count);
        Assert.InRange(intake.ToString().Length, 100, 3_000);

        using var huge = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + "," + new string('h', 1_000_000), TempLog.Drop1 + ","),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        Assert.InRange(huge.Read().Intake.ToString().Length, 100, 3_000);

        using var missing = TempLog.Of(TempLog.Lines("drop_id" + more, "d1" + new string(',', 10_000)),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        Assert.InRange(Assert.Throws<LogFormatException>(missing.Read).Message.Length, 100, 3_000);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(9_999)]
    [InlineData(100_000)]
    public void Deep_quotes_lose_no_row(int depth)
    {
        using var log = TempLog.Plain(["d2," + new string('"', depth) + ",x", "d3,m1,2031-07-14T15:20,timber,25,8,300,90"], []);
        var intake = log.Read().Intake;
        Assert.Equal(intake.RowsRead, intake.RowsAccepted + intake.RowsQuarantined);
        Assert.Contains(intake.Quarantine, q => q.Fields.Contains("d2"));
        Assert.True(intake.Files[0].RowsAccepted == 2
            || intake.Quarantine.SelectMany(q => q.Fields).Any(f => f.Contains("d3", StringComparison.Ordinal)));
    }

    private const string SmallDrops = "\uFEFF" + TempLog.DropsHeader + ",remarks\r\n" + TempLog.Drop1 + ",\"a, \"\"b\"\"\nc\"\r\n"
        + "d2,m2,2031-07-15T15:20Z,grass,25,8,300,90,né\r\n";
    private const string SmallLandings = TempLog.LandingsHeader + ",jumper\n" + TempLog.Landing1 + ",j1\nd2,3,4,\"j,2\"\n";

    [Fact]
    public void A_small_file_cut_at_any_byte_is_a_log_or_the_error_of_the_format()
    {
        var (drops, landings) = (Encoding.UTF8.GetBytes(SmallDrops), Encoding.UTF8.GetBytes(SmallLandings));
        using var log = new TempLog();
        var read = 0;
        for (var cut = 0; cut <= drops.Length; cut++) read += Cut(log, drops[..cut], landings);
        for (var cut = 0; cut <= landings.Length; cut++) read += Cut(log, drops, landings[..cut]);
        Assert.True(read > 150);
    }

    [Fact]
    public void The_demo_cut_at_some_bytes_is_a_log_or_the_error_of_the_format()
    {
        var (drops, landings) =
            (File.ReadAllBytes(Path.Combine(DemoLog.Folder, "drops.csv")), File.ReadAllBytes(Path.Combine(DemoLog.Folder, "landings.csv")));
        using var log = new TempLog();
        var read = 0;
        for (var cut = 1; cut < drops.Length; cut += drops.Length / 60) read += Cut(log, drops[..cut], landings);
        for (var cut = 1; cut < landings.Length; cut += landings.Length / 60) read += Cut(log, drops, landings[..cut]);
        Assert.Equal(120, read); // all but the two that are cut in their headers
    }

    /// <summary>
    /// 1 when the log could be read. No line that begins before the cut is lost: each is in a record's or a refused row's lines, or blank.
    /// </summary>
    private static int Cut(TempLog log, byte[] drops, byte[] landings)
    {
        log.With("drops.csv", drops).With("landings.csv", landings);
        try
        {
            var read = log.Read();
            Assert.Equal(read.Intake.RowsRead, read.Intake.RowsAccepted + read.Intake.RowsQuarantined);
            Assert.Equal(read.Intake.RowsAccepted, read.Drops.Count + read.Landings.Count);
            AssertLines(drops, "drops.csv", read);
            AssertLines(landings, "landings.csv", read);
            return 1;
        }
        catch (LogFormatException e)
        {
            Assert.Contains(".csv", e.Message, StringComparison.Ordinal);
            return 0;
        }
    }

    /// <summary>Outside quotes each line break ends a row: so many rows there must be (a reader of its own, of ten lines).</summary>
    private static void AssertLines(byte[] bytes, string file, JumpLog read)
    {
        var (rows, inside, filled) = (0, false, false);
        foreach (var c in Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF'))
        {
            if (c == '"') inside = !inside;
            if (c == '\n' && !inside)
            {
                rows += filled ? 1 : 0;
                filled = false;
            }
            else
            {
                filled |= c is not ('\r' or ',' or ' ');
            }
        }
        var account = read.Intake.Files.Single(f => f.File == file);
        Assert.Equal(rows + (filled ? 1 : 0) - 1, account.RowsRead + account.RowsNoRecords);
    }

    [Theory]
    [InlineData("/etc/passwd", "absolute")]
    [InlineData("\\\\host\\share\\j1.gpx", "absolute")]
    [InlineData("\\j1.gpx", "absolute")]
    [InlineData("C:\\j1.gpx", "drive")]
    [InlineData("C:j1.gpx", "drive")]
    [InlineData("file:///etc/passwd", "drive")]
    [InlineData("j1.gpx:stream", "drive")]
    [InlineData("~/j1.gpx", "home")]
    [InlineData("..", "leads out")]
    [InlineData("../j1.gpx", "leads out")]
    [InlineData("tracks/../../j1.gpx", "leads out")]
    [InlineData("tracks\\..\\j1.gpx", "leads out")]
    [InlineData("tracks/.. /j1.gpx", "leads out")]
    [InlineData("tracks/... /j1.gpx", "leads out")]
    [InlineData("tracks//j1.gpx", "empty part")]
    [InlineData("./j1.gpx", "leads out")]
    [InlineData("tracks/j1.gpx\0.txt", "control")]
    [InlineData("tracks/\u001Bj1.gpx", "control")]
    public void A_track_that_leads_out_is_set_aside(string track, string reason)
    {
        using var log = WithTrack(track);
        var read = log.Read();
        Assert.Null(Assert.Single(read.Landings).Track);
        var problem = Assert.Single(read.Intake.SetAside);
        Assert.Equal(("track", track, "unsafe track"), (problem.Column, problem.Value, problem.Kind));
        Assert.Contains(reason, problem.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("j1.gpx")]
    [InlineData("tracks/2031/j1.gpx")]
    [InlineData("tracks\\j1 (2)..gpx")]
    [InlineData(".hidden/j1.gpx")]
    public void A_track_below_the_folder_is_kept(string track)
    {
        using var log = WithTrack(track);
        Assert.Equal(track, Assert.Single(log.Read().Landings).Track);
    }

    private static TempLog WithTrack(string track) =>
        TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(TempLog.LandingsHeader + ",track", $"{TempLog.Landing1},{track}"));
}
