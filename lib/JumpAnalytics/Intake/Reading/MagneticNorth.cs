using System.Globalization;
using NodaTime;

namespace JumpAnalytics;

/// <summary>The declination that turns the magnetic bearings of a drop into true ones.</summary>
internal static class MagneticNorth
{
    /// <summary>
    /// Degrees; a declination in the log may differ from the model's by this or by three standard errors before it is told.
    /// </summary>
    private const double Unremarkable = 1;

    /// <summary>The declination of the log, which wins; else that of the World Magnetic Model 2025 for place and date; else null.</summary>
    public static double? DeclinationOf(Drop drop) =>
        drop.Declination ?? (drop.Spot is { } spot ? Model(spot, drop.SpotElevation, drop.Time.Date).Value?.Degrees : null);

    /// <summary>The same for a drop that is being read; a declination of the log that differs from the model's is told.</summary>
    public static double? DeclinationOf(RowReader row, double? given, GeoPosition? spot, double? elevation, LocalDate date)
    {
        var model = spot is { } place ? Model(place, elevation, date) : null;
        if (given is { } written && model is { Success: true, Value: var told }
            && Math.Abs(Math.IEEERemainder(written - told.Degrees, 360)) > Math.Max(Unremarkable, 3 * told.StandardError))
        {
            row.Remark(LogColumns.Declination, "declination", string.Create(CultureInfo.InvariantCulture,
                $"differs from the {told.Degrees:0.0}° of the magnetic model for this place and date; the log's is used"),
                "check the sign (east is positive) and the date of the chart");
        }
        return given ?? model?.Value?.Degrees;
    }

    /// <summary>
    /// What the model tells of a spot. The elevation stands in for the height above the ellipsoid, which changes nothing that counts.
    /// </summary>
    public static Fit<MagneticDeclination> Model(GeoPosition spot, double? elevation, LocalDate date) =>
        MagneticModel.Wmm2025.Declination(spot, Math.Clamp(elevation ?? 0, -500, 10_000), date);
}
