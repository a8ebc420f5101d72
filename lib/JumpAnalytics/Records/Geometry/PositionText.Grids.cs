using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

public static partial class PositionText
{
    private const string UtmExpected =
        "UTM is zone, band or hemisphere, easting, northing in metres, no commas within the numbers: 11T 500000 4649776.";

    /// <summary>Capitals, and one blank for every run of blanks, none at the ends.</summary>
    internal static string Capitals(string text) =>
        string.Join(' ', text.ToUpperInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    // N, S, E and W alone may be hemispheres.
    private static bool IsMgrs(string capitals) =>
        MgrsSquare.Shape().IsMatch(capitals) || LettersThenDigits().IsMatch(capitals);

    private static Fit<PositionReading> FromMgrs(string text)
    {
        var read = MgrsSquare.Read(text);
        return read.Value is { } square
            ? Fit<PositionReading>.Made(new PositionReading(square.Centre, PositionForm.Mgrs, square.GridSize))
            : Fit<PositionReading>.Refused(read.Reason!);
    }

    [GeneratedRegex("^(?!UTM)(?=.*[A-DF-MO-RT-VX-Z])[A-Z]{2,3} ?[0-9]{2,}( ?[0-9]+)?$", RegexOptions.CultureInvariant)]
    private static partial Regex LettersThenDigits();

    // Zone, letter or word, then two numbers: each after its label, or each before it, or without labels.
    [GeneratedRegex(
        @"^(UTM ?:? ?)?(ZONE ?)?(?<zone>[0-9]{1,2}) ?(?<letter>NORTH|SOUTH|[A-Z])?( ?[,;:/] ?| |(?<=[A-Z]))" +
        @"((?<label1>[EN]) ?(?<first>[0-9]+(\.[0-9]+)?)( ?M)?( ?[,;/] ?| )(?<label2>[EN]) ?(?<second>[0-9]+(\.[0-9]+)?)( ?M)?" +
        @"|(?<first>[0-9]+(\.[0-9]+)?)( ?M)?( ?(?<label1>[EN]))?( ?[,;/] ?| )(?<second>[0-9]+(\.[0-9]+)?)( ?M)?( ?(?<label2>[EN]))?)$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex UtmShape();

    // What else gives UTM away: its name, a zone with a band, two numbers of hundreds of kilometres.
    [GeneratedRegex(
        @"^UTM\b|^(ZONE ?)?[0-9]{1,2} ?[CDFGHJ-MPQRT-VX] ?[0-9EMN,. ]+$" +
        @"|(^|[^0-9.])[0-9]{6,7}(\.[0-9]+)?( ?M)?( ?E)?( ?[,;/] ?| )[0-9]{6,7}(\.[0-9]+)?( ?M)?( ?N)?( |$)",
        RegexOptions.CultureInvariant)]
    private static partial Regex UtmLike();

    // Null when the text is not UTM at all.
    private static Fit<PositionReading>? FromUtm(string text, string capitals)
    {
        var match = UtmShape().Match(capitals);
        var (first, second) = (match.Groups["first"].Value, match.Groups["second"].Value);
        if (!match.Success || Math.Max(WholeDigits(first), WholeDigits(second)) < 6)
            return UtmLike().IsMatch(capitals)
                ? Refused(text, $"this looks like UTM but lacks a part or has one too many. {UtmExpected}") : null;

        var (label1, label2) = (match.Groups["label1"].Value, match.Groups["label2"].Value);
        if (label1 == label2 ? label1.Length > 0 : label1.Length != label2.Length)
            return Refused(text, $"easting and northing are not labelled one E and one N. {UtmExpected}");

        var (easting, northing) = label1 == "N" ? (second, first) : (first, second);
        var zone = int.Parse(match.Groups["zone"].ValueSpan, CultureInfo.InvariantCulture);
        var found = UtmPlace(zone, match.Groups["letter"].Value, Metres(easting), Metres(northing));
        return found.Value is { } place
            ? Fit<PositionReading>.Made(new PositionReading(place.ToGeo(), PositionForm.Utm, Math.Max(StepOf(easting), StepOf(northing))))
            : Refused(text, found.Reason!);
    }

    // N after the zone is band N or the northern half: band N lies in the northern half, so both are the same place. S is
    // band S, 32 to 40 N, or the southern half: a northing that can be both is refused, with a degree to spare for a
    // letter carried over from a place near by.
    private static Fit<UtmPosition> UtmPlace(int zone, string letter, double easting, double northing)
    {
        if (letter.Length == 0)
            return Bad($"the zone has no band or hemisphere. {UtmExpected}");
        if (GridReason(zone, letter) is { } reason)
            return Bad(reason);
        if (!UtmPosition.IsEasting(easting))
            return Bad($"easting {easting.ToString("0.###", CultureInfo.InvariantCulture)} m is not {UtmPosition.EastingRange}. "
                + "Easting comes first; write E and N after the numbers if it does not.");

        var half = letter is "S" or "SOUTH" || letter.Length == 1 && !GridZone.IsNorthern(letter[0]) ? Hemisphere.South : Hemisphere.North;
        if (letter == "S" && InBand(zone, 'S', easting, northing, margin: 1))
            return Bad("S is band S (32 to 40 N) or the southern half of the earth, and the northing fits both. "
                + $"Write {zone} north or {zone} south, or latitude and longitude.");
        if (!UtmPosition.IsNorthing(half, northing))
            return Bad($"northing {northing.ToString("0.###", CultureInfo.InvariantCulture)} m is not {UtmPosition.NorthingRange(half)}.");

        var place = new UtmPosition(zone, half, easting, northing);
        var latitude = place.FromMeridian().Latitude;
        if (latitude is < GridZone.South - Border or > GridZone.North + Border)
            return Bad(UtmPosition.Polar(latitude));
        if (letter.Length > 1 || letter is "N" or "S" || InBand(zone, letter[0], easting, northing))
            return Fit<UtmPosition>.Made(place);

        var (south, north) = GridZone.Latitudes(letter[0]);
        return Bad(string.Create(CultureInfo.InvariantCulture, $"band {letter} reaches from latitude {south} to {north}, "
            + $"but the northing lies at {latitude:0.##}. The band or the northing is wrong; "
            + $"if the letter is no band, write {zone} north or {zone} south."));
    }

    private static string? GridReason(int zone, string letter) =>
        letter.Length > 1 || letter is "N" or "S"
            ? MgrsSquare.ZoneReason(zone, 'N')
            : MgrsSquare.ZoneReason(zone, letter[0]);

    // A metre, in degrees: the band of a place on its border may be written either way.
    private const double Border = 1e-5;

    private static bool InBand(int zone, char band, double easting, double northing, double margin = Border)
    {
        var half = GridZone.IsNorthern(band) ? Hemisphere.North : Hemisphere.South;
        if (!UtmPosition.IsNorthing(half, northing))
            return false;
        var latitude = new UtmPosition(zone, half, easting, northing).FromMeridian().Latitude;
        var (south, north) = GridZone.Latitudes(band);
        return latitude >= south - margin && latitude <= north + margin;
    }

    private static int WholeDigits(string number) => number.TakeWhile(c => c != '.').SkipWhile(c => c == '0').Count();

    private static double Metres(string number) => double.Parse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    private static double StepOf(string number) => number.IndexOf('.') is >= 0 and var point ? Math.Pow(10, point + 1 - number.Length) : 1;

    private static Fit<UtmPosition> Bad(string reason) => Fit<UtmPosition>.Refused(reason);
}
