using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// A displacement, or a place relative to the spot, in the tangent plane at the spot: metres east and metres north.
/// The default value is no displacement (the spot itself).
/// </summary>
/// <param name="East">Metres, positive to the east.</param>
/// <param name="North">Metres, positive to the north.</param>
[TypeFormatterSource]
public readonly record struct LocalVector(double East, double North)
{
    /// <summary>Length in metres.</summary>
    public double Length => double.Hypot(East, North);

    /// <summary>In words, metres.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{East:0.#} m east, {North:0.#} m north");

    /// <summary>The direction the vector points to, or null for a vector without length.</summary>
    public Bearing? Direction => Length > 0 ? Bearing.FromRadians(Math.Atan2(East, North)) : null;

    /// <summary>The vector of a given length that points to a bearing.</summary>
    /// <param name="distance">Metres.</param>
    /// <param name="to">The direction it points to.</param>
    public static LocalVector FromPolar(double distance, Bearing to)
    {
        var (sin, cos) = Math.SinCos(to.Radians);
        return new LocalVector(distance * sin, distance * cos);
    }

    /// <summary>Sum of two displacements.</summary>
    public static LocalVector operator +(LocalVector a, LocalVector b) => new(a.East + b.East, a.North + b.North);

    /// <summary>Displacement from <paramref name="b"/> to <paramref name="a"/>.</summary>
    public static LocalVector operator -(LocalVector a, LocalVector b) => new(a.East - b.East, a.North - b.North);

    /// <summary>The displacement back.</summary>
    public static LocalVector operator -(LocalVector a) => new(-a.East, -a.North);

    /// <summary>The displacement scaled by a factor.</summary>
    public static LocalVector operator *(double factor, LocalVector a) => new(factor * a.East, factor * a.North);
}
