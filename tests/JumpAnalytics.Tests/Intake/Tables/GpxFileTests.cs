namespace JumpAnalytics.Tests;

/// <summary>Waypoints as landings, beside drops of another format.</summary>
public sealed class GpxFileTests
{
    private const string Drops = TempLog.DropsHeader + ",spot_lat,spot_lon\n" + TempLog.Drop1 + ",46.95,-116.3\n";

    private static TempLog Log(string waypoints, string before = "") => new TempLog().With("drops.csv", Drops)
        .With("landings.gpx", $"<?xml version=\"1.0\"?>{before}\n<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
            + $"<metadata><name>x</name></metadata>\n{waypoints}\n</gpx>\n");

    private static string Refusal(string waypoints, string before = "")
    {
        using var log = Log(waypoints, before);
        return Assert.Throws<LogFormatException>(log.Read).Message;
    }

    [Fact]
    public void Waypoints_are_landings_and_their_names_tell_drop_and_jumper()
    {
        using var files = Log("""
            <wpt lat="46.951" lon="-116.3"><ele>900</ele><time>2031-07-14T21:31:00Z</time><name>d1</name></wpt>
            <wpt lat="46.95" lon="-116.299">
              <name> d1/J2 </name><cmt>edge of the meadow</cmt><desc><![CDATA[wind < 5]]></desc>
              <extensions><x><name>not this</name></x></extensions>
            </wpt>
            <wpt lat="46.95" lon="-116.301"><name>d1 J3</name><cmt>same</cmt><desc>same</desc></wpt>
            <wpt lat="46,95" lon="-116.301"><name>d1/J4</name></wpt>
            <wpt lat="46.95" lon="-116.301"><name>d9/J5</name></wpt>
            <wpt lat="46.95" lon="-116.301"/>
            <trk><trkseg><trkpt lat="1" lon="1"/></trkseg></trk>
            """);
        var log = files.Read();
        Assert.Equal([null, "J2", "J3"], log.Landings.Select(l => l.Jumper));
        Assert.Equal([null, "wind < 5; edge of the meadow", "same"], log.Landings.Select(l => l.Remarks));
        Assert.Equal([4, 5, 9], log.Landings.Select(l => l.Source.Line));
        Assert.Equal([10, 11, 12], log.Intake.Quarantine.Select(q => q.Source.Line));
        Assert.Equal("46,95", log.Intake.Quarantine[0].Problems[0].Value);
        Close.Absolute(new LocalVector(0, 111.2), log.Landings[0].Miss!.Value, 0.1);
    }

    [Fact]
    public void An_entity_is_never_resolved() =>
        Assert.Contains("DTD", Refusal("<wpt lat=\"1\" lon=\"1\"><name>&e;</name></wpt>",
            "<!DOCTYPE gpx [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>"), StringComparison.Ordinal);

    [Fact]
    public void A_text_without_end_is_refused() =>
        Assert.Contains("is too long for a waypoint", Refusal($"<wpt lat=\"1\" lon=\"1\"><name>{new string('x', 40_000)}</name></wpt>"),
            StringComparison.Ordinal);

    [Theory]
    [InlineData("<wpt lat=\"1\" lon=\"1\"><name>d1</name>", "can't be read as GPX")]
    [InlineData("<trk/>", "has no waypoints")]
    public void What_can_not_be_read_is_told(string waypoints, string message) =>
        Assert.Contains(message, Refusal(waypoints), StringComparison.Ordinal);

    [Fact]
    public void Another_document_is_told()
    {
        using var log = new TempLog().With("drops.csv", Drops).With("landings.gpx", "<html/>");
        Assert.Contains("outermost element is not gpx", Assert.Throws<LogFormatException>(log.Read).Message, StringComparison.Ordinal);
        using var drops = new TempLog().With("drops.gpx", "<gpx/>").With("landings.csv", "x");
        Assert.Contains("holds landings, not drops", Assert.Throws<LogFormatException>(drops.Read).Message, StringComparison.Ordinal);
    }
}
