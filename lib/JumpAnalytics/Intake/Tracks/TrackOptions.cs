namespace JumpAnalytics;

/// <summary>What a track is taken to be possible of. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record TrackOptions
{
    /// <summary>
    /// The hardest pull a recorder on a jumper takes for longer than a moment, m/s²; 20, twice gravity, unless said otherwise. A place that
    /// needs more to be reached and left is a spike.
    /// </summary>
    public double HardestPull { get; init; } = 20;

    /// <summary>
    /// Seconds without a point that count as a gap; 4 unless said otherwise, and never less than three times the usual step.
    /// </summary>
    public double Gap { get; init; } = 4;

    /// <summary>Metres per second downward from which it is a descent; 2 unless said otherwise.</summary>
    public double LeastDescent { get; init; } = 2;

    /// <summary>
    /// Metres per second over the ground that only the aircraft flies; 28 (54 kt) unless said otherwise: canopies fly less
    /// than half of it, wind included.
    /// </summary>
    public double AircraftSpeed { get; init; } = 28;
}
