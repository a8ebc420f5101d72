namespace JumpAnalytics.Tests.Geometry;

public class DatumTests
{
    [Theory]
    [InlineData("WGS 84")]
    [InlineData("wgs84")]
    [InlineData("WGS-1984")]
    [InlineData("EPSG:4326")]
    public void Wgs_84(string text)
    {
        Assert.Same(Datum.Wgs84, Datum.Read(text).Value);
        Assert.Null(Datum.Wgs84.Note);
    }

    [Theory]
    [InlineData("NAD 83")]
    [InlineData("nad83")]
    [InlineData("NAD 83 (2011)")]
    public void Nad_83_is_taken_as_wgs_84_and_says_so(string text)
    {
        Assert.Same(Datum.Nad83, Datum.Read(text).Value);
        Assert.Contains("taken as WGS 84", Datum.Nad83.Note, StringComparison.Ordinal);
    }

    // Ericksen (1994): 4.4" of longitude; on the WGS 84 ellipsoid at 45 N that is 96 m.
    [Theory]
    [InlineData("NAD 27")]
    [InlineData("nad-1927")]
    public void Nad_27_is_refused_with_its_error(string text) =>
        Assert.Contains("about 96 m", Datum.Read(text).Reason, StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("ED 50")]
    public void Others_are_refused_with_what_is_accepted(string? text) =>
        Assert.Contains("Accepted are WGS 84 and NAD 83", Datum.Read(text).Reason, StringComparison.Ordinal);

    [Fact]
    public void Ninety_six_metres()
    {
        var shift = new LocalFrame(new GeoPosition(45, -120)).ToLocal(new GeoPosition(45, -120 + 4.4 / 3600));
        Assert.Equal(96, shift.Length, 0.5);
    }
}
