namespace JumpAnalytics;

/// <summary>A geodetic datum that positions are accepted in. All of them are used as WGS 84.</summary>
/// <remarks>
/// A position without its datum is not a place: fire reports ask for it beside the coordinates (DI-1202, item 9k). NAD 83
/// is taken as WGS 84, as the NWCG geospatial standards (PMS 437) do; the two differ by about 2 m
/// (Doyle, National Geodetic Survey, 2000), the same for spot and landing, so a miss between two NAD 83 positions keeps
/// its size. NAD 27 is up to 1.3" of latitude and 4.4" of longitude away (Ericksen 1994) and is refused.
/// </remarks>
[TypeFormatterSource]
public sealed record Datum
{
    private const string Accepted = "Accepted are WGS 84 and NAD 83.";

    private Datum(string name, string? note) => (Name, Note) = (name, note);

    /// <summary>The datum of GPS and of this library.</summary>
    public static Datum Wgs84 { get; } = new("WGS 84", null);

    /// <summary>The datum of maps and surveys in North America since the 1980s.</summary>
    public static Datum Nad83 { get; } =
        new("NAD 83", "NAD 83 is taken as WGS 84; they differ by about 2 m. "
            + "Don't mix the two within a season that is analysed to the metre.");

    /// <summary>Its usual name.</summary>
    public string Name { get; }

    /// <summary>What a report should say about using it as WGS 84; null for WGS 84 itself.</summary>
    public string? Note { get; }

    /// <summary>Reads the name of a datum.</summary>
    /// <param name="text">
    /// For instance <c>WGS84</c>, <c>WGS 84</c> or <c>NAD-83 (2011)</c>; blanks, hyphens and capitals do not matter.
    /// </param>
    /// <returns>The datum, or the reason why its positions can't be used and what to try.</returns>
    public static Fit<Datum> Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Refused($"The datum is blank. {Accepted}");

        return string.Concat(text.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit)) switch
        {
            "WGS84" or "WGS1984" or "EPSG4326" => Fit<Datum>.Made(Wgs84),
            "NAD83" or "NAD1983" or "NAD832011" or "NAD83CSRS" or "EPSG4269" => Fit<Datum>.Made(Nad83),
            "NAD27" or "NAD1927" or "EPSG4267" => Refused(
                "NAD 27 positions are up to about 96 m from WGS 84 (4.4\" of longitude at 45 N in the western states; Ericksen 1994). "
                + $"Convert them with NADCON, or set the receiver to WGS 84. {Accepted}"),
            _ => Refused($"The datum {PositionText.Shown(text)} is not known. {Accepted}"),
        };
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    private static Fit<Datum> Refused(string reason) => Fit<Datum>.Refused(reason);
}
