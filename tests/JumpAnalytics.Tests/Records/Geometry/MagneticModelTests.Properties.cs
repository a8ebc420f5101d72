namespace JumpAnalytics.Tests.Geometry;

public partial class MagneticModelTests
{
    // 500 places over the globe, dense at the poles, up to 10 km, within the five years: the same in every run.
    private static readonly (GeoPosition Position, double Height, double Year)[] Places = DrawPlaces();

    [Fact]
    public void The_field_is_minus_the_gradient_of_the_potential()
    {
        var potential = new Potential();
        Assert.All(Places, place =>
        {
            var f = Model.Synthesise(place.Position, place.Height, place.Year);
            var (north, east, down) = potential.Field(place.Position, place.Height, place.Year);
            Near(north, f.North, 5e-4);
            Near(east, f.East, 5e-4);
            Near(down, f.Down, 5e-4);
        });
    }

    [Fact]
    public void The_annual_change_is_the_finite_difference()
    {
        const double step = 0.01;
        Assert.All(Places.Where(p => Model.Synthesise(p.Position, p.Height, p.Year).Horizontal > 2000), place =>
        {
            var change = Model.Synthesise(place.Position, place.Height, place.Year).AnnualChange;
            var before = Model.Synthesise(place.Position, place.Height, place.Year - step);
            var after = Model.Synthesise(place.Position, place.Height, place.Year + step);
            Near(Slope(f => f.North), change.North, 1e-6);
            Near(Slope(f => f.East), change.East, 1e-6);
            Near(Slope(f => f.Down), change.Down, 1e-6);
            Near(Slope(f => f.Horizontal), change.Horizontal, 1e-5);
            Near(Slope(f => f.Total), change.Total, 1e-5);
            Near(Slope(f => f.Declination), change.Declination, 1e-6);
            Near(Slope(f => f.Inclination), change.Inclination, 1e-6);

            double Slope(Func<MagneticField, double> element) => (element(after) - element(before)) / (2 * step);
        });
    }

    [Fact]
    public void The_180th_meridian_is_one_from_both_sides()
    {
        for (var latitude = -90; latitude <= 90; latitude++)
        {
            var west = Model.Synthesise(new GeoPosition(latitude, -180), 500, 2026.5);
            var east = Model.Synthesise(new GeoPosition(latitude, 180), 500, 2026.5);
            Near(west.North, east.North, 1e-8);
            Near(west.East, east.East, 1e-8);
            Near(west.Down, east.Down, 1e-8);
        }
    }

    // One field at the pole: along every meridian its components are those of one horizontal vector, turned, and they
    // are what the field tends to on that meridian (its slope is below 0.02 nT a metre; 1e-7 degrees are 1.1 cm).
    [Theory]
    [InlineData(90)]
    [InlineData(-90)]
    public void A_pole_is_one_place_from_every_side(double pole)
    {
        var first = Model.Synthesise(new GeoPosition(pole, 0), 500, 2028.25);
        for (var longitude = -180; longitude <= 180; longitude += 15)
        {
            var (sin, cos) = Math.SinCos(-Math.Sign(pole) * double.DegreesToRadians(longitude));
            var at = Model.Synthesise(new GeoPosition(pole, longitude), 500, 2028.25);
            Near(first.North * cos + first.East * sin, at.North, 1e-7);
            Near(first.East * cos - first.North * sin, at.East, 1e-7);
            Near(first.Down, at.Down, 1e-7);

            var beside = Model.Synthesise(new GeoPosition(pole * (1 - 1e-7 / 90), longitude), 500, 2028.25);
            Near(at.North, beside.North, 5e-4);
            Near(at.East, beside.East, 5e-4);
            Near(at.Down, beside.Down, 5e-4);
            Near(at.AnnualChange.East, beside.AnnualChange.East, 1e-5);
        }
    }

    // The geoid is within 110 m of the ellipsoid.
    [Fact]
    public void Height_above_the_sea_serves_as_height() =>
        Assert.All(
            Places.Where(p => !Model.Synthesise(p.Position, p.Height, p.Year).IsInCautionZone),
            p => Near(
                Model.Synthesise(p.Position, p.Height, p.Year).Declination,
                Model.Synthesise(p.Position, p.Height + 110, p.Year).Declination,
                0.004));

    private static (GeoPosition Position, double Height, double Year)[] DrawPlaces()
    {
        var random = new Random(20_260_101);
        return Enumerable.Range(0, 500)
            .Select(_ => (
                new GeoPosition(180 * random.NextDouble() - 90, 360 * random.NextDouble() - 180),
                10_000 * random.NextDouble(),
                2025.1 + 4.8 * random.NextDouble()))
            .ToArray();
    }
}
