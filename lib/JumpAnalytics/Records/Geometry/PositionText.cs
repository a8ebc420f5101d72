namespace JumpAnalytics;

/// <summary>Reads positions as people write them: latitude and longitude in any usual form, UTM, MGRS and USNG.</summary>
/// <remarks>
/// <para>
/// Accepted: decimal degrees, degrees and minutes, degrees minutes seconds, with signs (° ' " and their typographic
/// kin), blanks, colons or hyphens between the numbers; a hemisphere letter before or after, or a plus or minus, none of
/// them meaning north and east. Comma, semicolon, slash or blank between latitude and longitude; latitude first unless
/// letters say otherwise. UTM as zone, band or hemisphere, easting, northing; N after the zone is the northern half, S is
/// refused where it may be band S or the southern half. Capitals do not matter. All on WGS 84.
/// </para>
/// <para>
/// What could mean two places is refused with what to write instead: 44 30.50 alone may be a latitude and a longitude or
/// degrees and minutes, and degrees and minutes taken for decimals are off by kilometres. Two halves in different forms,
/// or one with a letter and the other with neither letter nor sign, are refused too. A decimal comma is read only where a
/// semicolon or slash stands between latitude and longitude.
/// </para>
/// <para>No text makes a method throw.</para>
/// </remarks>
public static partial class PositionText
{
    private const int LongestText = 200;
    private const double MetresPerDegree = 60 * 1852.0;

    /// <summary>Reads a whole position.</summary>
    /// <param name="text">For instance <c>N 64 50.431' W 147 36.262'</c>, <c>44.50833, -116.25417</c> or <c>11T NM 53267 99845</c>.</param>
    /// <returns>The position, its form and its resolution in metres; or the reason with what was expected and what to try.</returns>
    public static Fit<PositionReading> Read(string? text)
    {
        if (Unusable(text) is { } reason)
            return Fit<PositionReading>.Refused(reason);

        var capitals = Capitals(text!);
        return IsMgrs(capitals) ? FromMgrs(text!) : FromUtm(text!, capitals) ?? FromAngles(text!);
    }

    /// <summary>Reads one latitude.</summary>
    /// <param name="text">
    /// For instance <c>44 30.500 N</c>, <c>44.50833</c> or <c>-33°51'30"</c>. Two numbers are degrees and minutes.
    /// </param>
    /// <returns>Degrees, positive north, the form and the step; or the reason with what was expected and what to try.</returns>
    public static Fit<CoordinateReading> ReadLatitude(string? text) => ReadCoordinate(text, latitude: true);

    /// <summary>Reads one longitude.</summary>
    /// <param name="text">
    /// For instance <c>116 15.250 W</c>, <c>-116.25417</c> or <c>W147°36'15.7"</c>. Two numbers are degrees and minutes.
    /// </param>
    /// <returns>Degrees, positive east, the form and the step; or the reason with what was expected and what to try.</returns>
    public static Fit<CoordinateReading> ReadLongitude(string? text) => ReadCoordinate(text, latitude: false);

    /// <summary>A text in quotes for a message, cut when it is long, without control characters.</summary>
    internal static string Shown(string? text)
    {
        const int Longest = 60;
        var line = string.Concat((text ?? "").Select(c => char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c)).Trim();
        return line.Length > Longest ? $"'{line[..Longest]}…'" : $"'{line}'";
    }

    internal static bool IsTooLong(string text) => text.Length > LongestText;

    private static Fit<CoordinateReading> ReadCoordinate(string? text, bool latitude)
    {
        var reason = Unusable(text);
        if (reason is null)
        {
            var tokens = AngleToken.Split(text!, out reason);
            var angle = reason is null ? AngleText.Read(tokens) : Fit<AngleText>.Refused(reason);
            reason = angle.Reason ?? AxisReason(angle.Value!, latitude) ?? angle.Value!.RangeReason(latitude);
            if (reason is null)
                return Fit<CoordinateReading>.Made(new CoordinateReading(angle.Value!.Degrees, angle.Value.Form, angle.Value.Step));
            reason = $"{Shown(text)}: {reason}";
        }

        return Fit<CoordinateReading>.Refused(reason);
    }

    private static string? AxisReason(AngleText angle, bool latitude)
    {
        if (angle.IsLatitude is not { } written || written == latitude)
            return null;
        return latitude
            ? $"{angle.Letter} is a longitude; a latitude has N or S."
            : $"{angle.Letter} is a latitude; a longitude has E or W.";
    }

    private static string? Unusable(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return "The text is blank. Write for instance 44 30.500 N, 116 15.250 W.";
        return IsTooLong(text) ? $"The text has {text.Length} characters; a position has at most {LongestText}. Leave remarks out." : null;
    }
}
