using System.Globalization;

namespace JumpAnalytics;

/// <summary>Distances, winds and sides in the words of a debrief.</summary>
internal static class DebriefWords
{
    /// <summary>A distance: <c>52 yd</c>.</summary>
    public static string Distance(double metres, AccuracyOptions options) =>
        $"{Whole(options.Units.Distance, metres)} {options.Units.Distance.Suffix}";

    /// <summary>A wind: <c>11 mph from 260° true</c>.</summary>
    public static string Wind(double speed, Bearing? from, AccuracyOptions options) =>
        $"{Rounding.Fixed(options.Units.Speed.FromSi(speed), 1)} {options.Units.Speed.Suffix}{(from is { } f ? $" from {True(f)}" : "")}";

    /// <summary>A vector by length and direction: <c>875 yd to 75° true</c>.</summary>
    public static string Vector(LocalVector v, AccuracyOptions options) =>
        Distance(v.Length, options) + (v.Direction is { } to ? $" to {True(to)}" : "");

    /// <summary>A difference along and across the drift: <c>52 yd short, 5 yd right</c>.</summary>
    public static string Sides(PlaneVector v, AccuracyOptions options) => Sides(v, "long", "short", options);

    /// <summary>A place seen from another: <c>52 yd upwind, 5 yd right</c>.</summary>
    public static string Places(PlaneVector v, AccuracyOptions options) => Sides(v, "downwind", "upwind", options);

    private static string Sides(PlaneVector v, string ahead, string behind, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        var parts = new List<string>();
        if (Whole(unit, v.Along) != "0") parts.Add($"{Whole(unit, Math.Abs(v.Along))} {unit.Suffix} {(v.Along > 0 ? ahead : behind)}");
        if (Whole(unit, v.Across) != "0") parts.Add($"{Whole(unit, Math.Abs(v.Across))} {unit.Suffix} {(v.Across > 0 ? "right" : "left")}");
        return parts.Count == 0 ? $"within half a {unit.Suffix}" : string.Join(", ", parts);
    }

    /// <summary>Passes and jumpers in words: <c>pass 1, jumper 2</c>.</summary>
    public static string Who(DebriefedPass pass, DebriefedJumper? jumper) =>
        jumper is null
            ? pass.Name : $"{pass.Name}, {(jumper.Landing.ExitOrder is { } order ? $"jumper {order}" : "a jumper without exit order")}";

    public static string True(Bearing bearing) =>
        string.Create(CultureInfo.InvariantCulture, $"{Math.Round(bearing.Degrees) % 360:0}° true");

    /// <summary>Whole units, or enough decimals where the unit is long.</summary>
    private static string Whole(MeasureUnit unit, double metres) =>
        Rounding.Fixed(unit.FromSi(metres), unit.Si > 100 ? 2 : unit.Si > 5 ? 1 : 0).TrimEnd('.');
}
