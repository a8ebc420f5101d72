
namespace JumpAnalytics.Tests.Geometry;

public partial class PositionTextTests
{
    // The example of the BLM National Aviation Plan (2011), appendix 4, and the same place in other forms.
    [Theory]
    [InlineData("N 64 50.431' W 147 36.262'")]
    [InlineData("N 64° 50.431' W 147° 36.262'")]
    [InlineData("n64°50.431′, w147°36.262′")]
    [InlineData("64º50.431’N 147º36.262’W")]
    [InlineData("64 50.431 N / 147 36.262 W")]
    [InlineData("64-50.431N 147-36.262W")]
    [InlineData("64:50.431 -147:36.262")]
    [InlineData("64 50.431, -147 36.262")]
    [InlineData("64 50.431 -147 36.262")]
    [InlineData("+64 50.431; -147 36.262")]
    [InlineData("64 50,431; -147 36,262")]
    [InlineData("W 147 36.262 N 64 50.431")]
    [InlineData("147 36.262W,64 50.431N")]
    [InlineData("W 147 36.262, +64 50.431")]
    [InlineData("64\u00a050.431\u2032N\u2003147\u00a036.262\u2032W")]
    [InlineData("  N64 50.431'\tW147 36.262'  ")]
    public void Degrees_and_minutes(string text)
    {
        var reading = Read(text);
        Assert.Equal(PositionForm.DegreesMinutes, reading.Form);
        Assert.Equal(64 + 50.431 / 60, reading.Position.Latitude, 12);
        Assert.Equal(-147 - 36.262 / 60, reading.Position.Longitude, 12);
        Assert.Equal(1.852, reading.Resolution, 9);
    }

    [Theory]
    [InlineData("44°30'15.5\"N 116°15'30.0\"W")]
    [InlineData("44°30′15.5″ N, 116°15′30.0″ W")]
    [InlineData("44° 30' 15.5'' N 116° 15' 30.0'' W")]
    [InlineData("44°30’15.5” -116°15’30.0”")]
    [InlineData("N 44 30 15.5 W 116 15 30.0")]
    [InlineData("44:30:15.5N 116:15:30.0W")]
    [InlineData("44-30-15.5 N, 116-15-30.0 W")]
    [InlineData("44 30 15.5 -116 15 30.0")]
    public void Degrees_minutes_and_seconds(string text)
    {
        var reading = Read(text);
        Assert.Equal(PositionForm.DegreesMinutesSeconds, reading.Form);
        Assert.Equal(44 + 30 / 60.0 + 15.5 / 3600, reading.Position.Latitude, 12);
        Assert.Equal(-116 - 15 / 60.0 - 30 / 3600.0, reading.Position.Longitude, 12);
        Assert.Equal(185.2 / 60, reading.Resolution, 9);
    }

    [Theory]
    [InlineData("44.508333, -116.254167")]
    [InlineData("44.508333,-116.254167")]
    [InlineData("44.508333 -116.254167")]
    [InlineData("44.508333°N 116.254167°W")]
    [InlineData("N44.508333 W116.254167")]
    [InlineData("44.508333 / −116.254167")]
    [InlineData("44,508333; -116,254167")]
    [InlineData("44.508333 N, -116.254167")]
    public void Decimal_degrees(string text)
    {
        var reading = Read(text);
        Assert.Equal(PositionForm.DecimalDegrees, reading.Form);
        Assert.Equal(44.508333, reading.Position.Latitude, 12);
        Assert.Equal(-116.254167, reading.Position.Longitude, 12);
        Assert.Equal(0.11112, reading.Resolution, 9);
    }

    [Theory]
    [InlineData("44, 116", 44, 116)]
    [InlineData("44.5 30.5", 44.5, 30.5)]
    [InlineData("44 116", 44, 116)]
    [InlineData("44 30 116 15", 44.5, 116.25)]
    [InlineData("44 30 0 116 15 0", 44.5, 116.25)]
    [InlineData("44 30,116 15", 44.5, 116.25)]
    [InlineData("-0 30, -0 15", -0.5, -0.25)]
    [InlineData("0 30 S 0 15 W", -0.5, -0.25)]
    [InlineData("90 N 180 W", 90, -180)]
    public void Without_letters_blanks_and_counts_decide(string text, double latitude, double longitude)
    {
        var reading = Read(text);
        Assert.Equal(latitude, reading.Position.Latitude, 12);
        Assert.Equal(longitude, reading.Position.Longitude, 12);
    }

