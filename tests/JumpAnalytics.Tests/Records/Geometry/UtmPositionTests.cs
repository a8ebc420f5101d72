using System.Globalization;
using CsCheck;

namespace JumpAnalytics.Tests.Geometry;

// Reference values: tests/reference/geodesy, whose utm-mgrs.md says how each was made.
public class UtmPositionTests
{
    private const double MetresPerDegree = 111_320;

    // utm-mgrs.csv is printed to 1e-6 m; utm-exact.csv to 1e-10 m or better.
    [Theory]
    [InlineData("geodesy/utm-mgrs.csv", 40, 5.1e-7)]
    [InlineData("geodesy/utm-exact.csv", 60, 5e-9)]
    public void Forward_agrees(string file, int count, double tolerance)
    {
        var rows = ReferenceFiles.Rows(file).ToList();
        Assert.Equal(count, rows.Count);
        Assert.All(rows, row =>
        {
            var utm = Utm(Degrees(row, "lat"), Degrees(row, "lon"));
            Assert.Equal(int.Parse(row["zone"], CultureInfo.InvariantCulture), utm.Zone);
            Assert.Equal(row["hemisphere"], utm.Hemisphere.ToString()[..1]);
            Near(Number(row, "easting"), utm.Easting, tolerance);
            Near(Number(row, "northing"), utm.Northing, tolerance);
        });
    }

    [Theory]
    [InlineData("geodesy/utm-mgrs.csv", 8e-7)]
    [InlineData("geodesy/utm-exact.csv", 5e-9)]
    public void Inverse_agrees(string file, double tolerance) =>
        Assert.All(ReferenceFiles.Rows(file), row =>
        {
            var hemisphere = row["hemisphere"] == "N" ? Hemisphere.North : Hemisphere.South;
            var zone = int.Parse(row["zone"], CultureInfo.InvariantCulture);
            var geo = new UtmPosition(zone, hemisphere, Number(row, "easting"), Number(row, "northing")).ToGeo();
            Near(0, Metres(new GeoPosition(Degrees(row, "lat"), Degrees(row, "lon")), geo), tolerance);
        });

    // A degree of latitude below 84 is a double within 0.8e-9 m, a northing below 10 000 km within 0.9e-9 m.
    [Fact]
    public void There_and_back_is_the_same_place()
    {
        var random = new PCG(1, 20_260_102);
        var gen = Gen.Select(Gen.Double[-80, 84], Gen.Double[-180, 180]);
        for (var i = 0; i < 20_000; i++)
        {
            var (latitude, longitude) = gen.Generate(random, null, out _);
            var utm = Utm(latitude, longitude);
            var geo = utm.ToGeo();
            Assert.True(
                Metres(new GeoPosition(latitude, longitude), geo) <= 5e-9,
                string.Create(CultureInfo.InvariantCulture, $"{latitude:R} {longitude:R} came back as {geo.Latitude:R} {geo.Longitude:R}"));
        }
    }

    [Theory]
    [InlineData(0, -180, 1, 'N')]
    [InlineData(0, 180, 1, 'N')]
    [InlineData(0, 179.9999999, 60, 'N')]
    [InlineData(45, -174, 2, 'T')]
    [InlineData(45, -174.0000001, 1, 'T')]
    [InlineData(-0.0000001, 0, 31, 'M')]
    [InlineData(-1e-300, -1e-300, 30, 'M')]
    [InlineData(-80, 0, 31, 'C')]
    [InlineData(84, 0, 31, 'X')]
    [InlineData(72, 10, 33, 'X')]
    [InlineData(71.9999999, 10, 32, 'W')]
    [InlineData(55.9999999, 4, 31, 'U')]
    [InlineData(56, 2.9999999, 31, 'V')]
    [InlineData(56, 3, 32, 'V')]
    [InlineData(63.9999999, 11.9999999, 32, 'V')]
    [InlineData(63.9999999, 12, 33, 'V')]
    [InlineData(64, 4, 31, 'W')]
    [InlineData(78, 8.9999999, 31, 'X')]
    [InlineData(78, 9, 33, 'X')]
    [InlineData(78, 20.9999999, 33, 'X')]
    [InlineData(78, 21, 35, 'X')]
    [InlineData(78, 32.9999999, 35, 'X')]
    [InlineData(78, 33, 37, 'X')]
    [InlineData(78, 42, 38, 'X')]
    public void Zones_and_bands_with_their_exceptions(double latitude, double longitude, int zone, char band)
    {
        Assert.Equal((zone, band), GridZone.Of(new GeoPosition(latitude, longitude)));
        Assert.Equal(zone, Utm(latitude, longitude).Zone);
    }

    [Fact]
    public void Both_sides_of_180_degrees_are_one_place()
    {
        Assert.Equal(Utm(45, -180), Utm(45, 180));
        Assert.Equal(-180, new UtmPosition(1, Hemisphere.North, Utm(45, -180).Easting, Utm(45, -180).Northing).ToGeo().Longitude, 12);
        // Beyond the edge of zone 1 lies zone 60.
        var beyond = new UtmPosition(1, Hemisphere.North, 250_000, 5_000_000).ToGeo();
        Assert.InRange(beyond.Longitude, 179.8, 180);
    }

    [Theory]
    [InlineData(84.0000001)]
    [InlineData(-80.0000001)]
    [InlineData(90)]
    public void Polar_places_have_none(double latitude)
    {
        var utm = UtmPosition.From(new GeoPosition(latitude, 10));
        Assert.Contains("UPS", utm.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 500_000, 0)]
    [InlineData(61, 500_000, 0)]
    [InlineData(11, 99_999, 0)]
    [InlineData(11, 900_001, 0)]
    [InlineData(11, double.NaN, 0)]
    [InlineData(11, 500_000, -1)]
    [InlineData(11, 500_000, 9_500_001)]
    [InlineData(11, 500_000, double.NaN)]
    public void Numbers_out_of_range_are_errors(int zone, double easting, double northing)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => new UtmPosition(zone, Hemisphere.North, easting, northing));
        Assert.Contains("must be from", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_legal_number_is_a_legal_place()
    {
        foreach (var zone in (int[])[1, 30, 60])
        {
            foreach (var easting in (double[])[100_000, 500_000, 900_000])
            {
                Assert.InRange(new UtmPosition(zone, Hemisphere.North, easting, 9_500_000).ToGeo().Latitude, 84, 86);
                Assert.InRange(new UtmPosition(zone, Hemisphere.South, easting, 1_000_000).ToGeo().Latitude, -82, -80);
            }
        }
    }

    private static UtmPosition Utm(double latitude, double longitude)
    {
        var fit = UtmPosition.From(new GeoPosition(latitude, longitude));
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    private static double Metres(GeoPosition a, GeoPosition b) => MetresPerDegree * double.Hypot(
        a.Latitude - b.Latitude,
        Math.IEEERemainder(a.Longitude - b.Longitude, 360) * Math.Cos(double.DegreesToRadians(a.Latitude)));

    private static double Degrees(IReadOnlyDictionary<string, string> row, string column) => Number(row, column);

    private static double Number(IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], CultureInfo.InvariantCulture);

    private static void Near(double expected, double actual, double tolerance) =>
        Assert.InRange(actual, expected - tolerance, expected + tolerance);
}
