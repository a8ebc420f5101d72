using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

public sealed partial record TwoLevelModel
{
    private const int FewMissions = 10;

    /// <summary>Fits the model to misses.</summary>
    /// <param name="sample">Misses with their missions; landings known only as beyond a distance are left out and counted.</param>
    /// <param name="kind">The likelihood to maximise.</param>
    /// <param name="spotters">Spotter of each placed landing, in the order of <see cref="MissSample.Placed"/>; null to leave spotters out.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    /// <returns>The model, or the reason why there is none: too few missions or landings to tell the levels apart, landings all in one line, a search that did not end.</returns>
    /// <exception cref="ArgumentException">The spotters are not one for each placed landing.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<TwoLevelModel> FitTo(MissSample sample, LikelihoodKind kind = LikelihoodKind.Restricted, IReadOnlyList<string>? spotters = null, double confidence = 0.95)
    {
        if (!(confidence > 0 && confidence < 1))
            throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence between 0 and 1, for instance 0.95.");
        if (spotters is not null && (spotters.Count != sample.Placed.Count || spotters.Contains(null!)))
            throw new ArgumentException($"A spotter is needed for each of the {sample.Placed.Count} placed landings; found {spotters.Count(s => s is not null)}.", nameof(spotters));
        double[][] axes = [[.. sample.Placed.Select(m => m.Downwind)], [.. sample.Placed.Select(m => m.Right)]];
        var (names, spotter) = spotters is null ? ([], null) : LevelData.Numbered(spotters);
        var fit = LevelFitting.Fit(new LevelData(axes, sample.MissionOfPlaced, sample.Missions, spotter, names.Count), kind);
        return fit.Success ? Fit<TwoLevelModel>.Made(Of(fit.Value, sample, kind, names, confidence)) : Fit<TwoLevelModel>.Refused(fit.Reason);
    }

    private static TwoLevelModel Of(LevelSolution solution, MissSample sample, LikelihoodKind kind, IReadOnlyList<string> names, double confidence)
    {
        var within = LevelCovariance.Of(solution, 0);
        var measurement = MeasurementPart.Of(sample, within.Value);
        var measured = measurement is { IsKnown: true } known ? known.Variance : 0;
        int[] shared = names.Count > 0 ? [1, 2] : [1];
        var critical = StudentT.InvCDF(0, 1, (solution.RankOf(2) > 0 ? names.Count : solution.Missions) - 1, (1 + confidence) / 2);
        var model = new TwoLevelModel
        {
            Kind = kind,
            Missions = solution.Missions,
            Landings = solution.Landings,
            LeftOut = sample.Beyond.Count,
            BiasDownwind = Bias(0),
            BiasRight = Bias(1),
            BiasErrors = PlaneCovariance.Of(solution.MeanErrors),
            Between = LevelCovariance.Of(solution, 1),
            Within = within,
            BetweenSpotters = names.Count > 0 ? LevelCovariance.Of(solution, 2) : null,
            Forecast = new ForecastShares
            {
                Downwind = VarianceShare.Of(solution, [0], shared, measured, confidence),
                Right = VarianceShare.Of(solution, [1], shared, measured, confidence),
                Overall = VarianceShare.Of(solution, [0, 1], shared, measured, confidence),
                WithoutMeasurement = measurement is { IsKnown: true },
            },
            SpotterShare = names.Count > 0 ? VarianceShare.Of(solution, [0, 1], [2], measured, confidence) : null,
            Measurement = measurement,
            LogLikelihood = solution.LogLikelihood,
            MissionEffects = Effects(solution),
            SpotterEffects = [.. solution.SpotterEffects().Zip(names, (e, name) => new SpotterEffect(name, new(e.Effect[0], e.Effect[1]), PlaneCovariance.Of(e.Errors)))],
            Warnings = [],
        };
        return model with { Warnings = [.. Warn(model)] };

        Estimate Bias(int axis)
        {
            var (mean, half) = (solution.Mean[axis], critical * Math.Sqrt(solution.MeanErrors[axis, axis]));
            return Estimate.Of(mean, new Interval(mean - half, mean + half));
        }
    }
    // Missions with equally many landings may share one covariance: it is made once.
    private static List<MissionEffect> Effects(LevelSolution solution)
    {
        var known = new Dictionary<Matrix<double>, PlaneCovariance>(ReferenceEqualityComparer.Instance);
        var effects = new List<MissionEffect>();
        foreach (var (landings, effect, errors) in solution.MissionEffects())
        {
            if (!known.TryGetValue(errors, out var covariance)) known.Add(errors, covariance = PlaneCovariance.Of(errors));
            effects.Add(new MissionEffect(landings, new(effect[0], effect[1]), covariance));
        }
        return effects;
    }

    private static IEnumerable<string> Warn(TwoLevelModel model)
    {
        if (model.LeftOut > 0) yield return $"{Count(model.LeftOut, "landing")} known only as beyond a distance {(model.LeftOut == 1 ? "is" : "are")} left out: true misses scatter more";
        if (model.Missions < FewMissions) yield return $"{model.Missions} missions say little of what differs from mission to mission";
        if (OnEdge("missions", model.Between.Rank) is { } between) yield return between;
        if (model.BetweenSpotters is { } level && OnEdge("spotters", level.Rank) is { } spotters) yield return spotters;
        if (model.Measurement is not { } measurement) yield break;
        if (measurement.Recorded < measurement.Landings)
            yield return $"the error of measurement is recorded for {measurement.Recorded} of {measurement.Landings} landings; the jumpers' own part supposes the others measured alike";
        if (!measurement.Own.Success) yield return "the jumpers' own part can't be told: " + measurement.Own.Reason;
    }

    private static string? OnEdge(string what, int rank) => rank switch
    {
        0 => $"{what} differ no more than their landings do: the estimate of what is between them is zero",
        1 => $"{what} differ along one line only: the estimate of what is between them is singular",
        _ => null,
    };

    private static string Count(int n, string what) => n == 1 ? $"1 {what}" : $"{n} {what}s";
}
