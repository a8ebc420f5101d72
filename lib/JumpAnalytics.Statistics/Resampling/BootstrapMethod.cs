namespace JumpAnalytics.Statistics;

/// <summary>How an interval is read from the resamples of the clusters.</summary>
public enum BootstrapMethod
{
    /// <summary>
    /// Percentiles widened for few clusters: taken at Φ(∓√(M/(M−1))·t) for M clusters, t on M−1 degrees of freedom (Hesterberg 2015, The
    /// American Statistician 69:371-386), because plain percentiles are too narrow for few clusters.
    /// </summary>
    WidenedPercentile,

    /// <summary>
    /// Plain percentiles (Efron 1979, The Annals of Statistics 7:1-26; Efron and Tibshirani 1993, An Introduction to
    /// the Bootstrap, section 13.3).
    /// </summary>
    Percentile,

    /// <summary>
    /// Percentiles corrected for bias and for a spread that changes with the figure, BCa (Efron 1987, Journal of the American Statistical
    /// Association 82:171-185). The acceleration comes from leaving out one cluster at a time.
    /// </summary>
    BiasCorrected,

    /// <summary>
    /// <see cref="BiasCorrected"/> with the normal quantile replaced by the widened one of <see cref="WidenedPercentile"/>.
    /// </summary>
    WidenedBiasCorrected,
}

/// <summary>
/// How resamples that equal the figure count towards the bias correction z0 of <see cref="BootstrapMethod.BiasCorrected"/>.
/// </summary>
public enum TieRule
{
    /// <summary>
    /// One half below, one half above: z0 = Φ⁻¹(share below + ½ share equal). A figure that takes few values, like a quantile, would
    /// otherwise be corrected for a bias it does not have.
    /// </summary>
    Half,

    /// <summary>All above: z0 = Φ⁻¹(share below), as printed in Efron and Tibshirani (1993), equation 14.14.</summary>
    Strict,
}
