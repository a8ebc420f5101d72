namespace JumpAnalytics.Statistics;

/// <summary>
/// One point as an error distribution sees it. What implements this can be handed to every model in any number, as it is:
/// <c>BivariateT.FitTo(readings)</c>.
/// </summary>
public interface IPlaneReading
{
    /// <summary>The cluster it belongs to.</summary>
    string Cluster { get; }

    /// <summary>The point in the plane, metres; null when it is not known.</summary>
    PlaneVector? Place { get; }

    /// <summary>
    /// Metres from the origin, asked for where the place is not known: the point lies farther. Null when that is not known either.
    /// </summary>
    double? Beyond { get; }

    /// <summary>Standard deviation per axis of the measurement, metres; null when it was not recorded.</summary>
    double? MeasuredSd { get; }

    /// <summary>What points, clusters and the rest are called in texts.</summary>
    SampleNouns Nouns => SampleNouns.Default;
}

/// <summary>One point as an error distribution sees it.</summary>
/// <param name="Cluster">The cluster it belongs to.</param>
/// <param name="Place">The point in the plane, metres; null when only <paramref name="Beyond"/> is known.</param>
/// <param name="Beyond">Metres from the origin; the point lies farther and its place is unknown.</param>
/// <param name="MeasuredSd">Standard deviation per axis of the measurement, metres; null when it was not recorded.</param>
[TypeFormatterSource]
public sealed record PlaneReading(string Cluster, PlaneVector? Place, double? Beyond = null, double? MeasuredSd = null) : IPlaneReading;
