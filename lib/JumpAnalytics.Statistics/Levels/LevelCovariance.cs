namespace JumpAnalytics.Statistics;

/// <summary>Standard errors of the entries of a covariance, square metres.</summary>
/// <param name="VarianceAlong">Of the variance along the first axis.</param>
/// <param name="VarianceAcross">Of the variance along the second axis.</param>
/// <param name="Covariance">Of the covariance of the two.</param>
[TypeFormatterSource]
public sealed record CovarianceErrors(double VarianceAlong, double VarianceAcross, double Covariance);

/// <summary>The covariance of one level of a <see cref="TwoLevelModel"/> with its standard errors.</summary>
[TypeFormatterSource]
public sealed record LevelCovariance
{
    /// <summary>The estimate.</summary>
    public required PlaneCovariance Value { get; init; }

    /// <summary>
    /// In how many directions there is scatter: 2, or 1 or 0 when the estimate lies on the edge of what a covariance can be.
    /// </summary>
    public required int Rank { get; init; }

    /// <summary>
    /// Standard errors from the observed information; null on the edge. When another level lies on its edge these take its rank for known.
    /// </summary>
    public CovarianceErrors? StandardErrors { get; init; }

    /// <summary>Why there are no standard errors; null when there are.</summary>
    public string? WhyNoErrors => StandardErrors is null ? Edge : null;

    internal const string Edge =
        "the estimate lies on the edge of what it can be (no scatter in some direction), where standard errors do not hold";

    internal static LevelCovariance Of(LevelSolution solution, int level)
    {
        var rank = solution.RankOf(level);
        var errors = rank < 2 ? null : Enumerable.Range(3 * level, 3).Select(i => Math.Sqrt(solution.Entries[i, i])).ToArray();
        return new LevelCovariance
        {
            Value = PlaneCovariance.Of(solution.CovarianceOf(level)!),
            Rank = rank,
            StandardErrors = errors is null ? null : new CovarianceErrors(errors[0], errors[2], errors[1]),
        };
    }
}
