using System.Globalization;

namespace JumpAnalytics;

/// <summary>A square of the military grid (MGRS), which on WGS 84 or NAD 83 is also the US National Grid (USNG).</summary>
/// <remarks>
/// <para>
/// An MGRS text names a square, not a point: its digits are cut off, never rounded, so the place lies anywhere up to
/// <see cref="GridSize"/> to the east and to the north of the south-west corner. The position given for it is the
/// <see cref="Centre"/>: taking the corner would pull every landing half a square to the south-west, 50 m on a 100 m grid.
/// A place read from it is uncertain by half of <see cref="GridSize"/> either way, a standard deviation of
/// GridSize/√12 along each axis.
/// </para>
/// <para>
/// Lettering "AA" of WGS 84; source: NGA.SIG.0012 (2014), DMA TM 8358.1 (1990), FGDC-STD-011-2001. A square at the edge of
/// a zone or band may reach beyond it, its centre too; one that lies wholly beyond is refused.
/// </para>
/// </remarks>
[TypeFormatterSource]
public sealed partial record MgrsSquare
{
    private const int MaxDigits = 5;
    private const double Block = 100_000;

    private const string ColumnLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    private const string RowLetters = "ABCDEFGHJKLMNPQRSTUV";

    private MgrsSquare(char band, UtmPosition southWest, int digits) =>
        (Band, SouthWest, Digits) = (band, southWest, digits);

    /// <summary>Letter of the latitude band, C to X without I and O.</summary>
    public char Band { get; }

    /// <summary>The south-west corner.</summary>
    public UtmPosition SouthWest { get; }

    /// <summary>Digits of easting and of northing each, 0 to 5.</summary>
    public int Digits { get; }

    /// <summary>Length of a side in metres of the grid: 100 000 for no digits, 1 for five.</summary>
    public double GridSize => SizeOf(Digits);

    /// <summary>The middle of the square.</summary>
    public GeoPosition Centre => new UtmPosition(
        SouthWest.Zone,
        SouthWest.Hemisphere,
        SouthWest.Easting + GridSize / 2,
        SouthWest.Northing + GridSize / 2).ToGeo();

    /// <summary>The square that holds a place.</summary>
    /// <param name="position">A place between 80° S and 84° N.</param>
    /// <param name="digits">Digits of easting and of northing each: 5 for a square of 1 m, 0 for one of 100 km.</param>
    /// <returns>The square, or the reason why there is none.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The number of digits is not from 0 to 5.</exception>
    public static Fit<MgrsSquare> Holding(GeoPosition position, int digits = MaxDigits)
    {
        Guard.Within(digits, 0, MaxDigits);
        if (GridZone.Of(position) is not var (_, band) || UtmPosition.From(position) is not { Value: { } utm })
            return Fit<MgrsSquare>.Refused(UtmPosition.Polar(position.Latitude));

        // A place within a rounding south of the equator has the northing of the equator, which is the north's.
        var size = SizeOf(digits);
        var northing = utm.Hemisphere == Hemisphere.South ? Math.Min(utm.Northing, 10_000_000 - size) : utm.Northing;
        return Fit<MgrsSquare>.Made(new MgrsSquare(band, Corner(utm.Zone, utm.Hemisphere, utm.Easting, northing, size), digits));
    }

    /// <summary>The text with blanks between its parts, as USNG is printed: <c>11T NM 53267 99845</c>.</summary>
    public string ToSpacedText() => string.Join(' ', Parts().Where(part => part.Length > 0));

    /// <summary>The text without blanks: <c>11TNM5326799845</c>.</summary>
    public override string ToString() => string.Concat(Parts());

    private string[] Parts()
    {
        var (easting, northing) = (SouthWest.Easting, SouthWest.Northing);
        return
        [
            SouthWest.Zone.ToString("00", CultureInfo.InvariantCulture) + Band,
            string.Concat(ColumnLetter(SouthWest.Zone, (int)(easting / Block)), RowLetter(SouthWest.Zone, (int)(northing / Block))),
            DigitsOf(easting),
            DigitsOf(northing),
        ];
    }

    private string DigitsOf(double metres) => Digits == 0
        ? ""
        : Math.Round(metres % Block / GridSize).ToString(new string('0', Digits), CultureInfo.InvariantCulture);

    private static double SizeOf(int digits) => Math.Round(Block / Math.Pow(10, digits));

    private static UtmPosition Corner(int zone, Hemisphere hemisphere, double easting, double northing, double size) =>
        new(zone, hemisphere, Math.Floor(easting / size) * size, Math.Floor(northing / size) * size);

    // ColumnLetters: three sets of eight letters, by zone, from easting 100 km. RowLetters: twenty letters round and round, in even
    // zones five letters on.
    private static char ColumnLetter(int zone, int block) => ColumnLetters[(zone - 1) % 3 * 8 + block - 1];

    private static char RowLetter(int zone, int block) => RowLetters[(block + RowShift(zone)) % RowLetters.Length];

    private static int RowShift(int zone) => zone % 2 == 0 ? 5 : 0;
}
