namespace JumpAnalytics.Tests;

/// <summary>The quarantine ledger: what is written, what a repair does, and what is refused rather than guessed.</summary>
public sealed class LedgerTests
{
    private const string DropsLedger = "drops-quarantine.csv";
    private const string LandingsLedger = "landings-quarantine.csv";
    private const string BadDrop = "d2,m2,2031-07-15T15:20,grass,25,fast,300,90";
    private const string ItsLanding = "d2,4,5";
    private const string BadLanding = "d1,-3,=1+1";

    private static TempLog Flawed() => TempLog.Plain([BadDrop], [ItsLanding, BadLanding]);

    private static TempLog WithLedgers()
    {
        var log = Flawed();
        log.Read().WriteQuarantine(log.Folder);
        return log;
    }

    private static void Change(TempLog log, string file, string old, string now)
    {
        var path = Path.Combine(log.Folder, file);
        var text = File.ReadAllText(path);
        Assert.Contains(old, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(old, now, StringComparison.Ordinal));
    }

    [Fact]
    public void Each_file_with_refused_rows_has_a_ledger_with_its_own_headers()
    {
        using var log = Flawed();
        using var elsewhere = new TempLog();
        var written = log.Read().WriteQuarantine(elsewhere.Folder);
        Assert.Equal([DropsLedger, LandingsLedger], written.Select(Path.GetFileName));
        var drops = File.ReadAllLines(written[0]);
        Assert.Equal("quarantine_source,quarantine_mark,quarantine_reason,quarantine_what_to_try," + TempLog.DropsHeader, drops[0]);
        Assert.StartsWith("drops.csv:3,", drops[1], StringComparison.Ordinal);
        Assert.Contains("wind_speed_mph: is not a number", drops[1], StringComparison.Ordinal);
        Assert.EndsWith("," + BadDrop, drops[1], StringComparison.Ordinal);
        // a formula is made text, a number left alone.
        Assert.EndsWith(",d1,-3,'=1+1", File.ReadAllLines(written[1])[2], StringComparison.Ordinal);
    }

    [Fact]
    public void A_ledger_left_as_it_was_changes_nothing()
    {
        using var log = Flawed();
        var before = log.Read();
        before.WriteQuarantine(log.Folder);
        var after = log.Read();
        Assert.Equal(before.Intake.QuarantineTable.ToCsv(), after.Intake.QuarantineTable.ToCsv());
        Assert.Equal(before.Intake.ToString(), after.Intake.ToString());
        Assert.Empty(after.Intake.Files.SelectMany(f => f.UnknownColumns));
    }

