namespace JumpAnalytics;

/// <summary>Where an unsteered canopy goes.</summary>
[TypeFormatterSource]
public sealed record DriftPath
{
    /// <summary>Metres east and north from exit to landing.</summary>
    public required LocalVector Drift { get; init; }

    /// <summary>
    /// Covariance of its error by the winds' errors and the spread of descent rates, m²; null when the winds' errors are not known.
    /// </summary>
    public PlaneCovariance? Error { get; init; }

    /// <summary>Seconds from exit to landing.</summary>
    public required double Seconds { get; init; }

    /// <summary>The layers, from the ground up.</summary>
    public required IReadOnlyList<DescentLayer> Layers { get; init; }

    /// <summary>Seconds since exit, metres from the exit point and height above ground, from the exit down.</summary>
    public required IReadOnlyList<TrackPoint> Path { get; init; }
}
