using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// What is known of one landing's distance from the spot: that it lies between two distances, which are equal where it was measured.
/// </summary>
[TypeFormatterSource]
public readonly record struct DistanceReading
{
    private DistanceReading(double low, double high) => (Low, High) = (low, high);

    /// <summary>Metres from the spot that the landing is no nearer than; 0 where nothing is known.</summary>
    public double Low { get; }

    /// <summary>Metres from the spot that the landing is no farther than; infinite where nothing is known.</summary>
    public double High { get; }

    /// <summary>Whether the distance itself is known.</summary>
    public bool IsExact => Low == High;

    /// <summary>A measured distance.</summary>
    /// <param name="distance">Metres, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or no finite number.</exception>
    public static DistanceReading Exact(double distance) => new(Finite(distance, nameof(distance)), distance);

    /// <summary>A landing known only as farther than a distance.</summary>
    /// <param name="distance">Metres, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or no finite number.</exception>
    public static DistanceReading Beyond(double distance) => new(Finite(distance, nameof(distance)), double.PositiveInfinity);

    /// <summary>A landing known only as no farther than a distance.</summary>
    /// <param name="distance">Metres, more than zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is zero, negative or no finite number.</exception>
    public static DistanceReading Within(double distance) => Between(0, distance);

    /// <summary>A landing between two distances: a paced distance with what the pacing may be off by, or a ring.</summary>
    /// <param name="low">Metres, zero or more.</param>
    /// <param name="high">Metres, more than <paramref name="low"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A distance is negative or no finite number, or the second is not the larger one.</exception>
    public static DistanceReading Between(double low, double high) => Finite(low, nameof(low)) < Finite(high, nameof(high))
        ? new(low, high)
        : throw new ArgumentOutOfRangeException(nameof(high), high, $"The farther distance must be larger than the nearer one, {low.ToString("R", CultureInfo.InvariantCulture)} m.");

    private static double Finite(double distance, string name) => distance >= 0 && double.IsFinite(distance)
        ? distance
        : throw new ArgumentOutOfRangeException(name, distance, "A distance from the spot is a finite number of metres, zero or more.");
}