    [Fact]
    public void A_repaired_row_stands_where_it_stood_and_is_counted()
    {
        using var log = WithLedgers();
        Change(log, DropsLedger, "fast", "9");
        var read = log.Read();
        Assert.Equal(["d1", "d2"], read.Landings.Select(l => l.Drop.Id)); // the landing that waited for its drop comes back by itself
        Assert.Equal(new RowSource("drops.csv", 3), read.Drops[1].Source);
        Assert.Equal((5, 4, 1, 1), (read.Intake.RowsRead, read.Intake.RowsAccepted, read.Intake.RowsQuarantined, read.Intake.RowsRepaired));
        Assert.Contains("1 of the accepted was refused before and stands repaired in a quarantine ledger",
            read.Intake.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void A_repair_that_is_wrong_too_is_refused_again()
    {
        using var log = WithLedgers();
        Change(log, DropsLedger, "fast", "slow");
        var intake = log.Read().Intake;
        Assert.Equal((5, 2, 3, 0), (intake.RowsRead, intake.RowsAccepted, intake.RowsQuarantined, intake.RowsRepaired));
        Assert.Equal("slow", intake.Quarantine[0].Problems[0].Value);
    }

    /// <summary>Spreadsheets fill a short row up with blanks: that alone must not let it in.</summary>
    [Fact]
    public void A_short_row_filled_up_with_blanks_stays_refused()
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + ",remarks", TempLog.Drop1 + ",",
            BadDrop.Replace("fast", "9", StringComparison.Ordinal)), TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1, ItsLanding));
        log.Read().WriteQuarantine(log.Folder);
        Change(log, DropsLedger, "300,90\r\n", "300,90,\r\n");
        Assert.Equal("ragged row", log.Read().Intake.Quarantine[0].Problems[0].Kind);
        Change(log, DropsLedger, "300,90,\r\n", "300,90,NA\r\n");
        Assert.Equal((0, 1), (log.Read().Intake.RowsQuarantined, log.Read().Intake.RowsRepaired));
    }

    [Fact]
    public void A_row_left_out_or_emptied_stays_refused()
    {
        using var log = WithLedgers();
        File.WriteAllLines(Path.Combine(log.Folder, LandingsLedger), File.ReadAllLines(Path.Combine(log.Folder, LandingsLedger)).Take(2));
        Change(log, DropsLedger, BadDrop, ",,,,,,,");
        Assert.Equal((5, 2, 3, 0), (log.Read().Intake.RowsRead, log.Read().Intake.RowsAccepted, log.Read().Intake.RowsQuarantined,
            log.Read().Intake.RowsRepaired));
    }

    [Fact]
    public void A_flat_table_has_a_ledger_too()
    {
        using var log = new TempLog().With("jumps.csv",
            TempLog.Lines(TempLog.DropsHeader + TempLog.LandingsHeader[7..], TempLog.Drop1 + ",12,45", TempLog.Drop1 + ",12,450"));
        log.Read().WriteQuarantine(log.Folder);
        Change(log, "jumps-quarantine.csv", "450", "145");
        Assert.Equal((2, 1), (log.Read().Landings.Count, log.Read().Intake.RowsRepaired));
    }

    [Theory]
    [InlineData("drops.csv", "fast", "12", "is not the one that was refused")] // the original was changed meanwhile
    [InlineData("drops.csv", BadDrop + "\n", "", "a line that drops.csv does not have")]
    [InlineData("drops.csv", "mission", "Mission", "is not a ledger of drops.csv")]
    [InlineData(DropsLedger, "quarantine_mark", "mark", "is not a ledger of drops.csv")]
    [InlineData(DropsLedger, "drops.csv:3", "drops.csv:x", "must read drops.csv:line")]
    [InlineData(DropsLedger, "drops.csv:3", "other.csv:3", "must read drops.csv:line")]
    [InlineData(DropsLedger, "drops.csv:3", "\"drops.csv:3", "does not close")]
    [InlineData(DropsLedger, "drops.csv:3", "drops.csv:2", "is not the one that was refused")]
    public void What_can_not_be_placed_is_told(string file, string old, string now, string message)
    {
        using var log = WithLedgers();
        Change(log, file, old, now);
        Assert.Contains(message, Assert.Throws<LogFormatException>(log.Read).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void One_row_has_one_repair_and_a_ledger_one_file()
    {
        using var log = WithLedgers();
        var path = Path.Combine(log.Folder, DropsLedger);
        File.AppendAllLines(path, [File.ReadAllLines(path)[1]]);
        Assert.Contains("already has a line", Assert.Throws<LogFormatException>(log.Read).Message, StringComparison.Ordinal);

        using var stray = Flawed().With("2030-quarantine.csv", "x\n");
        Assert.Contains("belongs to no file", Assert.Throws<LogFormatException>(stray.Read).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_overwritten_and_a_ledger_is_not_begun_anew()
    {
        using var log = WithLedgers();
        Assert.Contains("go on correcting", Assert.Throws<InvalidOperationException>(() => log.Read().WriteQuarantine(log.Folder)).Message,
            StringComparison.Ordinal);
        using var other = Flawed();
        Assert.Contains("already there", Assert.Throws<IOException>(() => other.Read().WriteQuarantine(log.Folder)).Message,
            StringComparison.Ordinal);
    }

    /// <summary>
    /// The ledgers that a report lays beside itself are those that are written to a folder; a log for sharing offers none.
    /// </summary>
    [Fact]
    public void A_report_carries_the_ledgers()
    {
        using var files = TempLog.Plain(["d2,m1,when,timber,25,8,300,90"], ["d1,far,45", "d9,1,2"]);
        var log = files.Read();
        using var folder = new TempLog();
        var written = log.WriteQuarantine(folder.Folder).ToDictionary(f => Path.GetFileName(f)!, File.ReadAllText);
        Assert.Equal(["drops-quarantine.csv", "landings-quarantine.csv"], log.Intake.Attachments.Select(a => a.Name));
        Assert.All(log.Intake.Attachments, a => Assert.Equal(written[a.Name], a.Text));
        Assert.Empty(log.ForSharing().Intake.Attachments);
    }
}
