using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// A miss seen along the forecast drift: metres downwind (+ = long, beyond the spot in the direction of the drift)
/// and metres to the right (+ = right of that direction). The default value is a landing on the spot.
/// </summary>
/// <param name="Downwind">Metres along the forecast drift, positive long, negative short.</param>
/// <param name="Right">Metres at 90° clockwise from the forecast drift, positive right, negative left.</param>
[TypeFormatterSource]
public readonly record struct DownwindVector(double Downwind, double Right)
{
    /// <summary>Length in metres; the same as that of the east/north vector it came from.</summary>
    public double Length => double.Hypot(Downwind, Right);

    /// <summary>In words, metres.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Downwind:0.#} m long, {Right:0.#} m right");
}

/// <summary>The axes of one drop: axis 1 points where its forecast drift goes, axis 2 is 90° to the right of it.</summary>
[TypeFormatterSource]
public sealed class DownwindFrame
{
    private readonly double _east;
    private readonly double _north;

    private DownwindFrame(double east, double north) => (_east, _north) = (east, north);

    /// <summary>The frame of a forecast drift, or null when the drift has no length and so no direction.</summary>
    /// <param name="forecastDrift">Where the forecast says an unsteered canopy goes, from exit to landing, metres.</param>
    public static DownwindFrame? Along(LocalVector forecastDrift)
    {
        var length = forecastDrift.Length;
        return length > 0 && double.IsFinite(length)
            ? new DownwindFrame(forecastDrift.East / length, forecastDrift.North / length)
            : null;
    }

    /// <summary>Turns an east/north displacement into downwind/right.</summary>
    /// <param name="v">Metres east and north.</param>
    public DownwindVector ToDownwind(LocalVector v) =>
        new(v.East * _east + v.North * _north, v.East * _north - v.North * _east);

    /// <summary>Turns a downwind/right displacement back into east/north.</summary>
    /// <param name="v">Metres downwind and right.</param>
    public LocalVector ToLocal(DownwindVector v) =>
        new(v.Downwind * _east + v.Right * _north, v.Downwind * _north - v.Right * _east);
}
