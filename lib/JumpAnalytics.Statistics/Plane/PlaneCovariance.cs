using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>A covariance of vectors in the plane, square metres; it may be zero or singular.</summary>
/// <param name="VarianceAlong">Variance along the first axis, square metres.</param>
/// <param name="VarianceAcross">Variance across it, square metres.</param>
/// <param name="Covariance">Covariance of the two, square metres, positive when long goes with right.</param>
[TypeFormatterSource]
public sealed record PlaneCovariance(double VarianceAlong, double VarianceAcross, double Covariance)
{
    /// <summary>Sum of the two variances, square metres: the mean square length of such vectors about their mean.</summary>
    public double Trace => VarianceAlong + VarianceAcross;

    /// <summary>Variance along the direction in which it is least, square metres; zero or less when it is no proper covariance.</summary>
    public double Smallest => Trace / 2 - double.Hypot((VarianceAlong - VarianceAcross) / 2, Covariance);

    /// <summary>Covariance of the sum of two independent vectors.</summary>
    /// <param name="other">Covariance of the other one.</param>
    public PlaneCovariance Plus(PlaneCovariance other) =>
        new(VarianceAlong + other.VarianceAlong, VarianceAcross + other.VarianceAcross, Covariance + other.Covariance);

    /// <summary>Covariance of such a vector times the root of a factor.</summary>
    internal PlaneCovariance Times(double factor) => new(factor * VarianceAlong, factor * VarianceAcross, factor * Covariance);

    internal static PlaneCovariance Of(Matrix<double> m) => new(m[0, 0], m[1, 1], (m[0, 1] + m[1, 0]) / 2);
}

/// <summary>Standard errors of the entries of a covariance, square metres.</summary>
/// <param name="VarianceAlong">Of the variance along the first axis.</param>
/// <param name="VarianceAcross">Of the variance across it.</param>
/// <param name="Covariance">Of the covariance of the two.</param>
[TypeFormatterSource]
public sealed record CovarianceErrors(double VarianceAlong, double VarianceAcross, double Covariance);

/// <summary>The covariance of one level of a <see cref="TwoLevelModel"/> with its standard errors.</summary>
[TypeFormatterSource]
public sealed record LevelCovariance
{
    /// <summary>The estimate.</summary>
    public required PlaneCovariance Value { get; init; }

    /// <summary>In how many directions there is scatter: 2, or 1 or 0 when the estimate lies on the edge of what a covariance can be.</summary>
    public required int Rank { get; init; }

    /// <summary>
    /// Standard errors from the observed information; null on the edge. When another level lies on its edge these take its rank for known.
    /// </summary>
    public CovarianceErrors? StandardErrors { get; init; }

    /// <summary>Why there are no standard errors; null when there are.</summary>
    public string? WhyNoErrors => StandardErrors is null ? Edge : null;

    internal const string Edge = "the estimate lies on the edge of what it can be (no scatter in some direction), where standard errors do not hold";

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
