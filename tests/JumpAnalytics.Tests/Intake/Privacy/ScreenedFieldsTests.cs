namespace JumpAnalytics.Tests;

/// <summary>A person's code beside other words, in every field of both tables, under each way of handing a log on.</summary>
public sealed class ScreenedFieldsTests : IDisposable
{
    private static readonly string[] _drops = [.. LogColumns.Drops.Select(c => c.Headers().First().Text)];
    private static readonly string[] _landings = [.. LogColumns.Landings.Select(c => c.Headers().First().Text)];

    private readonly TempLog _files = new();

    public void Dispose() => _files.Dispose();

    public static TheoryData<string, string> Fields => [.. _drops.Select(c => ("drops", c)).Concat(_landings.Select(c => ("landings", c)))];

    /// <summary>The field of a refused row, and the value of its trouble or that of a value set aside, under each screen.</summary>
    [Theory, MemberData(nameof(Fields))]
    public void No_code_is_left_beside_other_words(string table, string header)
    {
        const string text = "grass seen by Zulu7";
        _files.With("drops.csv", TempLog.Lines(string.Join(',', _drops), Row(_drops, ("drop_id", "d1"), ("mission", "m1"),
            ("time", "2031-07-14T15:20"), ("terrain", "timber"), (_drops.First(h => h.StartsWith("target_radius",
                StringComparison.Ordinal)), "25"),
            (_drops.First(h => h.StartsWith("wind_speed", StringComparison.Ordinal)), "8"),
            (_drops.First(h => h.StartsWith("forecast_east", StringComparison.Ordinal)), "0"),
            (_drops.First(h => h.StartsWith("forecast_north", StringComparison.Ordinal)), "0"), ("spotter", "Zulu7")),
            table == "drops" ? Row(_drops, (header, text), ("aircraft", "Twin"), ("base", "Oak")) : ""))
            .With("landings.csv", TempLog.Lines(string.Join(',', _landings), table == "landings" ? Row(_landings, (header, text),
                ("canopy", "round")) : ""));
        var log = _files.Read();
        var at = Array.IndexOf(table == "drops" ? _drops : _landings, header);
        var refused = Assert.Single(log.Intake.Quarantine);
        Assert.Equal(text, refused.Fields[at]);

        using var keys = new TempLog();
        var coded = log.WithPseudonyms(PseudonymKey.Create(Path.Combine(keys.Folder, "base.key")));
        var isPerson = header is "spotter" or "jumper";
        var shown = Assert.Single(coded.Intake.Quarantine);
        if (isPerson) Assert.Matches("^[a-z2-9]{5}-[a-z2-9]{5}$", shown.Fields[at]);
        else Assert.Equal("[withheld]", shown.Fields[at]);
        AssertAbsent(coded);

        var kept = Assert.Single(log.WithoutSensitiveFields().Intake.Quarantine).Fields[at]; // people stay, words under numbers do not
        Assert.Equal(header is "remarks" or "injured" || KindOf(header) != ColumnKind.Text ? "[withheld]" : text, kept);

        var shared = log.ForSharing(2);
        Assert.DoesNotContain("Zulu7", shared.Intake.ToString() + shared.Intake.TablesAsJson(), StringComparison.OrdinalIgnoreCase);
        Assert.Throws<InvalidOperationException>(() => shared.Intake.Quarantine);
    }

    private static void AssertAbsent(JumpLog log) => Assert.DoesNotContain("Zulu7", string.Join('|', log.Drops) + log.Intake
        + log.Intake.QuarantineTable.ToCsv() + log.Intake.Account + string.Join('|', log.Intake.Quarantine.SelectMany(q => q.Fields)),
        StringComparison.OrdinalIgnoreCase);

    private static ColumnKind KindOf(string header) =>
        LogColumns.Drops.Concat(LogColumns.Landings).First(c => c.Headers().Any(h => h.Text == header)).Kind;

    private static string Row(string[] header, params (string Header, string Text)[] fields) =>
        string.Join(',', header.Select(h => fields.FirstOrDefault(f => f.Header == h).Text ?? ""));
}
