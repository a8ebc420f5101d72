using System.Globalization;
using NodaTime;

namespace JumpAnalytics;

/// <summary>
/// A model of the earth's main magnetic field: gives the declination that turns the magnetic bearings of a log into
/// true ones, and the other elements of the field.
/// </summary>
/// <remarks>
/// <para>
/// Method: the spherical harmonic series of the World Magnetic Model with coefficients that change linearly in time, on
/// the WGS 84 ellipsoid; reference radius 6 371 200 m. The arithmetic adds below 1e-6 nT. How far the model itself is
/// from what a compass shows is <see cref="MagneticField.DeclinationError"/>.
/// </para>
/// <para>
/// Source: Chulliat et al. (2025), The US/UK World Magnetic Model for 2025-2030: Technical Report, NOAA National Centers
/// for Environmental Information and British Geological Survey; coefficient file of 2024-11-13, public domain. The
/// report itself was not at hand: its heights, zones and error model are quoted at second hand.
/// </para>
/// <para>Every method is pure and may be called from any thread; it allocates nothing but its result.</para>
/// </remarks>
[TypeFormatterSource]
public sealed partial class MagneticModel
{
    private const double ValidYears = 5;
    private const double LowestHeight = -1000;
    private const double GreatestHeight = 850_000;

    private readonly double _epoch;
    private readonly Term[] _terms;

    private MagneticModel(string name, double epoch, Term[] terms) => (Name, _epoch, _terms) = (name, epoch, terms);

    /// <summary>The World Magnetic Model 2025, degree 12, for 2025-01-01 to 2030-01-01.</summary>
    public static MagneticModel Wmm2025 { get; } = new("WMM2025", 2025, ReadTerms("MagneticWmm2025.csv"));

    /// <summary>The model's short name, for reports.</summary>
    public string Name { get; }

    /// <summary>The field at a place on a date.</summary>
    /// <param name="position">
    /// Where, geodetic on WGS 84. At a pole, north is along the meridian of the longitude given.
    /// </param>
    /// <param name="height">
    /// Metres above the WGS 84 ellipsoid. Height above mean sea level serves as well: the two differ by at most 110 m,
    /// which moves declination by less than 0.004° outside the caution zone.
    /// </param>
    /// <param name="date">The day; the field is that of its first moment (see <see cref="DecimalYear"/>).</param>
    /// <returns>
    /// The field, or the reason why the model says nothing: the date is outside its five years, the height outside
    /// −1 km to 850 km, or the place in the blackout zone at a magnetic pole (horizontal field below 2000 nT).
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The height is not finite.</exception>
    public Fit<MagneticField> At(GeoPosition position, double height, LocalDate date)
    {
        var year = DecimalYear(date);
        return Covers(year)
            ? At(position, height, year)
            : OutOfDate(date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture));
    }

    /// <summary>The field at a place at a moment.</summary>
    /// <param name="position">
    /// Where, geodetic on WGS 84. At a pole, north is along the meridian of the longitude given.
    /// </param>
    /// <param name="height">Metres above the WGS 84 ellipsoid.</param>
    /// <param name="decimalYear">The moment; 2025.5 is the middle of 2025.</param>
    /// <returns>The field, or the reason why the model says nothing, as for a date.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The height or the year is not finite.</exception>
    public Fit<MagneticField> At(GeoPosition position, double height, double decimalYear)
    {
        Guard.Finite(height, hint: "metres");
        Guard.Finite(decimalYear);

        if (!Covers(decimalYear))
            return OutOfDate(decimalYear.ToString(CultureInfo.InvariantCulture));
        if (height is < LowestHeight or > GreatestHeight)
            return OutOfReach(height);

        var field = Synthesise(position, height, decimalYear);
        return field.Horizontal >= MagneticField.BlackoutBelow
            ? Fit<MagneticField>.Made(field)
            : BlackedOut(position, field.Horizontal);
    }

    /// <summary>The declination at a place on a date: what to add to a magnetic bearing to make it true.</summary>
    /// <param name="position">Where, geodetic on WGS 84.</param>
    /// <param name="height">Metres above the WGS 84 ellipsoid.</param>
    /// <param name="date">The day.</param>
    /// <returns>The declination with its error, or the reason why there is none, as for <c>At</c>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The height is not finite.</exception>
    public Fit<MagneticDeclination> Declination(GeoPosition position, double height, LocalDate date)
    {
        var field = At(position, height, date);
        if (!field.Success)
            return Fit<MagneticDeclination>.Refused(field.Reason);

        var (degrees, error) = (field.Value.Declination, field.Value.DeclinationError);
        return Fit<MagneticDeclination>.Made(new(degrees, error, field.Value.IsInCautionZone));
    }

    /// <summary>
    /// A date as a decimal year: the year plus the days gone by before the date over the days of that year, so that
    /// 1 January 2025 is 2025.0 and 2 July 2025 is 2025 + 182/365. The day's first moment stands for the whole day.
    /// </summary>
    /// <param name="date">Any date; one of another calendar is turned into the ISO calendar.</param>
    public static double DecimalYear(LocalDate date)
    {
        var iso = date.WithCalendar(CalendarSystem.Iso);
        return iso.Year + (iso.DayOfYear - 1) / (double)CalendarSystem.Iso.GetDaysInYear(iso.Year);
    }

    private bool Covers(double year) => year >= _epoch && year <= _epoch + ValidYears;

    private Fit<MagneticField> OutOfDate(string when) =>
        Fit<MagneticField>.Refused(string.Create(
            CultureInfo.InvariantCulture,
            $"{Name} holds from {_epoch}-01-01 to {_epoch + ValidYears}-01-01, not at {when}. " +
            $"Give the declination in the log."));

    private Fit<MagneticField> OutOfReach(double height) =>
        Fit<MagneticField>.Refused(string.Create(
            CultureInfo.InvariantCulture,
            $"{Name} holds from {LowestHeight} m to {GreatestHeight} m, not at {height} m. Give the height in metres."));

    private static Fit<MagneticField> BlackedOut(GeoPosition position, double horizontal) =>
        Fit<MagneticField>.Refused(string.Create(
            CultureInfo.InvariantCulture,
            $"{position} is in the blackout zone at a magnetic pole (horizontal field {horizontal:0} nT, below " +
            $"{MagneticField.BlackoutBelow} nT), where no compass is reliable. Log true bearings."));
}
