namespace JumpAnalytics.Statistics;

/// <summary>
/// The logarithm of a likelihood of successes by cluster and cell, at given fixed levels of the cells and spreads, with its slopes.
/// </summary>
/// <param name="Value">The log-likelihood of the points one by one: no binomial coefficients.</param>
/// <param name="ByLevel">Slope in the fixed level of each cell.</param>
/// <param name="ByClusterSd">Slope in the standard deviation between clusters.</param>
/// <param name="ByCellSd">Slope in the standard deviation between cells.</param>
/// <param name="CellMode">The likeliest effect of each cell, log-odds.</param>
/// <param name="CellVariance">Its variance, fixed levels and spreads known.</param>
internal sealed record LogisticSlopes(
    double Value, double[] ByLevel, double ByClusterSd, double ByCellSd, double[] CellMode, double[] CellVariance);

/// <summary>
/// A way to integrate the effects of clusters, and of cells, out of the likelihood. Keeps modes to start from: not for two threads.
/// </summary>
internal interface ILogisticLikelihood
{
    /// <summary>The likelihood at fixed levels of the cells and spreads, which are zero or more.</summary>
    LogisticSlopes At(ReadOnlySpan<double> levels, double clusterSd, double cellSd);

    /// <summary>Mode and variance of each pattern's cluster effect at the place asked for last, log-odds.</summary>
    (double Mode, double Variance)[] ClusterEffects();
}
