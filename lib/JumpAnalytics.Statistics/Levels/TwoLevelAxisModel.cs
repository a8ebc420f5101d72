namespace JumpAnalytics;

/// <summary>One landing's number for a <see cref="TwoLevelAxisModel"/>.</summary>
/// <param name="Mission">The mission it belongs to.</param>
/// <param name="Value">The number, for instance the miss along the forecast drift, metres.</param>
/// <param name="Spotter">Spotter, or any second group that may cross the missions; null to leave that level out.</param>
/// <param name="Along">What the mean runs along, for instance minutes since the streamers; null for a constant mean.</param>
[TypeFormatterSource]
public sealed record AxisReading(string Mission, double Value, string? Spotter = null, double? Along = null);

/// <summary>A variance of one level with its standard error.</summary>
[TypeFormatterSource]
public sealed record LevelVariance
{
    /// <summary>The estimate, square of the readings' unit; zero when it lies on the edge of what it can be.</summary>
    public required double Value { get; init; }

    /// <summary>Standard error from the observed information; null when the estimate is zero.</summary>
    public double? StandardError { get; init; }

    /// <summary>Why there is no standard error; null when there is one.</summary>
    public string? WhyNoError => StandardError is null ? "the estimate is zero, the edge of what it can be, where standard errors do not hold" : null;

    internal static LevelVariance Of(LevelSolution solution, int level) => solution.RankOf(level) > 0
        ? new() { Value = solution.CovarianceOf(level)![0, 0], StandardError = Math.Sqrt(solution.Entries[level, level]) }
        : new() { Value = 0 };
}

/// <summary>A predicted effect of a mission or spotter, drawn towards zero the more the less is known of it.</summary>
/// <param name="Name">Mission or spotter.</param>
/// <param name="Value">The prediction, beside the mean.</param>
/// <param name="StandardError">Standard error of the prediction, the error of the mean included and the variances taken as known.</param>
[TypeFormatterSource]
public sealed record AxisEffect(string Name, double Value, double StandardError);

/// <summary>
/// The two-level model of <see cref="TwoLevelModel"/> for one number a landing: number = mean + mission's part + the landing's own, and
/// perhaps a spotter's part and a mean that runs along something.
/// </summary>
[TypeFormatterSource]
public sealed partial record TwoLevelAxisModel
{
    /// <summary>The likelihood that was maximised.</summary>
    public required LikelihoodKind Kind { get; init; }

    /// <summary>Number of missions.</summary>
    public required int Missions { get; init; }

    /// <summary>Number of readings.</summary>
    public required int Landings { get; init; }

    /// <summary>The mean, where what it runs along is zero.</summary>
    public required double Mean { get; init; }

    /// <summary>Standard error of the mean, the variances taken as known.</summary>
    public required double MeanError { get; init; }

    /// <summary>Change of the mean by one unit of what it runs along; null when it is constant.</summary>
    public double? Slope { get; init; }

    /// <summary>Standard error of the slope.</summary>
    public double? SlopeError { get; init; }

    /// <summary>Variance between missions.</summary>
    public required LevelVariance Between { get; init; }

    /// <summary>Variance within missions.</summary>
    public required LevelVariance Within { get; init; }

    /// <summary>Variance between spotters; null when they are not a level.</summary>
    public LevelVariance? BetweenSpotters { get; init; }

    /// <summary>Share of the variance that lies between missions, or between spotters: intra-class correlation.</summary>
    public required VarianceShare Shared { get; init; }

    /// <summary>Logarithm of the maximised likelihood, full or restricted, with the constants that lme4 counts.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Predicted effects of the missions, in order of appearance.</summary>
    public required IReadOnlyList<AxisEffect> MissionEffects { get; init; }

    /// <summary>Predicted effects of the spotters, in order of appearance; empty when they are not a level.</summary>
    public required IReadOnlyList<AxisEffect> SpotterEffects { get; init; }

    /// <summary>Profile intervals; null when spotters are a level or the mean runs along something.</summary>
    public AxisProfile? Profile { get; init; }

    /// <summary>Fits the model.</summary>
    /// <param name="readings">One for each landing; all have a spotter or none, and all a number the mean runs along or none.</param>
    /// <param name="kind">The likelihood to maximise.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    /// <returns>The model, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">A number is not finite, or only some readings have a spotter or a number the mean runs along.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<TwoLevelAxisModel> FitTo(IReadOnlyList<AxisReading> readings, LikelihoodKind kind = LikelihoodKind.Restricted, double confidence = 0.95)
    {
        if (!(confidence > 0 && confidence < 1))
            throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence between 0 and 1, for instance 0.95.");
        var bare = readings.Count == 0 ? new AxisReading("", 0) : readings[0];
        foreach (var r in readings)
        {
            if (!double.IsFinite(r.Value) || !double.IsFinite(r.Along ?? 0) || r.Spotter is null != bare.Spotter is null || r.Along is null != bare.Along is null)
                throw new ArgumentException($"Readings must be finite numbers, all with a spotter or none, all with a number the mean runs along or none; found {r} after {bare}.", nameof(readings));
        }
        var (missions, mission) = LevelData.Numbered(readings.Select(r => r.Mission));
        var (spotters, spotter) = bare.Spotter is null ? ([], null) : LevelData.Numbered(readings.Select(r => r.Spotter!));
        var along = bare.Along is null ? null : readings.Select(r => r.Along!.Value).ToArray();
        var data = new LevelData([[.. readings.Select(r => r.Value)]], mission, missions.Count, spotter, spotters.Count, along);
        var fit = LevelFitting.Fit(data, kind);
        if (!fit.Success) return Fit<TwoLevelAxisModel>.Refused(fit.Reason);
        var solution = fit.Value;
        return Fit<TwoLevelAxisModel>.Made(new TwoLevelAxisModel
        {
            Kind = kind,
            Missions = solution.Missions,
            Landings = solution.Landings,
            Mean = solution.Mean[0],
            MeanError = Math.Sqrt(solution.MeanErrors[0, 0]),
            Slope = solution.Slope?[0],
            SlopeError = solution.SlopeErrors is { } errors ? Math.Sqrt(errors[0, 0]) : null,
            Between = LevelVariance.Of(solution, 1),
            Within = LevelVariance.Of(solution, 0),
            BetweenSpotters = spotter is null ? null : LevelVariance.Of(solution, 2),
            Shared = VarianceShare.Of(solution, [0], spotter is null ? [1] : [1, 2], 0, confidence),
            LogLikelihood = solution.LogLikelihood,
            MissionEffects = [.. solution.MissionEffects().Zip(missions, (e, name) => new AxisEffect(name, e.Effect[0], Math.Sqrt(e.Errors[0, 0])))],
            SpotterEffects = [.. solution.SpotterEffects().Zip(spotters, (e, name) => new AxisEffect(name, e.Effect[0], Math.Sqrt(e.Errors[0, 0])))],
            Profile = spotter is null && along is null ? AxisProfile.Of(LevelSums.Of(data), confidence) : null,
        });
    }
}
