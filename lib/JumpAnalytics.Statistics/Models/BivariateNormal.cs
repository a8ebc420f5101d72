namespace JumpAnalytics;

/// <summary>
/// The bivariate normal distribution of misses in the downwind frame, with bias and full covariance. Metres and square
/// metres; axis 1 downwind (+ long), axis 2 to the right.
/// </summary>
/// <param name="MeanDownwind">Bias along the forecast drift, metres, + long.</param>
/// <param name="MeanRight">Bias across it, metres, + right.</param>
/// <param name="VarianceDownwind">Variance along, square metres.</param>
/// <param name="VarianceRight">Variance across, square metres.</param>
/// <param name="Covariance">Covariance of the two, square metres.</param>
[TypeFormatterSource]
public sealed partial record BivariateNormal(
    double MeanDownwind, double MeanRight, double VarianceDownwind, double VarianceRight, double Covariance) : IMissModel
{
    /// <summary>Fewest misses from which mean and covariance are fitted.</summary>
    public const int FewestMisses = 3;

    /// <inheritdoc/>
    public string Name => "bivariate normal";

    /// <inheritdoc/>
    public double? LogDensity(DownwindVector miss) =>
        -0.5 * (SquaredDistance(miss) + Math.Log(VarianceDownwind * VarianceRight - Covariance * Covariance)) - Math.Log(2 * Math.PI);

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius, DownwindVector centre = default) =>
        DiscProbability.Inside(radius, MeanDownwind - centre.Downwind, MeanRight - centre.Right, VarianceDownwind, VarianceRight, Covariance);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius, DownwindVector centre = default) =>
        DiscProbability.Outside(radius, MeanDownwind - centre.Downwind, MeanRight - centre.Right, VarianceDownwind, VarianceRight, Covariance);

    /// <inheritdoc/>
    public double RadiusHolding(double probability, DownwindVector centre = default) =>
        DiscProbability.Radius(probability, MeanDownwind - centre.Downwind, MeanRight - centre.Right, VarianceDownwind, VarianceRight, Covariance);

    /// <inheritdoc/>
    public DownwindVector Draw(Random random)
    {
        var (first, second) = StandardNormal.Pair(random);
        var along = Math.Sqrt(VarianceDownwind);
        var across = along > 0 ? Covariance / along : 0;
        return new DownwindVector(MeanDownwind + along * first, MeanRight + across * first + Math.Sqrt(Math.Max(0, VarianceRight - across * across)) * second);
    }

    /// <summary>Squared Mahalanobis distance of a miss from the bias: chi-square with two degrees of freedom if misses follow the distribution.</summary>
    /// <param name="miss">A miss in the downwind frame.</param>
    public double SquaredDistance(DownwindVector miss)
    {
        var (d, r) = (miss.Downwind - MeanDownwind, miss.Right - MeanRight);
        return (d * d * VarianceRight - 2 * d * r * Covariance + r * r * VarianceDownwind) / (VarianceDownwind * VarianceRight - Covariance * Covariance);
    }

    /// <summary>
    /// The ellipse round the bias that holds a given share of misses: half axes in metres and the angle of the longer one,
    /// radians from downwind towards the right.
    /// </summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    public (double HalfLength, double HalfWidth, double Angle) Ellipse(double probability)
    {
        if (!(probability > 0 && probability < 1))
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability between 0 and 1.");
        var scale = -2 * Math.Log(1 - probability); // quantile of chi-square with two degrees of freedom
        var mid = (VarianceDownwind + VarianceRight) / 2;
        var half = double.Hypot((VarianceDownwind - VarianceRight) / 2, Covariance);
        var angle = half > 0 ? 0.5 * Math.Atan2(2 * Covariance, VarianceDownwind - VarianceRight) : 0;
        return (Math.Sqrt(scale * (mid + half)), Math.Sqrt(scale * Math.Max(0, mid - half)), angle);
    }

    /// <summary>Fits mean and covariance (divisor n − 1) to misses.</summary>
    /// <param name="misses">Misses in the downwind frame.</param>
    /// <returns>The distribution, or the reason why there is none: too few misses, or all in one line.</returns>
    public static Fit<BivariateNormal> FitTo(IReadOnlyList<DownwindVector> misses)
    {
        var sums = new MomentSums();
        foreach (var m in misses) sums.Add(m);
        return sums.Fit();
    }
}
