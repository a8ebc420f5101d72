namespace JumpAnalytics.Tests;

/// <summary>Every messy workbook is read whole by the map that is proposed for it, its questions answered.</summary>
public sealed class MessyWorkbookTests
{
    public static TheoryData<string> Names => [.. MessyWorkbooks.All.Select(b => b.Name)];

    [Theory, MemberData(nameof(Names))]
    public void It_is_read_whole_and_holds_the_numbers_of_the_clean_table(string name)
    {
        var book = MessyWorkbooks.All.Single(b => b.Name == name);
        using var files = new TempLog().With(book.File, book.Bytes);
        var proposal = ColumnMap.Propose(files.Folder);
        Assert.True(proposal.Missing.Count == 0, string.Join('\n', proposal.Missing) + proposal.Json);
        var json = proposal.Json;
        foreach (var (asked, answer) in book.Answers)
        {
            Assert.Contains(asked, json, StringComparison.Ordinal);
            json = json.Replace(asked, answer, StringComparison.Ordinal);
        }
        var read = JumpLog.Read(files.Folder, ColumnMap.Parse(json));
        var rows = read.Intake;
        Assert.True(rows.Quarantine.Count == 0, string.Join('\n', rows.Quarantine.SelectMany(q => q.Problems).Take(8)) + json);
        Assert.Empty(rows.SetAside);
        Assert.Equal((book.NoRecords, book.NoRecords), (rows.NoRecords.Count, rows.Files.Sum(f => f.RowsNoRecords)));
        Assert.Equal(rows.RowsRead, rows.RowsAccepted);
        AssertSame(CleanTable.Read(book.Passes, book.HasTimes), read);
    }

    [Fact]
    public void No_two_are_alike() =>
        Assert.Equal((12, 12), (MessyWorkbooks.All.Count, MessyWorkbooks.All.Select(b => Convert.ToHexString(b.Bytes)).Distinct().Count()));

    private static void AssertSame(JumpLog clean, JumpLog read)
    {
        Assert.Equal(clean.Drops.Select(d => (d.Id, d.Mission, d.Time, d.TimeRecorded, d.Season, d.Terrain, d.Spotter)),
            read.Drops.Select(d => (d.Id, d.Mission, d.Time, d.TimeRecorded, d.Season, d.Terrain, d.Spotter)));
        foreach (var (c, r) in clean.Drops.Zip(read.Drops))
        {
            Close.Relative(c.TargetRadius, r.TargetRadius, 1e-12, c.Id);
            Close.Relative(c.WindSpeed, r.WindSpeed, 1e-12, c.Id);
            Close.Absolute(c.ForecastDrift, r.ForecastDrift, 1e-9, c.Id);
        }
        Assert.Equal(clean.Landings.Select(l => (l.Drop.Id, l.Jumper)), read.Landings.Select(l => (l.Drop.Id, l.Jumper)));
        foreach (var (c, r) in clean.Landings.Zip(read.Landings)) Close.Absolute(c.Miss!.Value, r.Miss!.Value, 1e-9, c.Drop.Id);
    }
}
