using System.Globalization;
using CsCheck;

namespace JumpAnalytics.Tests.Geometry;

public class MgrsSquareTests
{
    // GeoConvert 2.1.2: tests/reference/geodesy/utm-mgrs.csv.
    [Fact]
    public void Texts_agree()
    {
        var rows = ReferenceFiles.Rows("geodesy/utm-mgrs.csv").ToList();
        Assert.Equal(40, rows.Count);
        Assert.All(rows, row =>
        {
            var place = new GeoPosition(Number(row["lat"]), Number(row["lon"]));
            var text = row["mgrs_1m"];
            Assert.Equal(text, Holding(place).ToString());
            for (var digits = 0; digits < 5; digits++)
                Assert.Equal(text[..(5 + digits)] + text.Substring(10, digits), Holding(place, digits).ToString());

            var square = Read(text);
            Assert.Equal(text, square.ToString());
            Assert.Equal(Math.Floor(Number(row["easting"])), square.SouthWest.Easting);
            Assert.Equal(Math.Floor(Number(row["northing"])), square.SouthWest.Northing);
        });
    }

    [Theory]
    [InlineData("11TNM5326799845", 1)]
    [InlineData("11T NM 53267 99845", 1)]
    [InlineData(" 11t nm 5326 9984 ", 10)]
    [InlineData("11TNM 532998", 100)]
    [InlineData("11TNM 53 99", 1_000)]
    [InlineData("11TNM59", 10_000)]
    [InlineData("11T NM", 100_000)]
    public void Any_spacing_case_and_precision(string text, double size)
    {
        var square = Read(text);
        Assert.Equal(size, square.GridSize);
        Assert.Equal(500_000 + Math.Floor(53_267 / size) * size, square.SouthWest.Easting);
        Assert.Equal(5_100_000 + Math.Floor(99_845 / size) * size, square.SouthWest.Northing);
        Assert.Equal(square, Read(square.ToString()));
        Assert.Equal(square, Read(square.ToSpacedText()));
    }

    [Fact]
    public void The_position_is_the_middle_of_the_square()
    {
        var centre = UtmPosition.From(Read("11TNM 532998").Centre).Value!;
        Assert.Equal(553_250, centre.Easting, 6);
        Assert.Equal(5_199_850, centre.Northing, 6);
    }

    [Fact]
    public void Digits_are_cut_off_not_rounded() =>
        Assert.Equal("31VDC9999906079", Holding(new GeoPosition(56, 2.9999999)).ToString());

    [Fact]
    public void Leading_zeros_are_kept() =>
        Assert.Equal("31N AA 66021 00000", Holding(new GeoPosition(0, 0)).ToSpacedText());

    [Theory]
    [InlineData(-1e-12, 10)]
    [InlineData(-1e-300, -1e-300)]
    [InlineData(7.999999999999999, 3)]
    [InlineData(8, 3)]
    [InlineData(84, 20)]
    [InlineData(-80, 179.99999999999997)]
    [InlineData(63.99999999999999, 2.9999999999999996)]
    public void Places_at_the_borders_read_back(double latitude, double longitude)
    {
        for (var digits = 0; digits <= 5; digits++)
        {
            var square = Holding(new GeoPosition(latitude, longitude), digits);
            Assert.Equal(square, Read(square.ToString()));
        }
    }

    [Fact]
    public void Any_place_reads_back_as_the_square_that_holds_it()
    {
        var random = new PCG(1, 20_260_103);
        var gen = Gen.Select(Gen.Double[-80, 84], Gen.Double[-180, 180], Gen.Int[0, 5]);
        for (var i = 0; i < 5_000; i++)
        {
            var (latitude, longitude, digits) = gen.Generate(random, null, out _);
            var place = new GeoPosition(latitude, longitude);
            var square = Holding(place, digits);
            Assert.Equal(square, Read(square.ToSpacedText()));

            var utm = UtmPosition.From(place).Value!;
            Assert.Equal(utm.Zone, square.SouthWest.Zone);
            Assert.InRange(utm.Easting - square.SouthWest.Easting, 0, square.GridSize);
            Assert.InRange(utm.Northing - square.SouthWest.Northing, 0, square.GridSize);
        }
    }

    [Theory]
    [InlineData("", "is not an MGRS")]
    [InlineData("61TNM5326799845", "zone 61 does not exist")]
    [InlineData("0TNM5326799845", "zone 0 does not exist")]
    [InlineData("11INM5326799845", "band I does not exist")]
    [InlineData("11ONM5326799845", "band O does not exist")]
    [InlineData("11TIM5326799845", "column I does not occur in zone 11; its columns are J to R")]
    [InlineData("11TAM5326799845", "column A does not occur")]
    [InlineData("11TNO5326799845", "row O does not exist")]
    [InlineData("11TNW5326799845", "row W does not exist")]
    [InlineData("11SNM5326799845", "no square NM with these digits in 11S, which reaches from 32 to 40 N")]
    [InlineData("11MNB5326799845", "which reaches from 8 to 0 S")]
    [InlineData("11TNM532679984", "9 digits")]
    [InlineData("11TNM 532 9984", "7 digits")]
    [InlineData("11TNM 5326 99", "groups of 4, 2")]
    [InlineData("11TNM 53 26 79 98", "groups of 2, 2, 2, 2")]
    [InlineData("11TNM 532671 998451", "at most 10")]
    [InlineData("32XNM5326799845", "31X, 33X, 35X and 37X")]
    [InlineData("ZAH1234512345", "polar grid (UPS)")]
    [InlineData("30YAH1234512345", "polar grid (UPS)")]
    [InlineData("NM5326799845", "no grid zone")]
    [InlineData("TNM 53267 99845", "no grid zone")]
    [InlineData("11T NM 53,267 99,845", "is not an MGRS")]
    public void What_is_wrong_is_refused_with_a_reason(string text, string reason)
    {
        var fit = MgrsSquare.Read(text);
        Assert.False(fit.Success);
        Assert.Contains(reason, fit.Reason, StringComparison.Ordinal);
    }

    // 900 km east of the false origin at 47 N is some degrees into the next zone.
    [Fact]
    public void A_square_outside_its_zone_is_refused_with_the_right_one()
    {
        var fit = MgrsSquare.Read("11T RM 53267 99845");
        Assert.Contains("outside zone 11T. That place is 12T", fit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_square_across_the_edge_of_its_zone_is_read()
    {
        var edge = Holding(new GeoPosition(46.95, -114.0000001), 2);
        Assert.StartsWith("11T", edge.ToString(), StringComparison.Ordinal);
        Assert.Equal(edge, Read(edge.ToString()));
    }

    [Fact]
    public void Polar_places_and_wrong_precisions_have_no_square()
    {
        Assert.Contains("UPS", MgrsSquare.Holding(new GeoPosition(-85, 0)).Reason, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => MgrsSquare.Holding(new GeoPosition(45, 0), 6));
        Assert.Throws<ArgumentOutOfRangeException>(() => MgrsSquare.Holding(new GeoPosition(45, 0), -1));
        Assert.False(MgrsSquare.Read(null).Success);
    }

    private static MgrsSquare Holding(GeoPosition place, int digits = 5) => Made(MgrsSquare.Holding(place, digits));

    private static MgrsSquare Read(string text) => Made(MgrsSquare.Read(text));

    private static MgrsSquare Made(Fit<MgrsSquare> fit)
    {
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
