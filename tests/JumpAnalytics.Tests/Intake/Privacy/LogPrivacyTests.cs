using System.Text;

namespace JumpAnalytics.Tests;

/// <summary>
/// No person, remark or injury is left anywhere of a log that was screened: records, refused rows, values set aside, tables and ledgers.
/// </summary>
public sealed class LogPrivacyTests : IDisposable
{
    /// <summary>Every person's code and every sensitive word of the log holds one of these.</summary>
    private static readonly string[] _people = ["ZULU", "YANKEE", "XRAY", "QUEBEC"];

    private static readonly string[] _sensitive = ["ANKLE", "SPRAIN", "HOSPITAL"];

    private const string DropsHeader = TempLog.DropsHeader + ",spotter,remarks,crew_list,streamer_minutes";
    private const string LandingsHeader = TempLog.LandingsHeader + ",jumper,injured,remarks,track,exit_order,note_ANKLE";

    private readonly TempLog _files = TempLog.Of(
        TempLog.Lines(DropsHeader,
            TempLog.Drop1 + ",Zulu 1,ZULU 1 and YANKEE2 argued,XRAY3,",
            "d2,m2,2031-07-15T15:20,grass,25,8,300,90,zulu  1,SPRAIN,,ask QUEBEC4", // set aside
            "d3,m2,2031-07-15T15:20,grass,YANKEE2,8,300,90,ZULU 1,HOSPITAL,,", // refused, a name where a number belongs
            "d4,m2,2031-07-15T15:20,grass,25,8,300,90,ZULU 1,a, XRAY3,,HOSPITAL", // ragged: who knows what stands where
            "d1,m2,2031-07-15T15:20,grass,25,8,300,90,QUEBEC4,SPRAIN,XRAY3,"), // repeated
        TempLog.Lines(LandingsHeader,
            TempLog.Landing1 + ",YANKEE2,yes,ANKLE,tracks/YANKEE2.gpx,1,ANKLE",
            TempLog.Landing1 + ",YANKEE2,no,ANKLE,XRAY3.gpx,1,", // repeated
            TempLog.Landing1 + ",XRAY3,SPRAIN maybe,HOSPITAL,../YANKEE2.gpx,second after YANKEE2,ANKLE", // three set aside
            "d2,4,5,zulu 1,no,,,1,",
            "d2,4,\"YANKEE2,x\",q7,no,,,1,",
            "QUEBEC4,4,5,QUEBEC4,no,ANKLE,,1,", // no such drop
            "d2,\"ANKLE,4,5,XRAY3,no,ANKLE,,1,")); // quote not closed

    private readonly JumpLog _log;
    private readonly PseudonymKey _key;

    public LogPrivacyTests()
    {
        _log = _files.Read();
        _key = PseudonymKey.Create(Path.Combine(_files.Folder, "base.key"));
    }

    public void Dispose() => _files.Dispose();

    /// <summary>All that a log can show or write, in one text.</summary>
    private static string Everything(JumpLog log)
    {
        var text = new StringBuilder();
        if (log.Sharing is null) text.AppendJoin('\n', log.Drops).AppendJoin('\n', log.Landings);
        var accuracy = SeasonAccuracy.Of(log, new AccuracyOptions { Replicates = 200 });
        foreach (var result in new ShownResult[]
        {
            log.Intake, log.Intake.QuarantineTable, log.Intake.SetAsideTable, log.Intake.DropsWithoutLandingsTable,
            accuracy.Brief, accuracy.Glance, accuracy.Rates,
            accuracy.Changes, accuracy.Conclusions, accuracy.Cautions, accuracy.LandingsTable, accuracy.Settings,
        })
        {
            using var html = new StringWriter();
            result.WriteHtml(html);
            text.Append(html).Append(result).Append(result.TablesAsJson());
        }
        if (log.Sharing is not null) return text.ToString();
        foreach (var row in log.Intake.Quarantine) text.AppendJoin('|', row.Fields).AppendJoin('|', row.Problems);
        using var folder = new TempLog();
        foreach (var ledger in log.WriteQuarantine(folder.Folder)) text.Append(File.ReadAllText(ledger));
        return text.ToString();
    }

    private static void AssertAbsent(string[] words, string text) =>
        Assert.All(words, w => Assert.DoesNotContain(w, text, StringComparison.OrdinalIgnoreCase));

