using System.Collections.Frozen;
using UnitsNet.Units;

namespace JumpAnalytics;

/// <summary>A unit of distance, speed or time that a log column or a report may use, by its column suffix.</summary>
/// <remarks>Factors come from the UnitsNet library; the chain is 66 international feet (20.1168 m).</remarks>
[TypeFormatterSource]
public sealed class MeasureUnit
{
    private MeasureUnit(string suffix, string name, double si) => (Suffix, Name, Si) = (suffix, name, si);

    /// <summary>The column suffix, and the symbol in reports: <c>m ft yd ch nm mi km</c>, <c>mps mph kt</c>, <c>s min</c>.</summary>
    public string Suffix { get; }

    /// <summary>The unit's plain name.</summary>
    public string Name { get; }

    /// <summary>One of the unit in SI: metres, metres per second, or seconds.</summary>
    public double Si { get; }

    /// <summary>Units of distance by suffix.</summary>
    public static IReadOnlyDictionary<string, MeasureUnit> Distances { get; } = Set(
        new("m", "metres", Metres(LengthUnit.Meter)), new("ft", "feet", Metres(LengthUnit.Foot)),
        new("yd", "yards", Metres(LengthUnit.Yard)), new("ch", "chains", Metres(LengthUnit.Chain)),
        new("nm", "nautical miles", Metres(LengthUnit.NauticalMile)), new("mi", "miles", Metres(LengthUnit.Mile)),
        new("km", "kilometres", Metres(LengthUnit.Kilometer)));

    /// <summary>Units of speed by suffix.</summary>
    public static IReadOnlyDictionary<string, MeasureUnit> Speeds { get; } = Set(
        new("mps", "metres per second", MetresPerSecond(SpeedUnit.MeterPerSecond)),
        new("mph", "miles per hour", MetresPerSecond(SpeedUnit.MilePerHour)),
        new("kt", "knots", MetresPerSecond(SpeedUnit.Knot)));

    /// <summary>Feet per second, in which rates of descent are given beside feet and yards; no log column has it.</summary>
    internal static MeasureUnit FeetPerSecond { get; } = new("fps", "feet per second", MetresPerSecond(SpeedUnit.FootPerSecond));

    /// <summary>Units of time by suffix.</summary>
    public static IReadOnlyDictionary<string, MeasureUnit> Times { get; } = Set(new("s", "seconds", 1), new("min", "minutes", 60));

    /// <summary>The unit of distance with a suffix.</summary>
    /// <param name="suffix">One of the keys of <see cref="Distances"/>, in any case.</param>
    /// <exception cref="ArgumentException">There is no such unit; the message lists those there are.</exception>
    public static MeasureUnit Distance(string suffix) => Find(Distances, suffix, "distance");

    /// <summary>The unit of speed with a suffix.</summary>
    /// <param name="suffix">One of the keys of <see cref="Speeds"/>, in any case.</param>
    /// <exception cref="ArgumentException">There is no such unit; the message lists those there are.</exception>
    public static MeasureUnit Speed(string suffix) => Find(Speeds, suffix, "speed");

    /// <summary>From this unit to SI.</summary>
    /// <param name="value">A number of this unit.</param>
    public double ToSi(double value) => value * Si;

    /// <summary>From SI to this unit.</summary>
    /// <param name="si">Metres, metres per second or seconds.</param>
    public double FromSi(double si) => si / Si;

    /// <inheritdoc cref="FromSi(double)"/>
    internal double? FromSi(double? si) => si / Si;

    /// <inheritdoc/>
    public override string ToString() => Suffix;

    private static double Metres(LengthUnit unit) => UnitsNet.Length.From(1, unit).Meters;

    private static double MetresPerSecond(SpeedUnit unit) => UnitsNet.Speed.From(1, unit).MetersPerSecond;

    private static FrozenDictionary<string, MeasureUnit> Set(params MeasureUnit[] units) =>
        units.ToFrozenDictionary(u => u.Suffix, StringComparer.OrdinalIgnoreCase);

    private static MeasureUnit Find(IReadOnlyDictionary<string, MeasureUnit> units, string suffix, string kind) =>
        units.TryGetValue(suffix, out var unit)
            ? unit
            : throw new ArgumentException(
                $"'{suffix}' is not a unit of {kind}; use one of {string.Join(", ", units.Keys.Order(StringComparer.Ordinal))}.");
}

/// <summary>The units a report is written in. Everything inside the library is SI.</summary>
/// <param name="Distance">For misses, radii and drift.</param>
/// <param name="Speed">For winds.</param>
[TypeFormatterSource]
public sealed record ReportUnits(MeasureUnit Distance, MeasureUnit Speed)
{
    /// <summary>Yards and miles per hour, as on the fire line.</summary>
    public static ReportUnits FireLine { get; } = new(MeasureUnit.Distance("yd"), MeasureUnit.Speed("mph"));

    private bool IsMetric => Distance.Suffix is "m" or "km";

    /// <summary>For heights: metres beside metres and kilometres, else feet.</summary>
    public MeasureUnit Height => MeasureUnit.Distance(IsMetric ? "m" : "ft");

    /// <summary>For rates of descent: metres per second beside metres and kilometres, else feet per second.</summary>
    public MeasureUnit Descent => IsMetric ? MeasureUnit.Speed("mps") : MeasureUnit.FeetPerSecond;

    /// <summary>Makes report units from two suffixes.</summary>
    /// <param name="distance">For instance <c>ft</c>, <c>yd</c> or <c>m</c>.</param>
    /// <param name="speed">For instance <c>mph</c> or <c>kt</c>.</param>
    /// <exception cref="ArgumentException">A suffix is unknown.</exception>
    public static ReportUnits Of(string distance, string speed) => new(MeasureUnit.Distance(distance), MeasureUnit.Speed(speed));
}
