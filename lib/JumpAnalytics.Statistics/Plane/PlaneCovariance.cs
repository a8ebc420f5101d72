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
