namespace JumpAnalytics;

/// <summary>
/// Misses in two levels: miss = bias + what the mission's landings share + the jumper's own. The shared part, normal with the covariance
/// between missions, is the forecast's; the own part, normal with the covariance within missions, the jumper's. Spotters may be a level of
/// their own: then the forecast's part is what a spotter's missions share plus what is the mission's alone.
/// </summary>
/// <remarks>
/// Likelihood restricted or full, maximised over all covariances, singular ones included; see the members for the rest. In an even design
/// without an edge the restricted estimate is that of the analysis of variance (Searle, Casella and McCulloch, Variance Components, 1992).
/// </remarks>
[TypeFormatterSource]
public sealed partial record TwoLevelModel
{
    /// <summary>The likelihood that was maximised.</summary>
    public required LikelihoodKind Kind { get; init; }

    /// <summary>Missions with a landing whose place is known.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings whose place is known: those fitted.</summary>
    public required int Landings { get; init; }

    /// <summary>Landings known only as beyond a distance, which are left out.</summary>
    public required int LeftOut { get; init; }

    /// <summary>Mean miss along the forecast drift, metres, + long, with its interval: t on missions − 1, on spotters − 1 when spotters differ.</summary>
    public required Estimate BiasDownwind { get; init; }

    /// <summary>Mean miss across it, metres, + right, with its interval as above.</summary>
    public required Estimate BiasRight { get; init; }

    /// <summary>Covariance of the errors of the bias, square metres, the parts of the variance taken as known; its roots are the standard errors.</summary>
    public required PlaneCovariance BiasErrors { get; init; }

    /// <summary>Covariance between missions: the forecast's part, less the spotters' when they are a level.</summary>
    public required LevelCovariance Between { get; init; }

    /// <summary>Covariance within missions: the jumpers' part, error of measurement included.</summary>
    public required LevelCovariance Within { get; init; }

    /// <summary>Covariance between spotters; null when they are not a level.</summary>
    public LevelCovariance? BetweenSpotters { get; init; }

    /// <summary>The forecast's share of the variance.</summary>
    public required ForecastShares Forecast { get; init; }

    /// <summary>The share of the variance, both axes summed, that lies between spotters; null when they are not a level.</summary>
    public VarianceShare? SpotterShare { get; init; }

    /// <summary>The measurement's part of the covariance within missions; null when no error is recorded where it would show.</summary>
    public MeasurementPart? Measurement { get; init; }

    /// <summary>Logarithm of the maximised likelihood, full or restricted, with the constants that lme4 counts.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Predicted effect of each mission, in the order in which missions appear in the sample.</summary>
    public required IReadOnlyList<MissionEffect> MissionEffects { get; init; }

    /// <summary>Predicted effect of each spotter, in order of appearance; empty when they are not a level.</summary>
    public required IReadOnlyList<SpotterEffect> SpotterEffects { get; init; }

    /// <summary>What a reader must know before using the numbers.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Mean miss, metres.</summary>
    public DownwindVector Bias => new(BiasDownwind.Value, BiasRight.Value);

    /// <summary>Covariance of what the landings of a mission share: between missions, and between spotters when they are a level.</summary>
    public PlaneCovariance Shared => BetweenSpotters is { } spotters ? Between.Value.Plus(spotters.Value) : Between.Value;

    /// <summary>Distribution of the miss of a landing of a new mission (and spotter); its probability within the target radius is that of the next hit.</summary>
    public BivariateNormal Marginal => Normal(Bias, Shared.Plus(Within.Value));

    /// <summary>
    /// Distribution of a landing's miss in a mission whose shared part is given. Landings of one mission are independent given it: the
    /// probability that a whole stick is inside is the mean, over <see cref="Shared"/>, of the product of their probabilities.
    /// </summary>
    /// <param name="shared">What the mission's landings share, metres beside the bias.</param>
    public BivariateNormal Given(DownwindVector shared) => Normal(new(Bias.Downwind + shared.Downwind, Bias.Right + shared.Right), Within.Value);

    private static BivariateNormal Normal(DownwindVector mean, PlaneCovariance c) =>
        new(mean.Downwind, mean.Right, c.VarianceDownwind, c.VarianceRight, c.Covariance);
}
