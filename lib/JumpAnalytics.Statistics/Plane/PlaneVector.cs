using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>
/// A point or displacement in the plane, in a frame of the caller's: metres along its first axis and metres across it. The
/// default value is the origin.
/// </summary>
/// <param name="Along">Metres along the first axis.</param>
/// <param name="Across">Metres along the second axis, 90° clockwise from the first: positive to the right of it.</param>
[TypeFormatterSource]
public readonly record struct PlaneVector(double Along, double Across)
{
    /// <summary>Length in metres.</summary>
    public double Length => double.Hypot(Along, Across);

    /// <summary>In words, metres.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Along:0.#} m along, {Across:0.#} m to the right");
}
