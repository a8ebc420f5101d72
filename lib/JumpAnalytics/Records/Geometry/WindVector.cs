using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// A wind as the motion of the air: metres per second east and north, the way the air goes. The default value is calm.
/// </summary>
/// <param name="East">Metres per second, positive towards the east.</param>
/// <param name="North">Metres per second, positive towards the north.</param>
[TypeFormatterSource]
public readonly record struct WindVector(double East, double North)
{
    /// <summary>Metres per second.</summary>
    public double Speed => double.Hypot(East, North);

    /// <summary>In words, metres per second.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Speed:0.##} m/s{(From is { } from ? $" from {from}" : "")}");

    /// <summary>The direction the wind comes from; null in calm.</summary>
    public Bearing? From => Speed > 0 ? Bearing.FromRadians(Math.Atan2(-East, -North)) : null;

    /// <summary>The direction the air goes to; null in calm.</summary>
    public Bearing? To => Speed > 0 ? Bearing.FromRadians(Math.Atan2(East, North)) : null;

    /// <summary>A wind by its speed and the direction it comes from.</summary>
    /// <param name="speed">Metres per second.</param>
    /// <param name="from">Where it comes from.</param>
    public static WindVector FromDirection(double speed, Bearing from)
    {
        var (sin, cos) = Math.SinCos(from.Radians);
        return new WindVector(-speed * sin, -speed * cos);
    }

    /// <summary>How far the air moves in a time.</summary>
    /// <param name="seconds">Seconds.</param>
    /// <returns>Metres east and north.</returns>
    public LocalVector Over(double seconds) => new(East * seconds, North * seconds);

    /// <summary>Sum of two motions.</summary>
    public static WindVector operator +(WindVector a, WindVector b) => new(a.East + b.East, a.North + b.North);

    /// <summary>Motion of <paramref name="a"/> as seen from <paramref name="b"/>.</summary>
    public static WindVector operator -(WindVector a, WindVector b) => new(a.East - b.East, a.North - b.North);

    /// <summary>The motion scaled by a factor.</summary>
    public static WindVector operator *(double factor, WindVector a) => new(factor * a.East, factor * a.North);
}
