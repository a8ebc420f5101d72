namespace JumpAnalytics;

/// <summary>A figure of canopies or winds, published or from memory, to be used as an input and never as a limit.</summary>
/// <param name="Item">What it is of.</param>
/// <param name="Quantity">What it tells.</param>
/// <param name="Low">Least value, SI.</param>
/// <param name="High">Greatest value, SI; the same as the least for a single figure.</param>
/// <param name="Unit">SI unit.</param>
/// <param name="Source">Where it stands, or that it has no source.</param>
[TypeFormatterSource]
public sealed record CanopyFigure(string Item, string Quantity, double Low, double High, string Unit, string Source)
{
    private static readonly MeasureUnit _mph = MeasureUnit.Speed("mph"), _feet = MeasureUnit.Distance("ft");

    /// <summary>
    /// The figures that were found, each with its source, "from memory" or "no source". Those of one quantity conflict with one another in
    /// part, and both are kept.
    /// </summary>
    public static IReadOnlyList<CanopyFigure> Collected { get; } =
    [
        Speed("slotted round canopy", "forward speed", 9, 9, "fire aviation trade article, 3 May 2017"),
        Speed("slotted round canopy", "forward speed", 4, 4, "common practice, no source"),
        Speed("ram-air canopy", "forward speed", 20, 25, "fire aviation trade article, 3 May 2017"),
        Rate("round canopy", 14, 16, "from memory, not verified"),
        Rate("round canopy of 1940", 12, 12, "newspaper, 28 September 1940"),
        Rate("military round canopy, older", 22, 24, "encyclopedia"),
        Rate("military round canopy, newer", 19, 19, "an army office, quoted"),
        Rate("square canopy, full glide", 8.8, 11.7, "handbook of sport parachuting, chapter 6; conflicts with the next, which has turns in it"),
        Rate("any canopy", 16.7, 16.7, "training page of a sport association: 1,000 ft a minute"),
        Rate("round reserve canopy, by weight", 15, 22, "military field manual, quoted"),
        Rate("round canopy, as the military drift formula with K = 3.0 implies", 17.1, 17.1, "formula from memory, rate computed; conflicts with the rates of military round canopies above, whose drift it overstates by 28 to 40 %"),
        new("square canopy", "glide ratio", 3, 3, "", "handbook of sport parachuting, chapter 6"),
        new("static line at 90 knots", "throw", 45, 45, "m", "half the airspeed in knots as metres, from memory; conflicts with the next, which is of free fall"),
        new("free fall, exit below 120 knots", "throw", 150, 150, "m", "class notes of high exits"),
        new("round canopy", "time from 1,500 ft", 90, 90, "s", "common practice, no source"),
        new("any canopy", "time of a full turn", 6, 8, "s", "common practice, no source"),
        new("wind over open ground", "exponent of the power law", 1 / 7.0, 1 / 7.0, "", "AMS Glossary of Meteorology, seventh-root profile"),
        new("wind on an unstable afternoon", "exponent of the power law", 0.1, 0.1, "", "from memory"),
        new("wind over rough ground or in stable air", "exponent of the power law", 0.2, 0.3, "", "from memory"),
        new("wind over water", "roughness length", 0.0002, 0.0002, "m", "encyclopedia after Oke 1987"),
        new("wind over open ground", "roughness length, grass", 0.03, 0.03, "m", "encyclopedia after Oke 1987"),
        new("wind over crops", "roughness length", 0.1, 0.25, "m", "encyclopedia after Oke 1987"),
        new("wind over brush and forest", "roughness length", 0.5, 1, "m", "encyclopedia after Oke 1987"),
        new("wind over forest", "displacement height as a share of the tree height", 2 / 3.0, 2 / 3.0, "", "encyclopedia after Oke 1987"),
        new("wind under a dense stand", "share of the wind 20 ft above the vegetation", 0.1, 0.1, "", "mathematics course for firefighters, 8.2; 0.1 to 0.6 from memory"),
        new("gusts over open ground", "gust factor, 2 s over 10 minutes", 1.4, 1.4, "", "Durst, as quoted; falls with speed"),
    ];

    private static CanopyFigure Speed(string item, string quantity, double low, double high, string source) => new(item, quantity, _mph.ToSi(low), _mph.ToSi(high), "m/s", source);

    private static CanopyFigure Rate(string item, double low, double high, string source) => new(item, "descent rate", _feet.ToSi(low), _feet.ToSi(high), "m/s", source);
}
