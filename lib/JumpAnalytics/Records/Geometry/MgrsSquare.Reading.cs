using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

public sealed partial record MgrsSquare
{
    // Degrees by which a square must reach into its zone and band: the rounding of the projection, not a distance.
    private const double Touch = 1e-9;

    /// <summary>Reads an MGRS or USNG text: zone, band, two letters of the 100 km square, digits.</summary>
    /// <param name="text">
    /// For instance <c>11TNM5326799845</c> or <c>11t nm 532 998</c>; blanks between the parts and capitals do not matter.
    /// </param>
    /// <returns>The square, or the reason with what was expected and what to try.</returns>
    public static Fit<MgrsSquare> Read(string? text)
    {
        var shown = PositionText.Shown(text);
        var capitals = text is null || PositionText.IsTooLong(text) ? "" : PositionText.Capitals(text);
        var match = Shape().Match(capitals);
        if (!match.Success)
            return Refused(ShapeReason(shown, capitals));

        var zone = int.Parse(match.Groups["zone"].ValueSpan, CultureInfo.InvariantCulture);
        var band = match.Groups["band"].ValueSpan[0];
        var column = match.Groups["column"].ValueSpan[0];
        var row = match.Groups["row"].ValueSpan[0];
        var groups = match.Groups["digits"].Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

        var reason = ZoneReason(zone, band) ?? LetterReason(zone, column, row) ?? DigitsReason(groups);
        if (reason is not null)
            return Refused($"{shown}: {reason}");

        var digits = string.Concat(groups);
        var half = digits.Length / 2;
        return Square(zone, band, column, row, Metres(digits[..half]), Metres(digits[half..]), half) is { } square
            ? square.Reaches(GridZone.Longitudes(zone, band)!.Value) ? Fit<MgrsSquare>.Made(square) : Refused(OutsideZone(shown, square))
            : Refused($"{shown}: there is no square {column}{row} with these digits in {zone}{band}, {Range(band)}. "
                + "One of the letters is wrong, or a digit.");
    }

    [GeneratedRegex(@"^(?<zone>[0-9]{1,2}) ?(?<band>[A-Z]) ?(?<column>[A-Z]) ?(?<row>[A-Z])(?<digits>[0-9 ]*)$",
        RegexOptions.CultureInvariant)]
    internal static partial Regex Shape();

    // The row letters repeat every 2000 km; a band is under 1000 km high, so at most one repetition lies in it.
    private static MgrsSquare? Square(int zone, char band, char column, char row, double east, double north, int digits)
    {
        var hemisphere = GridZone.IsNorthern(band) ? Hemisphere.North : Hemisphere.South;
        var easting = Block * (ColumnLetters.IndexOf(column) % 8 + 1) + east;
        var first = (RowLetters.IndexOf(row) - RowShift(zone) + RowLetters.Length) % RowLetters.Length * Block + north;
        for (var northing = first; northing < 10_000_000; northing += RowLetters.Length * Block)
        {
            if (!UtmPosition.IsNorthing(hemisphere, northing + SizeOf(digits)) || !UtmPosition.IsNorthing(hemisphere, northing))
                continue;

            var square = new MgrsSquare(band, new UtmPosition(zone, hemisphere, easting, northing), digits);
            var latitudes = square.Corners().Select(corner => corner.Latitude).ToList();
            var (south, top) = GridZone.Latitudes(band);
            if (latitudes.Max() > south - Touch && latitudes.Min() < top + Touch)
                return square;
        }

        return null;
    }

    private bool Reaches((double West, double East) zone)
    {
        var longitudes = Corners().Select(corner => corner.Longitude).ToList();
        return longitudes.Max() > zone.West - Touch && longitudes.Min() < zone.East + Touch;
    }

    // No square crosses the central meridian or the equator, so its extremes of latitude and longitude are at its corners.
    private IEnumerable<(double Latitude, double Longitude)> Corners()
    {
        foreach (var east in (double[])[0, GridSize])
        {
            foreach (var north in (double[])[0, GridSize])
            {
                yield return new UtmPosition(
                    SouthWest.Zone, SouthWest.Hemisphere, SouthWest.Easting + east, SouthWest.Northing + north).FromMeridian();
            }
        }
    }

