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
/// <remarks>
/// It may be degenerate: all on one line (a variance of zero, or a correlation within 1e-15 of one), or all at one place. Then it has no
/// density; circles, polygons and draws take the line or the place.
/// </remarks>
/// <exception cref="ArgumentOutOfRangeException">
/// A number is not finite, a variance is negative, or the covariance is larger than the root of their product.
/// </exception>
[TypeFormatterSource]
public sealed partial record BivariateNormal(
    double MeanAlong, double MeanAcross, double VarianceAlong, double VarianceAcross, double Covariance) : IPlaneModel
{
    /// <summary>Fewest points from which mean and covariance are fitted.</summary>
    public const int FewestPoints = 3;

    /// <summary>Bias along the first axis, metres.</summary>
    public double MeanAlong { get; } = Guard.Finite(MeanAlong);

    /// <summary>Bias along the second axis, metres.</summary>
    public double MeanAcross { get; } = Guard.Finite(MeanAcross);

    /// <summary>Variance along the first axis, square metres.</summary>
    public double VarianceAlong { get; } = Guard.NotNegative(VarianceAlong);

    /// <summary>Variance along the second axis, square metres.</summary>
    public double VarianceAcross { get; } = Guard.NotNegative(VarianceAcross);

    /// <summary>Covariance of the two, square metres.</summary>
    public double Covariance { get; } = DiscProbability.Possible(VarianceAlong, VarianceAcross, Covariance);

    /// <summary>Whether it has a density, and is not all on one line or at one place.</summary>
    internal bool HasArea { get; } = DiscProbability.HasArea(VarianceAlong, VarianceAcross, Covariance);

    /// <inheritdoc/>
    public string Name => "bivariate normal";

    /// <inheritdoc/>
    public double? LogDensity(PlaneVector point) => !HasArea ? null :
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
        if (!HasArea)
        {
            var line = Math.CopySign(Math.Sqrt(VarianceAcross), Covariance);
            return new PlaneVector(MeanAlong + along * first, MeanAcross + line * (along > 0 ? first : second));
        }
        var across = Covariance / along;
        return new PlaneVector(MeanAlong + along * first,
            MeanAcross + across * first + Math.Sqrt(Math.Max(0, VarianceAcross - across * across)) * second);
    }

    /// <summary>
    /// Squared Mahalanobis distance of a point from the bias: chi-square with two degrees of freedom if points follow the distribution.
    /// Infinite for a degenerate distribution, in which no place has one.
    /// </summary>
    /// <param name="point">The point.</param>
    public double SquaredDistance(PlaneVector point)
    {
        if (!HasArea) return double.PositiveInfinity;
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
    /// <returns>
    /// The distribution, or the reason why there is none: too few points, all in one line, or a coordinate that is no finite number or
    /// whose square is beyond a double.
    /// </returns>
    [OverloadResolutionPriority(1)]
    public static Fit<BivariateNormal> FitTo(IReadOnlyList<PlaneVector> points, SampleNouns? nouns = null)
    {
        nouns ??= SampleNouns.Default;
        var odd = points.Count(p => !(double.IsFinite(p.Along) && double.IsFinite(p.Across)));
        if (odd > 0) return Fit<BivariateNormal>.Refused($"{nouns.CountedPoints(odd)} with a coordinate that is not a finite number");
        var sums = new MomentSums();
        foreach (var m in points) sums.Add(m);
        return sums.Fit(nouns);
    }

    /// <summary>Why points of these variances have no normal in the plane; null when they have one.</summary>
    internal static string? WhyFlat(double v1, double v2, double c, SampleNouns nouns) =>
        !double.IsFinite((v1 + v2) * (v1 + v2)) ? $"{nouns.Places} lie so far apart that their variance is beyond a number's range"
        : !(v1 + v2 > 0) ? $"all {nouns.Places} are the same; a normal in the plane can't be fitted"
        : v1 * v2 - c * c > 1e-12 * (v1 + v2) * (v1 + v2) ? null
        : $"all {nouns.Places} lie on one line; a normal in the plane can't be fitted";
}
