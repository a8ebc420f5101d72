namespace JumpAnalytics;

/// <summary>
/// How much of the scatter within missions is the measurement's. The errors recorded with the landings are independent of where the jumpers
/// came down, so their mean square is part of the covariance within missions, the same in every direction.
/// </summary>
/// <remarks>
/// The mean square weights a landing by 1 − 1/n, n being the landings of its mission: this is its weight in the scatter within missions.
/// Landings without a recorded error are taken to be measured like the others; how many these are is stated, and when there are any the
/// forecast's share is not corrected.
/// </remarks>
[TypeFormatterSource]
public sealed record MeasurementPart
{
    /// <summary>Landings with a recorded error.</summary>
    public required int Recorded { get; init; }

    /// <summary>Landings in the model.</summary>
    public required int Landings { get; init; }

    /// <summary>Mean square of the recorded errors in each axis, square metres.</summary>
    public required double Variance { get; init; }

    /// <summary>
    /// The jumpers' own part, the covariance within missions less the measurement's; or the reason why there is none: recorded errors that are
    /// larger than the scatter itself in some direction. It is not cut off at zero, since then the records contradict one another.
    /// </summary>
    public required Fit<PlaneCovariance> Own { get; init; }

    /// <summary>Whether every landing has a recorded error and the jumpers' own part could be had.</summary>
    public bool IsKnown => Recorded == Landings && Own.Success;

    internal static MeasurementPart? Of(MissSample sample, PlaneCovariance within)
    {
        var landings = new int[sample.Missions];
        foreach (var m in sample.MissionOfPlaced) landings[m]++;
        double squares = 0, weights = 0;
        var recorded = 0;
        for (var i = 0; i < sample.Placed.Count; i++)
        {
            if (sample.MeasuredSd[i] is not { } sd) continue;
            var weight = 1 - 1.0 / landings[sample.MissionOfPlaced[i]];
            (recorded, squares, weights) = (recorded + 1, squares + weight * sd * sd, weights + weight);
        }
        if (!(weights > 0)) return null;
        var variance = squares / weights;
        var own = new PlaneCovariance(within.VarianceDownwind - variance, within.VarianceRight - variance, within.Covariance);
        return new MeasurementPart
        {
            Recorded = recorded,
            Landings = sample.Placed.Count,
            Variance = variance,
            Own = own.Smallest >= 0
                ? Fit<PlaneCovariance>.Made(own)
                : Fit<PlaneCovariance>.Refused(FormattableString.Invariant(
                    $"the recorded errors of measurement have a mean square of {variance:0.###} m², but landings of one mission scatter by {within.Smallest:0.###} m² in one direction")),
        };
    }
}
