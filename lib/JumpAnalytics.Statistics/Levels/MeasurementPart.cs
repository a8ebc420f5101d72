using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>
/// How much of the scatter within clusters is the measurement's. The errors recorded with the points are independent of where the points
/// lie, so their mean square is part of the covariance within clusters, the same in every direction.
/// </summary>
/// <remarks>
/// The mean square weights a point by 1 − 1/n, n being the points of its cluster: this is its weight in the scatter within clusters.
/// Points without a recorded error are taken to be measured like the others; how many these are is stated, and when there are any the
/// shared part is not corrected.
/// </remarks>
[TypeFormatterSource]
public sealed record MeasurementPart
{
    /// <summary>Points with a recorded error.</summary>
    public required int Recorded { get; init; }

    /// <summary>Points in the model.</summary>
    public required int Points { get; init; }

    /// <summary>Mean square of the recorded errors in each axis, square metres.</summary>
    public required double Variance { get; init; }

    /// <summary>
    /// The points' own part, the covariance within clusters less the measurement's; or the reason why there is none: recorded errors
    /// that are
    /// larger than the scatter itself in some direction. It is not cut off at zero, since then the readings contradict one another.
    /// </summary>
    public required Fit<PlaneCovariance> Own { get; init; }

    /// <summary>Whether every point has a recorded error and the points' own part could be estimated.</summary>
    public bool IsKnown => Recorded == Points && Own.Success;

    internal static MeasurementPart? Of(PlaneSample sample, PlaneCovariance within)
    {
        var nouns = sample.Nouns;
        var points = new int[sample.Clusters];
        foreach (var m in sample.ClusterOfPlaced) points[m]++;
        double squares = 0, weights = 0;
        var recorded = 0;
        for (var i = 0; i < sample.Placed.Count; i++)
        {
            if (sample.MeasuredSd[i] is not { } sd) continue;
            var weight = 1 - 1.0 / points[sample.ClusterOfPlaced[i]];
            (recorded, squares, weights) = (recorded + 1, squares + weight * sd * sd, weights + weight);
        }
        if (!(weights > 0)) return null;
        var variance = squares / weights;
        return new MeasurementPart
        {
            Recorded = recorded,
            Points = sample.Placed.Count,
            Variance = variance,
            Own = within.Smallest >= variance
                ? Fit<PlaneCovariance>.Made(
                    new PlaneCovariance(within.VarianceAlong - variance, within.VarianceAcross - variance, within.Covariance))
                : Fit<PlaneCovariance>.Refused(string.Create(CultureInfo.InvariantCulture,
                    $"the recorded errors of measurement have a mean square of {variance:0.###} m², but {nouns.Points} of one "
                        + $"{nouns.Cluster} scatter by {within.Smallest:0.###} m² in one direction")),
        };
    }
}