    [Theory]
    [InlineData("11T 500000 4649776")]
    [InlineData("11t 0500000 4649776")]
    [InlineData("11 N 500000E 4649776N")]
    [InlineData("11N 500000 mE 4649776 mN")]
    [InlineData("11 north 500000 4649776")]
    [InlineData("UTM zone 11T, 500000 m E, 4649776 m N")]
    [InlineData("UTM: 11T 4649776N 500000E")]
    [InlineData("11T E 500000 N 4649776")]
    [InlineData("11T E500000, N4649776")]
    [InlineData("zone 11 N; 500000/4649776")]
    public void Utm(string text)
    {
        var reading = Read(text);
        var expected = new UtmPosition(11, Hemisphere.North, 500_000, 4_649_776).ToGeo();
        Assert.Equal(PositionForm.Utm, reading.Form);
        Assert.Equal(expected, reading.Position);
        Assert.Equal(1, reading.Resolution);
    }

    [Theory]
    [InlineData("11S 500000.25 3999999.5", true, 0, "S is band S (32 to 40 N) or the southern half")]
    [InlineData("11S 500000 4449776", true, 0, "S is band S")]
    [InlineData("11 north 500000.25 3999999.5", false, 0.1, "")]
    [InlineData("55 S 696000.00 6090000.00", false, 0.01, "")]
    [InlineData("55H 696000.00 6090000.00", false, 0.01, "")]
    [InlineData("55 south 696000.00 6090000.00", false, 0.01, "")]
    [InlineData("31N 166021 0", false, 1, "")]
    [InlineData("11T 500000 0", true, 0, "band T reaches from latitude 40 to 48")]
    public void Utm_letters_and_decimals(string text, bool refused, double resolution, string reason)
    {
        var fit = PositionText.Read(text);
        Assert.Equal(refused, !fit.Success);
        if (refused)
            Assert.Contains(reason, fit.Reason, StringComparison.Ordinal);
        else
            Assert.Equal(resolution, fit.Value!.Resolution, 12);
    }

    [Theory]
    [InlineData("11TNM5326799845", 1)]
    [InlineData("11t nm 532 998", 100)]
    public void Grid_squares(string text, double size)
    {
        var reading = Read(text);
        Assert.Equal(PositionForm.Mgrs, reading.Form);
        Assert.Equal(MgrsSquare.Read(text).Value!.Centre, reading.Position);
        Assert.Equal(size, reading.Resolution);
    }

    [Fact]
    public void The_reference_points_are_read_in_both_grids() =>
        Assert.All(ReferenceFiles.Rows("geodesy/utm-mgrs.csv"), row =>
        {
            var half = row["hemisphere"] == "N" ? "north" : "south";
            var utm = Read($"{row["zone"]} {half} {row["easting"]} {row["northing"]}");
            Assert.Equal(1e-6, utm.Resolution, 15);
            Assert.Equal($"{row["lat"]}, {row["lon"]}",
                FormattableString.Invariant($"{utm.Position.Latitude:0.0000000}, {utm.Position.Longitude:0.0000000}")
                    .Replace("-0.0000000", "0.0000000", StringComparison.Ordinal));
            Assert.Equal(PositionForm.Mgrs, Read(row["mgrs_1m"]).Form);
        });

    [Theory]
    [InlineData("44 30.50", 44.508333333333333, PositionForm.DegreesMinutes, 1 / 6000.0)]
    [InlineData("44.5", 44.5, PositionForm.DecimalDegrees, 0.1)]
    [InlineData("S 33°51'30\"", -33.858333333333333, PositionForm.DegreesMinutesSeconds, 1 / 3600.0)]
    [InlineData("-33 51 30", -33.858333333333333, PositionForm.DegreesMinutesSeconds, 1 / 3600.0)]
    [InlineData("44-30.5N", 44.508333333333333, PositionForm.DegreesMinutes, 1 / 600.0)]
    public void One_latitude(string text, double degrees, PositionForm form, double step)
    {
        var fit = PositionText.ReadLatitude(text);
        Assert.True(fit.Success, fit.Reason);
        Assert.Equal(degrees, fit.Value.Degrees, 12);
        Assert.Equal(form, fit.Value.Form);
        Assert.Equal(step, fit.Value.Step, 15);
    }

    [Fact]
    public void One_longitude()
    {
        Assert.Equal(-147 - 36.262 / 60, PositionText.ReadLongitude("W 147 36.262'").Value!.Degrees, 12);
        Assert.Equal(-116.25, PositionText.ReadLongitude("-116.25").Value!.Degrees);
        Assert.Contains("N is a latitude", PositionText.ReadLongitude("44 N").Reason, StringComparison.Ordinal);
        Assert.Contains("W is a longitude", PositionText.ReadLatitude("116 W").Reason, StringComparison.Ordinal);
    }

    // A degree of longitude shrinks with the cosine of the latitude; the coarser axis counts.
    [Fact]
    public void Resolution_is_that_of_the_coarser_axis()
    {
        Assert.Equal(1852, Read("60 30.5N 10 30W").Resolution / Math.Cos(double.DegreesToRadians(60 + 30.5 / 60)), 6);
        Assert.Equal(1852, Read("60 30N 10 30.123W").Resolution, 6);
    }

    private static PositionReading Read(string text)
    {
        var fit = PositionText.Read(text);
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }
}
