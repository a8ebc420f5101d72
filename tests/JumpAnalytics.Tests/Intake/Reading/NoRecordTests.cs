namespace JumpAnalytics.Tests;

/// <summary>
/// Totals, comments and repeated headers are passed over and listed; what may be a record with something missing stays refused.
/// </summary>
public sealed class NoRecordTests
{
    private static JumpLog Read(string row, bool isLanding)
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + ",spotter", TempLog.Drop1 + ",s1", isLanding ? "" : row),
            TempLog.Lines(TempLog.LandingsHeader + ",jumper,hung_up,remarks", TempLog.Landing1 + ",j1,,", isLanding ? row : ""));
        return log.Read();
    }

    [Theory]
    [InlineData("Total,43,,,,", "totals")]
    [InlineData("TOTAL JUMPS: 43,,,,,", "totals")]
    [InlineData("Season total,12.5,50%,,,", "totals")]
    [InlineData(",,Average,,,", "totals")]
    [InlineData("Max,#DIV/0!,,,,", "totals")]
    [InlineData("mean,12 yd,,,,", "totals")]
    [InlineData("# week two,,,,,", "comment")]
    [InlineData("* paced,,,,,", "comment")]
    [InlineData("-- below: July,,,,,", "comment")]
    [InlineData("Checked against the load sheets,,,,,", "comment")]
    [InlineData("Prepared by:,the loft,,,,", "comment")]
    [InlineData("Notes:,,,,,", "comment")]
    [InlineData("Drop_ID,landing_distance_yd,landing_bearing_deg,jumper,,", "headers again")]
    [InlineData("Checked against the load sheets", "comment")] // a line of a text file has fewer fields
    public void It_is_no_record(string row, string kind)
    {
        var read = Read(row, isLanding: true);
        var found = Assert.Single(read.Intake.NoRecords);
        Assert.Equal((kind, new RowSource("landings.csv", 3), "(row)"), (found.Kind, found.Source, found.Column));
        Assert.Empty(read.Intake.Quarantine);
        var file = read.Intake.Files[1];
        Assert.Equal((1, 1, 0, 1), (file.RowsRead, file.RowsAccepted, file.RowsQuarantined, file.RowsNoRecords));
        Assert.Contains(read.Intake.Points, p => p.Contains($"1 row is no record and was not read ({kind}: 1)", StringComparison.Ordinal));
        Assert.Contains("passed over", read.Intake.Account.ToString(), StringComparison.Ordinal);
        Assert.Contains("rows-no-records", read.Intake.Tables.Select(t => t.Name));
    }

    /// <summary>A row that may stand for a landing is refused and counted, however little it holds.</summary>
    [Theory]
    [InlineData("d1,,,,,")] // the id of a drop
    [InlineData("d9,,,,,")] // made like one
    [InlineData("d9,total,,,,")]
    [InlineData(",12,45,,,")]
    [InlineData(",,,John Doe,,")] // jumper, remarks and tree are of people
    [InlineData(",,,,,hung up and not measured")]
    [InlineData(",,,,yes please,")]
    [InlineData("see note,12,,,,")] // a number beside it
    [InlineData("see note,a,b,,,")] // three fields
    [InlineData("note,,,,,")] // one word may be an id
    [InlineData("Total,12,45,j3,,")] // a person in a total
    [InlineData("Totality Creek,,,j3,,")]
    public void It_may_be_a_record(string row)
    {
        var read = Read(row, isLanding: true);
        Assert.Empty(read.Intake.NoRecords);
        Assert.True(Assert.Single(read.Intake.Quarantine).StandsForLanding);
    }

    [Fact]
    public void A_total_with_a_date_beside_it_may_be_a_drop()
    {
        Assert.Empty(Read(",Total Creek,2031-07-14,,,,,,", isLanding: false).Intake.NoRecords);
        Assert.Single(Read("Total,,,,25,8,,,", isLanding: false).Intake.NoRecords);
        Assert.Single(Read("Total,,,,25,8,,,", isLanding: false).ForSharing().Intake.Points, p => p.Contains("no record",
            StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Pass 12", "a 9")]
    [InlineData("L-031", "a-9")]
    public void The_shape_of_an_id(string id, string shape) => Assert.Equal(shape, NoRecord.ShapeOf(id));

    [Fact]
    public void A_table_of_two_columns_has_no_comments()
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines("drop_id,landing_beyond_yd", "d1,50", "see below,"));
        Assert.Single(log.Read().Intake.Quarantine);
    }

    [Fact]
    public void A_comment_that_names_a_person_is_withheld()
    {
        var read = Read("# paced by s1,,,,,", isLanding: true);
        Assert.Equal("# paced by s1", read.Intake.NoRecords[0].Value);
        Assert.Equal("[withheld]", read.WithoutSensitiveFields().Intake.NoRecords[0].Value);
        Assert.Throws<InvalidOperationException>(() => read.ForSharing().Intake.NoRecords);
    }
}
