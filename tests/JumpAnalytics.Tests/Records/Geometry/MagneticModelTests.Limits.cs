using NodaTime;

namespace JumpAnalytics.Tests.Geometry;

public partial class MagneticModelTests
{
    private static readonly GeoPosition Larchgate = new(46.9, -114.1);

    [Fact]
    public void A_date_counts_from_its_first_moment()
    {
        Assert.Equal(2025, MagneticModel.DecimalYear(new LocalDate(2025, 1, 1)));
        Assert.Equal(2025 + 182 / 365.0, MagneticModel.DecimalYear(new LocalDate(2025, 7, 2)));
        Assert.Equal(2028 + 365 / 366.0, MagneticModel.DecimalYear(new LocalDate(2028, 12, 31)));
        Assert.Equal(
            MagneticModel.DecimalYear(new LocalDate(2026, 8, 14)),
            MagneticModel.DecimalYear(new LocalDate(2026, 8, 14).WithCalendar(CalendarSystem.Julian)));
    }

    [Fact]
    public void A_date_stands_for_its_decimal_year() =>
        Assert.Equal(
            Model.At(Larchgate, 1000, 2025 + 182 / 365.0),
            Model.At(Larchgate, 1000, new LocalDate(2025, 7, 2)));

    [Theory]
    [InlineData(2024, 12, 31)]
    [InlineData(2030, 1, 2)]
    public void Dates_outside_the_five_years_are_refused(int year, int month, int day)
    {
        var date = new LocalDate(year, month, day);
        var reason = $"WMM2025 holds from 2025-01-01 to 2030-01-01, not at {year}-{month:00}-{day:00}. " +
            "Give the declination in the log.";
        Assert.Equal(reason, Model.At(Larchgate, 1000, date).Reason);
        Assert.Equal(reason, Model.Declination(Larchgate, 1000, date).Reason);
    }

    [Fact]
    public void Decimal_years_outside_the_five_are_refused()
    {
        Assert.True(Model.At(Larchgate, 1000, 2025.0).Success);
        Assert.True(Model.At(Larchgate, 1000, 2030.0).Success);
        Assert.Contains("not at 2024.99. Give", Model.At(Larchgate, 1000, 2024.99).Reason, StringComparison.Ordinal);
        Assert.Contains("not at 2030.01. Give", Model.At(Larchgate, 1000, 2030.01).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Heights_outside_the_model_are_refused()
    {
        Assert.True(Model.At(Larchgate, -1000, 2026).Success);
        Assert.True(Model.At(Larchgate, 850_000, 2026).Success);
        Assert.Equal(
            "WMM2025 holds from -1000 m to 850000 m, not at -1000.5 m. Give the height in metres.",
            Model.At(Larchgate, -1000.5, 2026).Reason);
        Assert.False(Model.At(Larchgate, 850_001, 2026).Success);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Numbers_that_are_none_are_errors(double number)
    {
        Assert.Throws<ArgumentOutOfRangeException>("height", () => Model.At(Larchgate, number, 2026));
        Assert.Throws<ArgumentOutOfRangeException>("decimalYear", () => Model.At(Larchgate, 1000, number));
    }

    // 1504 nT is an official test value: wmm2025-polar.csv.
    [Fact]
    public void The_blackout_zone_is_refused() =>
        Assert.Equal(
            "89.000000, -121.000000 is in the blackout zone at a magnetic pole (horizontal field 1504 nT, below 2000 nT), " +
            "where no compass is reliable. Log true bearings.",
            Model.At(new GeoPosition(89, -121), 28_000, 2025.0).Reason);

    [Fact]
    public void Declination_makes_a_magnetic_bearing_true()
    {
        var date = new LocalDate(2026, 8, 14);
        var field = Made(Model.At(Larchgate, 1000, date));
        var declination = Made(Model.Declination(Larchgate, 1000, date));
        Assert.Equal(new MagneticDeclination(field.Declination, field.DeclinationError, false), declination);
        Near(350 + declination.Degrees - 360, declination.ToTrue(350).Degrees, 1e-12);
        Near(350, new MagneticDeclination(-20, 0.4, false).ToTrue(10).Degrees, 1e-12);
    }

    // Second-hand copies of the WMM2025 technical report: equation 43 gives 0.29 degrees in the strongest
    // horizontal field, 41,875 nT; the caution zone is below 6000 nT.
    [Fact]
    public void Error_and_caution_follow_the_horizontal_field()
    {
        var strongest = Horizontal(41_875);
        Near(0.29, strongest.DeclinationError, 0.005);
        Near(Math.Sqrt(0.26 * 0.26 + 1), Horizontal(5417).DeclinationError, 1e-12);
        Assert.False(Horizontal(6000).IsInCautionZone);
        Assert.True(Horizontal(5999.9).IsInCautionZone);
        Assert.True(Made(Model.Declination(new GeoPosition(80, -96), 0, new LocalDate(2026, 7, 1))).IsInCautionZone);

        static MagneticField Horizontal(double strength) => new(new(0.6 * strength, -0.8 * strength, 40_000), default);
    }

    [Fact]
    public void Nothing_is_allocated_but_the_result()
    {
        const int evaluations = 1000;
        Made(Model.At(Larchgate, 1000, 2026));
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < evaluations; i++)
            _ = Model.At(Larchgate, 1000, 2026);
        var each = (GC.GetAllocatedBytesForCurrentThread() - before) / evaluations;
        Assert.InRange(each, 1, 160);
    }
}
