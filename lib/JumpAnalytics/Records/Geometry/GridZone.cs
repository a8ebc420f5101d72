namespace JumpAnalytics;

/// <summary>The zones and latitude bands of UTM: which there are, where they lie, and which one a place belongs to.</summary>
/// <remarks>
/// Zones of 6° from 180° W; bands of 8° from 80° S, the last (X) of 12° to 84° N; 32V widened over 31V; 31X, 33X, 35X and
/// 37X widened over 32X, 34X and 36X, which do not exist. Source: NGA.SIG.0012 (2014), The Universal Grids and the
/// Transverse Mercator and Polar Stereographic Map Projections; DMA TM 8358.1 (1990).
/// </remarks>
internal static class GridZone
{
    public const double South = -80;
    public const double North = 84;

    private const string Bands = "CDEFGHJKLMNPQRSTUVWX";

    /// <summary>Zone 1 to 60 and band letter of a place; null outside 80° S to 84° N. Borders belong to the east and the north.</summary>
    public static (int Zone, char Band)? Of(GeoPosition position)
    {
        var (latitude, longitude) = (position.Latitude, position.Longitude);
        if (latitude is < South or > North)
            return null;

        var band = Bands[Math.Min(Cell(latitude, South, 8), Bands.Length - 1)];
        var zone = Cell(longitude, -180, 6) % 60 + 1;
        return (zone, band) switch
        {
            (31, 'V') when longitude >= 3 => (32, band),
            (32, 'X') => (longitude < 9 ? 31 : 33, band),
            (34, 'X') => (longitude < 21 ? 33 : 35, band),
            (36, 'X') => (longitude < 33 ? 35 : 37, band),
            _ => (zone, band),
        };
    }

    /// <summary>Degrees east of the prime meridian of the middle of a zone, which the exceptions do not move.</summary>
    public static double CentralMeridian(int zone) => 6 * zone - 183;

    /// <summary>Whether a letter names one of the 20 bands; I and O do not, and A, B, Y and Z are polar.</summary>
    public static bool IsBand(char letter) => Bands.Contains(letter);

    /// <summary>Whether a band lies north of the equator.</summary>
    public static bool IsNorthern(char band) => band >= 'N';

    /// <summary>South and north limit of a band, degrees.</summary>
    public static (double South, double North) Latitudes(char band)
    {
        var south = South + 8 * Bands.IndexOf(band);
        return (south, band == 'X' ? North : south + 8);
    }

    /// <summary>West and east limit of a zone in a band, degrees from its central meridian; null for 32X, 34X and 36X.</summary>
    public static (double West, double East)? Longitudes(int zone, char band) => (zone, band) switch
    {
        (31, 'V') => (-3, 0),
        (32, 'V') => (-6, 3),
        (31, 'X') => (-3, 6),
        (33 or 35, 'X') => (-6, 6),
        (37, 'X') => (-6, 3),
        (32 or 34 or 36, 'X') => null,
        _ => (-3, 3),
    };

    // A value just short of a border may be rounded onto it by the subtraction.
    private static int Cell(double value, double start, double size)
    {
        var cell = (int)((value - start) / size);
        return value < start + size * cell ? cell - 1 : cell;
    }
}
