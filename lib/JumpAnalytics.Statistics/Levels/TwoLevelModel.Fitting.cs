using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

public sealed partial record TwoLevelModel
{
    private const int FewClusters = 10;

    /// <summary>Fits the model to points, without raters.</summary>
    /// <param name="readings">
    /// One for each point. One with neither a place nor a distance, and one known only as beyond a distance, is left out; warnings
    /// count them.
    /// </param>
    /// <param name="kind">The likelihood to maximise.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    /// <inheritdoc cref="FitTo(PlaneSample, LikelihoodKind, IReadOnlyList{string}, double)" path="/returns"/>
    /// <inheritdoc cref="PlaneSample.Of(IEnumerable{IPlaneReading}, SampleNouns)" path="/exception"/>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<TwoLevelModel> FitTo(
        IEnumerable<IPlaneReading> readings, LikelihoodKind kind = LikelihoodKind.Restricted, double confidence = 0.95) =>
        FitTo(PlaneSample.Of(readings), kind, null, confidence);

    /// <summary>Fits the model to points.</summary>
    /// <param name="sample">Places with their clusters; points known only as beyond a distance are left out and counted.</param>
    /// <param name="kind">The likelihood to maximise.</param>
    /// <param name="raters">Rater of each placed point, in the order of <see cref="PlaneSample.Placed"/>; null to leave raters out.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    /// <returns>
    /// The model, or the reason why there is none: too few clusters or points to tell the levels apart, points all in one
    /// line, a search that did not end.
    /// </returns>
    /// <exception cref="ArgumentException">The raters are not one for each placed point.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<TwoLevelModel> FitTo(PlaneSample sample, LikelihoodKind kind = LikelihoodKind.Restricted,
        IReadOnlyList<string>? raters = null, double confidence = 0.95)
    {
        Guard.Confidence(confidence);
        if (raters is not null && (raters.Count != sample.Placed.Count || raters.Contains(null!)))
            throw new ArgumentException($"A {sample.Nouns.Rater} is needed for each of the {sample.Placed.Count} placed "
                + $"{sample.Nouns.Points}; found {raters.Count(s => s is not null)}.", nameof(raters));
        double[][] axes = [[.. sample.Placed.Select(m => m.Along)], [.. sample.Placed.Select(m => m.Across)]];
        var (names, rater) = raters is null ? ([], null) : LevelData.Numbered(raters);
        var data = new LevelData(axes, sample.ClusterOfPlaced, sample.Clusters, rater, names.Count) { Nouns = sample.Nouns };
        var fit = LevelFitting.Fit(data, kind);
        return fit.Success
            ? Fit<TwoLevelModel>.Made(Of(fit.Value, sample, kind, names, confidence)) : Fit<TwoLevelModel>.Refused(fit.Reason);
    }

    private static TwoLevelModel Of(LevelSolution solution, PlaneSample sample, LikelihoodKind kind,
        IReadOnlyList<string> names, double confidence)
    {
        var within = LevelCovariance.Of(solution, 0);
        var measurement = MeasurementPart.Of(sample, within.Value);
        var measured = measurement is { IsKnown: true } known ? known.Variance : 0;
        int[] shared = names.Count > 0 ? [1, 2] : [1];
        var critical = QuantileOf.T((solution.RankOf(2) > 0 ? names.Count : solution.Clusters) - 1, TailShare.Middle(confidence));
        var model = new TwoLevelModel
        {
            Kind = kind,
            Clusters = solution.Clusters,
            Points = solution.Points,
            LeftOut = sample.Beyond.Count,
            BiasAlong = Bias(0),
            BiasAcross = Bias(1),
            BiasErrors = PlaneCovariance.Of(solution.MeanErrors),
            Between = LevelCovariance.Of(solution, 1),
            Within = within,
            BetweenRaters = names.Count > 0 ? LevelCovariance.Of(solution, 2) : null,
            Forecast = new ForecastShares
            {
                Along = VarianceShare.Of(solution, [0], shared, measured, confidence),
                Right = VarianceShare.Of(solution, [1], shared, measured, confidence),
                Overall = VarianceShare.Of(solution, [0, 1], shared, measured, confidence),
                WithoutMeasurement = measurement is { IsKnown: true },
            },
            RaterShare = names.Count > 0 ? VarianceShare.Of(solution, [0, 1], [2], measured, confidence) : null,
            Measurement = measurement,
            LogLikelihood = solution.LogLikelihood,
            ClusterEffects = Effects(solution),
            RaterEffects = [.. solution.RaterEffects()
                .Zip(names, (e, name) => new RaterEffect(name, new(e.Effect[0], e.Effect[1]), PlaneCovariance.Of(e.Errors)))],
            Warnings = [],
        };
        return model with { Warnings = [.. Warn(model, sample)] };

        Estimate Bias(int axis)
        {
            var (mean, half) = (solution.Mean[axis], critical * Math.Sqrt(solution.MeanErrors[axis, axis]));
            return Estimate.Of(mean, new Interval(mean - half, mean + half));
        }
    }
    // Clusters with equally many points may share one covariance: it is made once.
    private static List<ClusterEffect> Effects(LevelSolution solution)
    {
        var known = new Dictionary<Matrix<double>, PlaneCovariance>(ReferenceEqualityComparer.Instance);
        var effects = new List<ClusterEffect>();
        foreach (var (points, effect, errors) in solution.ClusterEffects())
        {
            if (!known.TryGetValue(errors, out var covariance)) known.Add(errors, covariance = PlaneCovariance.Of(errors));
            effects.Add(new ClusterEffect(points, new(effect[0], effect[1]), covariance));
        }
        return effects;
    }

    private static IEnumerable<string> Warn(TwoLevelModel model, PlaneSample sample)
    {
        var nouns = sample.Nouns;
        foreach (var warning in sample.Warnings) yield return warning;
        if (model.LeftOut > 0)
        {
            yield return $"{nouns.CountedPoints(model.LeftOut)} known only as beyond a distance {(model.LeftOut == 1 ? "is" : "are")} "
                + "left out: "
                + $"true {nouns.Places} scatter more";
        }
        if (model.Clusters < FewClusters) yield return $"{model.Clusters} {nouns.Clusters} say little of what differs from {nouns.Cluster} "
            + $"to {nouns.Cluster}";
        if (OnEdge(nouns.Clusters, model.Between.Rank, nouns) is { } between) yield return between;
        if (model.BetweenRaters is { } level && OnEdge(nouns.Raters, level.Rank, nouns) is { } raters) yield return raters;
        if (model.Measurement is not { } measurement) yield break;
        if (measurement.Recorded < measurement.Points)
        {
            yield return $"the error of measurement is recorded for {Rounding.Count(measurement.Recorded)} of "
                + $"{nouns.CountedPoints(measurement.Points)}; "
                + $"the {nouns.Own}s' own part supposes the others measured alike";
        }
        if (!measurement.Own.Success) yield return $"the {nouns.Own}s' own part can't be told: {measurement.Own.Reason}";
    }

    private static string? OnEdge(string what, int rank, SampleNouns nouns) => rank switch
    {
        0 => $"{what} differ no more than their {nouns.Points} do: the estimate of what is between them is zero",
        1 => $"{what} differ along one line only: the estimate of what is between them is singular",
        _ => null,
    };
}
