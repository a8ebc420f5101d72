namespace JumpAnalytics.Statistics;

/// <summary>One point's number for a <see cref="TwoLevelAxisModel"/>.</summary>
/// <param name="Cluster">The cluster it belongs to.</param>
/// <param name="Value">The number, for instance where the point lies along an axis, metres.</param>
/// <param name="Rater">Rater, or any second group that may cross the clusters; null to leave that level out.</param>
/// <param name="Along">What the mean runs along, for instance a time; null for a constant mean.</param>
[TypeFormatterSource]
public sealed record AxisReading(string Cluster, double Value, string? Rater = null, double? Along = null);

/// <summary>A variance of one level with its standard error.</summary>
[TypeFormatterSource]
public sealed record LevelVariance
{
    /// <summary>The estimate, square of the readings' unit; zero when it lies on the edge of what it can be.</summary>
    public required double Value { get; init; }

    /// <summary>Standard error from the observed information; null when the estimate is zero.</summary>
    public double? StandardError { get; init; }

    /// <summary>Why there is no standard error; null when there is one.</summary>
    public string? WhyNoError =>
        StandardError is null ? "the estimate is zero, the edge of what it can be, where standard errors do not hold" : null;

    internal static LevelVariance Of(LevelSolution solution, int level) => solution.RankOf(level) > 0
        ? new() { Value = solution.CovarianceOf(level)![0, 0], StandardError = Math.Sqrt(solution.Entries[level, level]) }
        : new() { Value = 0 };
}

/// <summary>A predicted effect of a cluster or rater, drawn towards zero the more the less is known of it.</summary>
/// <param name="Name">Cluster or rater.</param>
/// <param name="Value">The prediction, beside the mean.</param>
/// <param name="StandardError">Standard error of the prediction, the error of the mean included and the variances taken as known.</param>
[TypeFormatterSource]
public sealed record AxisEffect(string Name, double Value, double StandardError);

/// <summary>
/// The two-level model of <see cref="TwoLevelModel"/> for one number a point: number = mean + cluster's part + the point's own, and
/// perhaps a rater's part and a mean that runs along something.
/// </summary>
[TypeFormatterSource]
public sealed partial record TwoLevelAxisModel
{
    /// <summary>The likelihood that was maximised.</summary>
    public required LikelihoodKind Kind { get; init; }

    /// <summary>Number of clusters.</summary>
    public required int Clusters { get; init; }

    /// <summary>Number of readings.</summary>
    public required int Points { get; init; }

    /// <summary>The mean, where what it runs along is zero.</summary>
    public required double Mean { get; init; }

    /// <summary>Standard error of the mean, the variances taken as known.</summary>
    public required double MeanError { get; init; }

    /// <summary>Change of the mean by one unit of what it runs along; null when it is constant.</summary>
    public double? Slope { get; init; }

    /// <summary>Standard error of the slope.</summary>
    public double? SlopeError { get; init; }

    /// <summary>Variance between clusters.</summary>
    public required LevelVariance Between { get; init; }

    /// <summary>Variance within clusters.</summary>
    public required LevelVariance Within { get; init; }

    /// <summary>Variance between raters; null when they are not a level.</summary>
    public LevelVariance? BetweenRaters { get; init; }

    /// <summary>Share of the variance that lies between clusters, or between raters: intra-class correlation.</summary>
    public required VarianceShare Shared { get; init; }

    /// <summary>Logarithm of the maximised likelihood, full or restricted, with the constants that lme4 counts.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Predicted effects of the clusters, in order of appearance.</summary>
    public required IReadOnlyList<AxisEffect> ClusterEffects { get; init; }

    /// <summary>Predicted effects of the raters, in order of appearance; empty when they are not a level.</summary>
    public required IReadOnlyList<AxisEffect> RaterEffects { get; init; }

    /// <summary>Profile intervals; null when raters are a level or the mean runs along something.</summary>
    public AxisProfile? Profile { get; init; }

    /// <summary>Fits the model.</summary>
    /// <param name="readings">One for each point; all have a rater or none, and all a number the mean runs along or none.</param>
    /// <param name="kind">The likelihood to maximise.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    /// <param name="nouns">What points, clusters and raters are called in a reason; so when left out.</param>
    /// <returns>The model, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">
    /// A number is not finite, or only some readings have a rater or a number the mean runs along.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<TwoLevelAxisModel> FitTo(
        IReadOnlyList<AxisReading> readings, LikelihoodKind kind = LikelihoodKind.Restricted, double confidence = 0.95,
        SampleNouns? nouns = null)
    {
        Guard.Confidence(confidence);
        var bare = readings.Count == 0 ? new AxisReading("", 0) : readings[0];
        foreach (var r in readings)
        {
            if (!double.IsFinite(r.Value) || !double.IsFinite(r.Along ?? 0) || r.Rater is null != bare.Rater is null
                || r.Along is null != bare.Along is null)
                throw new ArgumentException("Readings must be finite numbers, all with a rater or none, all with a number the mean runs "
                    + $"along or none; found {r} after {bare}.", nameof(readings));
        }
        var (clusters, cluster) = LevelData.Numbered(readings.Select(r => r.Cluster));
        var (raters, rater) = bare.Rater is null ? ([], null) : LevelData.Numbered(readings.Select(r => r.Rater!));
        var along = bare.Along is null ? null : readings.Select(r => r.Along!.Value).ToArray();
        var data = new LevelData([[.. readings.Select(r => r.Value)]], cluster, clusters.Count, rater, raters.Count, along)
        {
            Nouns = nouns ?? SampleNouns.Default,
        };
        var fit = LevelFitting.Fit(data, kind);
        if (!fit.Success) return Fit<TwoLevelAxisModel>.Refused(fit.Reason);
        var solution = fit.Value;
        return Fit<TwoLevelAxisModel>.Made(new TwoLevelAxisModel
        {
            Kind = kind,
            Clusters = solution.Clusters,
            Points = solution.Points,
            Mean = solution.Mean[0],
            MeanError = Math.Sqrt(solution.MeanErrors[0, 0]),
            Slope = solution.Slope?[0],
            SlopeError = solution.SlopeErrors is { } errors ? Math.Sqrt(errors[0, 0]) : null,
            Between = LevelVariance.Of(solution, 1),
            Within = LevelVariance.Of(solution, 0),
            BetweenRaters = rater is null ? null : LevelVariance.Of(solution, 2),
            Shared = VarianceShare.Of(solution, [0], rater is null ? [1] : [1, 2], 0, confidence),
            LogLikelihood = solution.LogLikelihood,
            ClusterEffects =
                [.. solution.ClusterEffects().Zip(clusters, (e, name) => new AxisEffect(name, e.Effect[0], Math.Sqrt(e.Errors[0, 0])))],
            RaterEffects =
                [.. solution.RaterEffects().Zip(raters, (e, name) => new AxisEffect(name, e.Effect[0], Math.Sqrt(e.Errors[0, 0])))],
            Profile = rater is null && along is null ? AxisProfile.Of(LevelSums.Of(data), confidence) : null,
        });
    }
}
