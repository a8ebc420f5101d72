using System.Globalization;

namespace JumpAnalytics;

/// <summary>The half of the earth a UTM northing is counted in.</summary>
public enum Hemisphere
{
    /// <summary>Northings count up from 0 at the equator.</summary>
    North,

    /// <summary>Northings count up towards 10 000 000 m at the equator.</summary>
    South,
}

/// <summary>A place in the universal transverse Mercator grid on WGS 84: zone, hemisphere, metres east and metres north.</summary>
/// <remarks>
/// Scale 0.9996 on the central meridian, easting 500 000 m there; Krüger's series to sixth order after Karney (2011,
/// Journal of Geodesy 85, 475-485). Both directions agree with the exact projection to 1e-8 m. North in this grid differs
/// from true north by the convergence, up to some degrees: take bearings and misses from positions, not from differences
/// of eastings and northings.
/// </remarks>
[TypeFormatterSource]
public sealed record UtmPosition
{
    private const double ScaleOnMeridian = 0.9996;
    private const double FalseEasting = 500_000;
    private const double FalseNorthing = 10_000_000;

    /// <summary>Makes a place from its numbers.</summary>
    /// <param name="zone">Zone, 1 to 60.</param>
    /// <param name="hemisphere">Half of the earth.</param>
    /// <param name="easting">
    /// Metres, 100 000 to 900 000; 500 000 on the central meridian. A place may lie beyond the edge of its zone.
    /// </param>
    /// <param name="northing">Metres: 0 to 9 500 000 in the north, 1 000 000 to 10 000 000 in the south.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range; the message gives both.</exception>
    public UtmPosition(int zone, Hemisphere hemisphere, double easting, double northing)
    {
        Zone = Guard.Within(zone, 1, 60);
        Hemisphere = Guard.Defined(hemisphere);
        Easting = IsEasting(easting) ? easting : throw Guard.Refused(nameof(easting), easting, EastingRange);
        Northing = IsNorthing(hemisphere, northing)
            ? northing
            : throw Guard.Refused(nameof(northing), northing, NorthingRange(hemisphere));
    }

    /// <summary>Zone, 1 to 60, eastwards from 180° W.</summary>
    public int Zone { get; }

    /// <summary>Half of the earth.</summary>
    public Hemisphere Hemisphere { get; }

    /// <summary>Metres, growing to the east, 500 000 on the central meridian of the zone.</summary>
    public double Easting { get; }

    /// <summary>Metres, growing to the north, from the equator or, in the south, from 10 000 km south of it.</summary>
    public double Northing { get; }

    /// <summary>The place in the zone it belongs to, the exceptions off Norway and Svalbard included.</summary>
    /// <param name="position">A place between 80° S and 84° N; longitudes 180 and −180 are the same and lie in zone 1.</param>
    /// <returns>The place in UTM, or the reason why it has none.</returns>
    public static Fit<UtmPosition> From(GeoPosition position)
    {
        if (GridZone.Of(position) is not var (zone, _))
            return Fit<UtmPosition>.Refused(Polar(position.Latitude));

        var fromMeridian = Math.IEEERemainder(position.Longitude - GridZone.CentralMeridian(zone), 360);
        var (x, y) = TransverseMercator.Forward(position.Latitude, fromMeridian);
        var hemisphere = position.Latitude < 0 ? Hemisphere.South : Hemisphere.North;
        return Fit<UtmPosition>.Made(new UtmPosition(
            zone,
            hemisphere,
            FalseEasting + ScaleOnMeridian * x,
            FalseNorthingOf(hemisphere) + ScaleOnMeridian * y));
    }

    /// <summary>Latitude and longitude of the place.</summary>
    public GeoPosition ToGeo()
    {
        var (latitude, fromMeridian) = FromMeridian();
        return new GeoPosition(latitude, Math.IEEERemainder(GridZone.CentralMeridian(Zone) + fromMeridian, 360));
    }

    /// <inheritdoc/>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Zone} {Hemisphere} {Easting:0.000} m E {Northing:0.000} m N");

    internal const string EastingRange = "from 100000 to 900000 m";

    internal static string NorthingRange(Hemisphere hemisphere) =>
        hemisphere == Hemisphere.North ? "from 0 to 9500000 m" : "from 1000000 to 10000000 m";

    internal static bool IsEasting(double easting) => easting is >= 100_000 and <= 900_000;

    internal static bool IsNorthing(Hemisphere hemisphere, double northing) =>
        hemisphere == Hemisphere.North ? northing is >= 0 and <= 9_500_000 : northing is >= 1_000_000 and <= FalseNorthing;

    internal static string Polar(double latitude) => string.Create(
        CultureInfo.InvariantCulture,
        $"Latitude {latitude:0.######} lies outside 80 S to 84 N, where UTM and MGRS give way to the polar grid (UPS), which is not read "
            + $"or written. Use latitude and longitude.");

    /// <summary>Latitude, and degrees east of the central meridian of the zone.</summary>
    internal (double Latitude, double Longitude) FromMeridian() => TransverseMercator.Inverse(
        (Easting - FalseEasting) / ScaleOnMeridian,
        (Northing - FalseNorthingOf(Hemisphere)) / ScaleOnMeridian);

    private static double FalseNorthingOf(Hemisphere hemisphere) => hemisphere == Hemisphere.South ? FalseNorthing : 0;
}