    [Fact]
    public void The_log_shows_them_before_it_is_screened()
    {
        var text = Everything(_log);
        Assert.All(_people.Concat(_sensitive), w => Assert.Contains(w, text, StringComparison.OrdinalIgnoreCase));
        Assert.Equal((2, 3, 3 + 4, 4), (_log.Drops.Count, _log.Landings.Count, _log.Intake.Quarantine.Count, _log.Intake.SetAside.Count));
    }

    [Fact]
    public void With_pseudonyms_no_person_and_no_remark_is_left()
    {
        var log = _log.WithPseudonyms(_key);
        AssertAbsent([.. _people, "HOSPITAL"], Everything(log));
        Assert.Equal(log.Drops[0].Spotter, log.Landings[2].Jumper); // Zulu 1 spots and jumps
        Assert.Equal(log.Drops[0].Spotter, log.Drops[1].Spotter);
        Assert.True(log.Landings[0].Injured);
        var repeated = log.Intake.Quarantine.Single(q => q.Problems[0].Kind == "repeated landing");
        Assert.Equal(log.Landings[0].Jumper, repeated.Problems[0].Value);
        Assert.Equal(repeated.Problems[0].Value, repeated.Fields[3]);
    }

    [Fact]
    public void Without_sensitive_fields_no_injury_and_no_remark_is_left()
    {
        var log = _log.WithoutSensitiveFields();
        AssertAbsent(_sensitive, Everything(log));
        Assert.All(log.Landings, l => Assert.Null(l.Injured));
        Assert.Equal("YANKEE2", log.Landings[0].Jumper);
        Assert.Equal("tracks/YANKEE2.gpx", log.Landings[0].Track);
    }

    [Fact]
    public void For_sharing_neither_is_left_and_people_can_be_counted()
    {
        var log = _log.ForSharing();
        AssertAbsent([.. _people, .. _sensitive], Everything(log));
        Assert.Equal(["person 2", "person 3", "person 1"], log.LandingsToCount.Select(l => l.Jumper));
        Assert.Equal(Withholding.LeastPeople(_log.Landings), Withholding.LeastPeople(log.LandingsToCount));
    }

    [Fact]
    public void Screening_changes_no_number_and_no_account()
    {
        foreach (var log in new[] { _log.WithPseudonyms(_key), _log.WithoutSensitiveFields(),
            _log.WithPseudonyms(_key).WithoutSensitiveFields() })
        {
            var options = new AccuracyOptions { Replicates = 200 };
            Assert.Equal(SeasonAccuracy.Of(_log, options).Rates.Tables[0].ToCsv(), SeasonAccuracy.Of(log, options).Rates.Tables[0].ToCsv());
            Assert.Equal(_log.Intake.Reading, log.Intake.Reading);
            Assert.Equal(_log.Intake.ReasonsTable.Rows.Select(r => r[1]), log.Intake.ReasonsTable.Rows.Select(r => r[1]));
            Assert.Equal(_log.Intake.Quarantine.Select(q => (q.Source, q.Fields.Count, q.Season)),
                log.Intake.Quarantine.Select(q => (q.Source, q.Fields.Count, q.Season)));
            Assert.All(log.Landings, l => Assert.Contains(log.Drops, d => ReferenceEquals(d, l.Drop)));
        }
    }

    [Fact]
    public void A_harmless_value_is_still_shown()
    {
        using var files = TempLog.Plain(["d2,m2,2031-07-15T25:70Z,grass,-25,8,300,90"], []);
        Assert.Equal("2031-07-15T25:70Z", files.Read().WithoutSensitiveFields().Intake.Quarantine[0].Problems[0].Value);
    }

    /// <summary>Where it can't be told whether two codes are one person's, they must count as no more than one.</summary>
    [Fact]
    public void Codes_that_can_not_be_told_apart_do_not_count_as_people()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1,
            TempLog.Drop1.Replace("d1", "d2", StringComparison.Ordinal)),
            TempLog.Lines(TempLog.LandingsHeader + ",jumper", "d1,1,2,Zoe\u0301\uD55C\u11A8", "d2,1,2,Zo\u00E9\uD55C\u11A8"));
        var log = files.Read().ForSharing();
        Assert.InRange(Withholding.LeastPeople(log.LandingsToCount), 1, 1);
    }

    /// <summary>The codes of a screened log are not those of the file: its ledger must not be put over the originals.</summary>
    [Fact]
    public void A_ledger_of_a_screened_log_does_not_fit_the_originals()
    {
        _log.WithPseudonyms(_key).WriteQuarantine(_files.Folder);
        Assert.Throws<LogFormatException>(_files.Read);
    }
}
