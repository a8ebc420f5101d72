using System.Globalization;

namespace JumpAnalytics.Tests.Geometry;

// Reference values: tests/reference/magnetic, whose README says where each is from.
public partial class MagneticModelTests
{
    private static readonly MagneticModel Model = MagneticModel.Wmm2025;

    [Fact]
    public void The_library_carries_the_published_coefficients()
    {
        using var stream = typeof(MagneticModel).Assembly.GetManifestResourceStream("MagneticWmm2025.csv")!;
        using var reader = new StreamReader(stream);
        var carried = reader.ReadToEnd().ReplaceLineEndings("\n");
        var published = File.ReadAllText(ReferenceFiles.PathOf("magnetic/wmm2025-coefficients.csv"));
        Assert.Equal(published.ReplaceLineEndings("\n"), carried);
    }

    [Fact]
    public void Table_of_the_technical_report()
    {
        var rows = Table("wmm2025-report-table.csv");
        Assert.Equal(12, rows.Count);
        Assert.All(rows, r =>
        {
            var f = Made(Model.At(new GeoPosition(r("lat"), East(r("lon"))), 1000 * r("alt_km"), r("decimal_year")));
            Near(r("X"), f.North, 0.05);
            Near(r("Y"), f.East, 0.05);
            Near(r("Z"), f.Down, 0.05);
            Near(r("H"), f.Horizontal, 0.05);
            Near(r("F"), f.Total, 0.05);
            Near(r("D"), f.Declination, 0.005);
            Near(r("I"), f.Inclination, 0.005);
            Near(r("Xdot"), f.AnnualChange.North, 0.05);
            Near(r("Ydot"), f.AnnualChange.East, 0.05);
            Near(r("Zdot"), f.AnnualChange.Down, 0.05);
            Near(r("Hdot"), f.AnnualChange.Horizontal, 0.05);
            Near(r("Fdot"), f.AnnualChange.Total, 0.05);
            Near(r("Ddot"), f.AnnualChange.Declination, 0.005);
            Near(r("Idot"), f.AnnualChange.Inclination, 0.005);
        });
    }

    [Fact]
    public void High_precision_points()
    {
        var rows = Table("wmm2025-high-precision.csv");
        Assert.Equal(65, rows.Count);
        Assert.All(rows, r =>
        {
            var f = Made(Model.At(Place(r), 1000 * r("alt_km"), r("decimal_year")));
            Near(r, f, north: 0.001, east: 1e-6, down: 5e-6, strength: 0.001, rate: 2e-6, turn: 2e-6);
        });
    }

    [Fact]
    public void Points_near_the_magnetic_poles()
    {
        var rows = Table("wmm2025-polar.csv");
        Assert.Equal(7, rows.Count);
        Assert.All(rows, r =>
        {
            var f = Model.Synthesise(Place(r), 1000 * r("alt_km"), r("decimal_year"));
            Near(r, f, north: 0.5, east: 0.5, down: 0.5, strength: 0.5, rate: 0.05, turn: 0.005);
            Assert.True(f.IsInCautionZone);
            Assert.Equal(r("H_nT") >= 2000, Model.At(Place(r), 1000 * r("alt_km"), r("decimal_year")).Success);
        });
    }

    // WMM2025 technical report, table 3b (second-hand copy, recomputed): 2027.5, 100 km, 80 S, 240 E.
    [Fact]
    public void Worked_example_of_the_technical_report()
    {
        var f = Made(Model.At(new GeoPosition(-80, -120), 100_000, 2027.5));
        Near(5983.9760496518, f.North, 1e-8);
        Near(14760.1359757868, f.East, 1e-8);
        Near(-49317.6706154255, f.Down, 1e-8);
        Near(51825.6907172314, f.Total, 1e-8);
        Near(15927.0079860130, f.Horizontal, 1e-8);
        Near(1.1856308407, double.DegreesToRadians(f.Declination), 1e-10);
        Near(-1.2584221541, double.DegreesToRadians(f.Inclination), 1e-10);
        Near(30.5553533530, f.AnnualChange.North, 1e-9);
        Near(-8.0494228995, f.AnnualChange.East, 1e-9);
        Near(89.2174069382, f.AnnualChange.Down, 1e-9);
    }

    private static void Near(
        Func<string, double> r,
        MagneticField f,
        double north,
        double east,
        double down,
        double strength,
        double rate,
        double turn)
    {
        Near(r("X_nT"), f.North, north);
        Near(r("Y_nT"), f.East, east);
        Near(r("Z_nT"), f.Down, down);
        Near(r("H_nT"), f.Horizontal, strength);
        Near(r("F_nT"), f.Total, strength);
        Near(r("D_deg"), f.Declination, 0.005);
        Near(r("I_deg"), f.Inclination, 0.005);
        Near(r("dX"), f.AnnualChange.North, rate);
        Near(r("dY"), f.AnnualChange.East, rate);
        Near(r("dZ"), f.AnnualChange.Down, rate);
        Near(r("dH"), f.AnnualChange.Horizontal, rate);
        Near(r("dF"), f.AnnualChange.Total, rate);
        Near(r("dD"), f.AnnualChange.Declination, turn);
        Near(r("dI"), f.AnnualChange.Inclination, turn);
    }

    private static List<Func<string, double>> Table(string file) =>
        ReferenceFiles.Rows("magnetic/" + file)
            .Select(row => (Func<string, double>)(name => double.Parse(row[name], CultureInfo.InvariantCulture)))
            .ToList();

    private static GeoPosition Place(Func<string, double> r) => new(r("lat_deg"), r("lon_deg"));

    private static double East(double longitude) => longitude > 180 ? longitude - 360 : longitude;

    private static T Made<T>(Fit<T> fit) where T : class
    {
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    // The hair of 1e-9 is for printed values whose half unit is not a binary number.
    private static void Near(double expected, double actual, double tolerance) =>
        Assert.True(
            Math.Abs(actual - expected) <= tolerance * (1 + 1e-9),
            FormattableString.Invariant($"{expected:R} expected, {actual:R} found, tolerance {tolerance:G3}."));
}
