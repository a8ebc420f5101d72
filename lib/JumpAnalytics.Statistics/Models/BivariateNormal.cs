using System.Runtime.CompilerServices;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The bivariate normal distribution of points in the plane, with bias and full covariance. Metres and square metres; the second axis
/// points to the right of the first.
/// </summary>
/// <param name="MeanAlong">Bias along the first axis, metres.</param>
/// <param name="MeanAcross">Bias along the second axis, metres.</param>
/// <param name="VarianceAlong">Variance along the first axis, square metres.</param>
/// <param name="VarianceAcross">Variance along the second axis, square metres.</param>
/// <param name="Covariance">Covariance of the two, square metres.</param>
[TypeFormatterSource]
public sealed partial record BivariateNormal(
    double MeanAlong, double MeanAcross, double VarianceAlong, double VarianceAcross, double Covariance) : IPlaneModel
{
    /// <summary>Fewest points from which mean and covariance are fitted.</summary>
    public const int FewestPoints = 3;

    /// <inheritdoc/>
    public string Name => "bivariate normal";

    /// <inheritdoc/>
    public double? LogDensity(PlaneVector point) =>
        -0.5 * (SquaredDistance(point) + Math.Log(VarianceAlong * VarianceAcross - Covariance * Covariance)) - Math.Log(2 * Math.PI);

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius, PlaneVector centre = default) =>
        DiscProbability.Inside(radius, MeanAlong - centre.Along, MeanAcross - centre.Across, VarianceAlong, VarianceAcross, Covariance);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius, PlaneVector centre = default) =>
        DiscProbability.Outside(radius, MeanAlong - centre.Along, MeanAcross - centre.Across, VarianceAlong, VarianceAcross, Covariance);

    /// <inheritdoc/>
    public double RadiusHolding(double probability, PlaneVector centre = default) =>
        DiscProbability.Radius(probability, MeanAlong - centre.Along, MeanAcross - centre.Across,
            VarianceAlong, VarianceAcross, Covariance);

    /// <inheritdoc/>
    public PlaneVector Draw(Random random)
    {
        var (first, second) = StandardNormal.Pair(random);
        var along = Math.Sqrt(VarianceAlong);
        var across = along > 0 ? Covariance / along : 0;
        return new PlaneVector(MeanAlong + along * first,
            MeanAcross + across * first + Math.Sqrt(Math.Max(0, VarianceAcross - across * across)) * second);
    }

    /// <summary>
    /// Squared Mahalanobis distance of a point from the bias: chi-square with two degrees of freedom if points follow the distribution.
    /// </summary>
    /// <param name="point">The point.</param>
    public double SquaredDistance(PlaneVector point)
    {
        var (d, r) = (point.Along - MeanAlong, point.Across - MeanAcross);
        return (d * d * VarianceAcross - 2 * d * r * Covariance + r * r * VarianceAlong) / (VarianceAlong * VarianceAcross
            - Covariance * Covariance);
    }

    /// <summary>
    /// The ellipse round the bias that holds a given share of points: half axes in metres and the angle of the longer one,
    /// radians from the first axis towards the second.
    /// </summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    public (double HalfLength, double HalfWidth, double Angle) Ellipse(double probability)
    {
        Guard.Share(probability);
        var scale = -2 * Math.Log(1 - probability); // quantile of chi-square with two degrees of freedom
        var mid = (VarianceAlong + VarianceAcross) / 2;
        var half = double.Hypot((VarianceAlong - VarianceAcross) / 2, Covariance);
        var angle = half > 0 ? 0.5 * Math.Atan2(2 * Covariance, VarianceAlong - VarianceAcross) : 0;
        return (Math.Sqrt(scale * (mid + half)), Math.Sqrt(scale * Math.Max(0, mid - half)), angle);
    }

    /// <summary>Fits mean and covariance (divisor n − 1) to points.</summary>
    /// <param name="points">Places in the plane.</param>
    /// <param name="nouns">What they are called in a reason; points when left out.</param>
    /// <returns>The distribution, or the reason why there is none: too few points, or all in one line.</returns>
    [OverloadResolutionPriority(1)]
    public static Fit<BivariateNormal> FitTo(IReadOnlyList<PlaneVector> points, SampleNouns? nouns = null)
    {
        var sums = new MomentSums();
        foreach (var m in points) sums.Add(m);
        return sums.Fit(nouns ?? SampleNouns.Default);
    }
}
