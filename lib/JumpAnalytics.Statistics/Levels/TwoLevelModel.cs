namespace JumpAnalytics.Statistics;

/// <summary>
/// Places in two levels: place = bias + what the points of a cluster share + the point's own part. The shared part is normal with the
/// covariance between clusters, the own part normal with the covariance within clusters. Raters may be a level of their own: then the
/// shared part is what a rater's clusters share plus what is the cluster's alone.
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

    /// <summary>Clusters with a point whose place is known.</summary>
    public required int Clusters { get; init; }

    /// <summary>Points whose place is known: those fitted.</summary>
    public required int Points { get; init; }

    /// <summary>Points known only as beyond a distance, which are left out.</summary>
    public required int LeftOut { get; init; }

    /// <summary>Mean place along the first axis, metres, with its interval: t on clusters − 1, on raters − 1 when raters differ.</summary>
    public required Estimate BiasAlong { get; init; }

    /// <summary>Mean place along the second axis, metres, + to the right of the first, with its interval as above.</summary>
    public required Estimate BiasAcross { get; init; }

    /// <summary>
    /// Covariance of the errors of the bias, square metres, the parts of the variance taken as known; its roots are the standard errors.
    /// </summary>
    public required PlaneCovariance BiasErrors { get; init; }

    /// <summary>Covariance between clusters: the shared part, less the raters' when they are a level.</summary>
    public required LevelCovariance Between { get; init; }

    /// <summary>Covariance within clusters: the points' own part, error of measurement included.</summary>
    public required LevelCovariance Within { get; init; }

    /// <summary>Covariance between raters; null when they are not a level.</summary>
    public LevelCovariance? BetweenRaters { get; init; }

    /// <summary>The shared part's share of the variance.</summary>
    public required ForecastShares Forecast { get; init; }

    /// <summary>The share of the variance, both axes summed, that lies between raters; null when they are not a level.</summary>
    public VarianceShare? RaterShare { get; init; }

    /// <summary>The measurement's part of the covariance within clusters; null when no error is recorded where it would show.</summary>
    public MeasurementPart? Measurement { get; init; }

    /// <summary>Logarithm of the maximised likelihood, full or restricted, with the constants that lme4 counts.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Predicted effect of each cluster, in the order in which clusters appear in the sample.</summary>
    public required IReadOnlyList<ClusterEffect> ClusterEffects { get; init; }

    /// <summary>Predicted effect of each rater, in order of appearance; empty when they are not a level.</summary>
    public required IReadOnlyList<RaterEffect> RaterEffects { get; init; }

    /// <summary>What a reader must know before using the numbers.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Mean place, metres.</summary>
    public PlaneVector Bias => new(BiasAlong.Value, BiasAcross.Value);

    /// <summary>Covariance of what the points of a cluster share: between clusters, and between raters when they are a level.</summary>
    public PlaneCovariance Shared => BetweenRaters is { } raters ? Between.Value + raters.Value : Between.Value;

    /// <summary>Distribution of a point of a new cluster (and rater).</summary>
    public BivariateNormal Marginal => Normal(Bias, Shared + Within.Value);

    /// <summary>
    /// Distribution of a point in a cluster whose shared part is given. Points of one cluster are independent given it: the
    /// probability that several of them lie inside a circle is the mean, over <see cref="Shared"/>, of the product of their probabilities.
    /// </summary>
    /// <param name="shared">What the cluster's points share, metres beside the bias.</param>
    public BivariateNormal Given(PlaneVector shared) => Normal(new(Bias.Along + shared.Along, Bias.Across + shared.Across), Within.Value);

    private static BivariateNormal Normal(PlaneVector mean, PlaneCovariance c) =>
        new(mean.Along, mean.Across, c.VarianceAlong, c.VarianceAcross, c.Covariance);
}
