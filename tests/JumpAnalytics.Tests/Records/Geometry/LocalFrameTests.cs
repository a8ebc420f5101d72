using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Positions against the local lines of tests/reference/geodesy (GeographicLib 2.1.2; see the README there).</summary>
public sealed class LocalFrameTests
{
    private sealed record Line(GeoPosition From, GeoPosition To, double Distance, double Azimuth1, double Azimuth2, LocalVector EastNorth);

    private static readonly List<Line> _lines = [.. ReferenceFiles.Rows("geodesy/local_lines_enu.csv").Select(r =>
    {
        double At(string column) => double.Parse(r[column], CultureInfo.InvariantCulture);
        return new Line(new GeoPosition(At("lat1"), At("lon1")), new GeoPosition(At("lat2"), At("lon2")),
            At("s12_m"), At("azi1_deg"), At("azi2_deg"), new LocalVector(At("east_m"), At("north_m")));
    })];

    [Fact]
    public void East_and_north_agree_with_GeographicLib_to_a_micrometre()
    {
        Assert.Equal(60, _lines.Count);
        foreach (var line in _lines)
            Close.Absolute(line.EastNorth, new LocalFrame(line.From).ToLocal(line.To), 1e-6, line.ToString());
    }

    [Fact]
    public void The_lines_hold_the_awkward_places()
    {
        Assert.Contains(_lines, l => Math.Abs(l.From.Longitude - l.To.Longitude) > 359);
        Assert.Contains(_lines, l => l.From.Latitude < 0);
        Assert.Contains(_lines, l => l.From.Latitude >= 70);
    }

    /// <summary>
    /// The way back: seen from the second point the first lies at the geodesic's distance, on its azimuth there turned round. The
    /// plane is flat and the geodesic is not: it falls short by s³/6R², which the check takes off (R = 6,371 km, good to 1 %).
    /// </summary>
    [Fact]
    public void The_way_back_follows_the_geodesic()
    {
        var tried = 0;
        foreach (var line in _lines.Where(l => l.Distance <= 1000))
        {
            var flat = line.Distance - Math.Pow(line.Distance, 3) / (6 * 6.371e6 * 6.371e6);
            var expected = LocalVector.FromPolar(flat, Bearing.FromDegrees(line.Azimuth2).Reversed);
            Close.Absolute(expected, new LocalFrame(line.To).ToLocal(line.From), 1.1e-6, line.ToString());
            tried++;
        }
        Assert.True(tried >= 30, $"only {tried} lines");
    }

    [Fact]
    public void A_place_is_nowhere_from_itself()
    {
        foreach (var line in _lines) Assert.Equal(default, new LocalFrame(line.From, 1500).ToLocal(line.From));
    }

    /// <summary>At height h distances grow by h/R; R of the ellipsoid lies between 6,335 and 6,400 km (Geometry of WGS 84).</summary>
    [Fact]
    public void At_two_thousand_metres_distances_grow_by_a_thirty_second_of_a_percent()
    {
        foreach (var line in _lines.Where(l => l.Distance >= 100))
        {
            var growth = new LocalFrame(line.From, 2000).ToLocal(line.To).Length / new LocalFrame(line.From).ToLocal(line.To).Length - 1;
            Assert.InRange(growth, 2000 / 6.400e6, 2000 / 6.335e6);
        }
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_height_that_is_no_number_is_refused(double height) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalFrame(default, height));

    [Theory]
    [InlineData(90.0001, 0)]
    [InlineData(-91, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(0, 180.5)]
    [InlineData(0, double.NaN)]
    public void A_position_off_the_earth_is_refused(double latitude, double longitude) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new GeoPosition(latitude, longitude));
}