    private static string ShapeReason(string shown, string capitals)
    {
        const string Expected = "MGRS is zone, band letter, two letters of the square and an even count of digits, "
            + "for instance 11T NM 53267 99845.";
        if (PolarShape().IsMatch(capitals))
            return $"{shown} is in the polar grid (UPS), which is not read. Write latitude and longitude.";
        return NoZoneShape().IsMatch(capitals)
            ? $"{shown} has no grid zone, so it names many places. Put the zone and band in front, for instance 11T."
            : $"{shown} is not an MGRS or USNG position. {Expected}";
    }

    [GeneratedRegex(@"^[ABYZ] ?[A-Z] ?[A-Z] ?[0-9 ]*$", RegexOptions.CultureInvariant)]
    private static partial Regex PolarShape();

    [GeneratedRegex(@"^[A-Z]? ?[A-Z] ?[A-Z] ?[0-9]{2}[0-9 ]*$", RegexOptions.CultureInvariant)]
    private static partial Regex NoZoneShape();

    internal static string? ZoneReason(int zone, char band)
    {
        if (zone is < 1 or > 60)
            return $"zone {zone} does not exist; zones run from 1 to 60.";
        if (band is 'A' or 'B' or 'Y' or 'Z')
            return $"band {band} is in the polar grid (UPS), which is not read. Write latitude and longitude.";
        if (!GridZone.IsBand(band))
            return $"band {band} does not exist; bands are C to X without I and O, which look like 1 and 0.";
        return GridZone.Longitudes(zone, band) is null
            ? $"zone {zone}X does not exist; near Svalbard the zones are 31X, 33X, 35X and 37X."
            : null;
    }

    private static string? LetterReason(int zone, char column, char row)
    {
        var allowed = ColumnLetters.Substring((zone - 1) % 3 * 8, 8);
        if (!allowed.Contains(column))
            return $"column {column} does not occur in zone {zone}; its columns are {allowed[0]} to {allowed[^1]} without I and O. "
                + "The zone or the first letter of the square is wrong.";
        return RowLetters.Contains(row)
            ? null
            : $"row {row} does not exist; rows are A to V without I and O. The second letter of the square is wrong.";
    }

    private static string? DigitsReason(string[] groups)
    {
        var count = groups.Sum(group => group.Length);
        if (count % 2 == 1)
            return $"{count} digits after the letters; easting and northing have equally many. One is missing or too many.";
        if (groups.Length > 2 || groups.Length == 2 && groups[0].Length != groups[1].Length)
            return $"the digits stand in groups of {string.Join(", ", groups.Select(group => group.Length))}; "
                + "write them as one group or two equal ones.";
        return count > 2 * MaxDigits ? $"{count} digits after the letters; at most {2 * MaxDigits}, a square of 1 m." : null;
    }

    private static string OutsideZone(string shown, MgrsSquare square)
    {
        var instead = Holding(square.Centre, square.Digits) is { Value: { } other } ? $" That place is {other.ToSpacedText()}." : "";
        return $"{shown}: the square lies outside zone {square.SouthWest.Zone}{square.Band}.{instead} Check the zone and "
            + "the first letter of the square.";
    }

    private static string Range(char band)
    {
        var (south, north) = GridZone.Latitudes(band);
        return $"which reaches from {Math.Abs(south)} to {Math.Abs(north)} {(south >= 0 ? 'N' : 'S')}";
    }

    // The digits are cut off at the square's size: "532" is 53 200 m.
    private static double Metres(string digits) =>
        digits.Length == 0 ? 0 : int.Parse(digits, CultureInfo.InvariantCulture) * SizeOf(digits.Length);

    private static Fit<MgrsSquare> Refused(string reason) => Fit<MgrsSquare>.Refused(reason);
}
