namespace JumpAnalytics.Tests;

/// <summary>Text that acts on a screen, a page or a spreadsheet instead of being read.</summary>
public sealed class HostileTextTests
{
    [Theory]
    [InlineData("plain né 日本 👩", "plain né 日本 👩")]
    [InlineData("a\nb\tc", "a\nb\tc")]
    [InlineData("abc\u202Egpj.exe", "abc‹U+202E›gpj.exe")]
    [InlineData("\u2066x\u2069\u200F\u061C", "‹U+2066›x‹U+2069›‹U+200F›‹U+061C›")]
    [InlineData("a\0b\rc\u0085d\u2028e", "a‹U+0000›b‹U+000D›c‹U+0085›d‹U+2028›e")]
    [InlineData("j\u200B1\uFEFF", "j‹U+200B›1‹U+FEFF›")]
    [InlineData("x\U000E0041y", "x‹U+E0041›y")]
    [InlineData("\u001B[31mred", "‹U+001B›[31mred")]
    public void What_can_not_be_seen_is_written_out(string text, string visible)
    {
        Assert.Equal(visible, VisibleText.Of(text));
        Assert.Equal(System.Net.WebUtility.HtmlEncode(visible), ShownResult.Escape(text));
    }

    [Fact]
    public void Half_a_surrogate_is_written_out()
    {
        Assert.Equal("a‹U+D800›b", VisibleText.Of("a\uD800b"));
        Assert.Equal("‹U+DC00›", VisibleText.Of("\uDC00"));
    }

    [Theory]
    [InlineData("\u001B[31mred\u001B[0m", "red")]
    [InlineData("a\u001B[2J\u001B[1;1Hb", "ab")]
    [InlineData("a\u009B2Jb", "ab")]
    [InlineData("\u001B]0;title\u0007text", "text")]
    [InlineData("\u001B]8;;http://x\u001B\\link\u001B]8;;\u001B\\", "link")]
    [InlineData("\u001BPq#0\u001B\\x", "x")]
    [InlineData("\u001Bcx\u001B(0y", "xy")]
    [InlineData("x\u001B]0;no end\nnext line", "x\nnext line")]
    [InlineData("bell\u0007", "bell‹U+0007›")]
    [InlineData("\u001B", "‹U+001B›")]
    public void Terminal_sequences_are_taken_out_of_plain_text(string text, string plain) =>
        Assert.Equal(plain, VisibleText.WithoutSequences(text));

    [Fact]
    public void Texts_of_a_log_reach_no_screen_raw()
    {
        const string Evil = "\u001B[2J\u202Ex\u0007";
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + "," + Evil,
            TempLog.Drop1.Replace("timber", Evil, StringComparison.Ordinal) + ",", $"{Evil},m1,{Evil},timber,25,8,300,90,"),
            TempLog.Lines(TempLog.LandingsHeader + ",hung_up", TempLog.Landing1 + "," + Evil, $"{Evil},1,2,"));
        var read = log.Read();
        var accuracy = SeasonAccuracy.Of(read, new AccuracyOptions { Replicates = 200 });
        foreach (var result in new ShownResult[] { read.Intake, read.Intake.QuarantineTable, read.Intake.SetAsideTable, accuracy.Brief,
            accuracy.Rates, accuracy.Glance, accuracy.Changes, accuracy.Conclusions, accuracy.LandingsTable, accuracy.Settings })
        {
            var html = new StringWriter();
            result.WriteHtml(html);
            Assert.All([result.ToString(), html.ToString()], t => Assert.DoesNotContain(t, c => c is '\u001B' or '\u202E' or '\u0007'));
        }
        Assert.Contains("‹U+202E›x‹U+0007›", read.Intake.QuarantineTable.ToString(), StringComparison.Ordinal);
        using var broken = TempLog.Of(TempLog.Lines("drop_id," + Evil, "1,2"), TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        Assert.DoesNotContain('\u001B', Assert.Throws<LogFormatException>(broken.Read).Message);
    }

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+cmd|' /C calc'!A0", "'+cmd|' /C calc'!A0")]
    [InlineData("-1+1", "'-1+1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("\t=1", "'\t=1")]
    [InlineData("\r=1", "'\r=1")]
    [InlineData("'=1", "''=1")]
    [InlineData("--1", "'--1")]
    [InlineData("-", "'-")]
    [InlineData("-116.3", "-116.3")]
    [InlineData("+5e-3", "+5e-3")]
    [InlineData("'tis", "'tis")]
    [InlineData("a=b", "a=b")]
    [InlineData("", "")]
    public void Formulas_are_made_text_and_can_be_restored(string text, string written)
    {
        Assert.Equal(written, SpreadsheetText.Guard(text));
        Assert.Equal(text, SpreadsheetText.Unguard(written));
    }

    [Fact]
    public void In_a_file_texts_are_neutralised_and_numbers_are_not()
    {
        var table = new TableView("t", "T", [Columns.Value, Columns.Rows, Columns.Correlation], [["=1+1", -2, -0.5], ["-3", 1, null]]);
        Assert.Equal("value,rows,correlation\n'=1+1,-2,-0.5\n-3,1,\n", table.ToCsv());
        Assert.Contains("=1+1 ", table.ToString(), StringComparison.Ordinal); // shown as it is
        Assert.DoesNotContain("'=1+1", table.ToString(), StringComparison.Ordinal);
    }
}
