namespace JumpAnalytics.Tests;

/// <summary>A folder whose files are of several formats.</summary>
public sealed class MixedFormatsTests
{
    private const string Drops = TempLog.DropsHeader + ",spot_lat,spot_lon\n" + TempLog.Drop1 + ",46.95,-116.3\n";
    private const string Gpx = "<gpx><wpt lat=\"46.95\" lon=\"-116.3\"><name>d1/J1</name></wpt></gpx>";

    private static byte[] DropsBook(string id) => new MadeWorkbook().With("Sheet1",
        MadeWorkbook.Texts(1, TempLog.DropsHeader.Split(','))
            + MadeWorkbook.Texts(2, TempLog.Drop1.Replace("d1", id, StringComparison.Ordinal).Split(','))).ToBytes();

    [Fact]
    public void Files_of_every_format_are_one_log()
    {
        using var files = new TempLog().With("drops.csv", Drops).With("drops.xlsx", DropsBook("d2")).With("landings.gpx", Gpx)
            .With("landings-b.tsv", "drop_id\tlanding_distance_yd\tlanding_bearing_deg\nd2\t3\t4\n").With("~$drops.xlsx", "lock")
            .With("readme.txt", "x").With("columns.json", "{}");
        var log = files.Read();
        Assert.Equal(["drops.csv", "drops.xlsx [Sheet1]", "landings-b.tsv", "landings.gpx"], log.Intake.Files.Select(f => f.File));
        Assert.Equal(["d2", "d1"], log.Landings.Select(l => l.Drop.Id));
        Assert.Empty(log.Intake.Remarks);
        Assert.Empty(log.Intake.Quarantine);
    }

    [Fact]
    public void One_name_in_two_formats_counts_twice_and_repeats_are_told()
    {
        using var files = new TempLog().With("drops.csv", Drops).With("drops.xlsx", DropsBook("d1")).With("landings.gpx", Gpx);
        var repeated = Assert.Single(files.Read().Intake.Quarantine).Problems[0];
        Assert.Equal(("repeated drop_id", "drops.xlsx"), (repeated.Kind, repeated.Source.File));
    }

    [Fact]
    public void A_file_of_an_unknown_format_is_told_when_its_name_is_of_the_log()
    {
        using var files = new TempLog().With("drops.csv", Drops).With("landings.gpx", Gpx)
            .With("landings-old.xls", "x").With("map.kml", "x");
        Assert.Contains("Not read, for their format is none that is known: landings-old.xls.", files.Read().Intake.Points);
        using var alone = new TempLog().With("drops.ods", "x").With("landings.gpx", Gpx);
        Assert.Contains("Found: drops.ods, landings.gpx", Assert.Throws<LogFormatException>(alone.Read).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_single_file_with_half_a_log_is_told()
    {
        using var files = new TempLog().With("landings.gpx", Gpx);
        var message = Assert.Throws<LogFormatException>(() => JumpLog.Read(Path.Combine(files.Folder, "landings.gpx"))).Message;
        Assert.Contains("not both", message, StringComparison.Ordinal);
    }
}
