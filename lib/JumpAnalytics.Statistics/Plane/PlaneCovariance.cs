using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Covariance of a vector in the plane, or of its error, in the vector's own frame: m² for a displacement, m²/s² for a velocity. Of an
/// east/north vector the first axis is east and the second north. It may be zero or singular.
/// </summary>
/// <param name="VarianceAlong">Variance along the first axis.</param>
/// <param name="VarianceAcross">Variance along the second axis.</param>
/// <param name="Covariance">Covariance of the two, positive when both grow together.</param>
/// <exception cref="ArgumentOutOfRangeException">
/// A number is not finite, or a variance in some direction is negative by more than rounding, a thousand-millionth of both together.
/// </exception>
[TypeFormatterSource]
public sealed record PlaneCovariance(double VarianceAlong, double VarianceAcross, double Covariance)
{
    private const double Rounding = 1e-9;

    /// <summary>Variance along the first axis.</summary>
    public double VarianceAlong { get; } = Checked(VarianceAlong, VarianceAcross, Covariance).VarianceAlong;

    /// <summary>Variance along the second axis.</summary>
    public double VarianceAcross { get; } = Checked(VarianceAlong, VarianceAcross, Covariance).VarianceAcross;

    /// <summary>Covariance of the two, positive when both grow together.</summary>
    public double Covariance { get; } = Checked(VarianceAlong, VarianceAcross, Covariance).Covariance;

    /// <summary>The same numbers, with what rounding took below zero put to zero.</summary>
    private static (double VarianceAlong, double VarianceAcross, double Covariance) Checked(double v1, double v2, double c)
    {
        Guard.Finite(v1, nameof(VarianceAlong));
        Guard.Finite(v2, nameof(VarianceAcross));
        Guard.Finite(c, nameof(Covariance));
        var smallest = (v1 + v2) / 2 - double.Hypot((v1 - v2) / 2, c);
        if (!(smallest >= -Rounding * (v1 + v2)))
            throw Guard.Refused(nameof(Covariance), c, $"such that no direction has a negative variance; the least is {smallest:R}");
        return smallest >= 0 ? (v1, v2, c) : (Math.Max(v1, 0), Math.Max(v2, 0),
            Math.CopySign(Math.Min(Math.Abs(c), Math.Sqrt(Math.Max(v1, 0)) * Math.Sqrt(Math.Max(v2, 0))), c));
    }

    /// <summary>No error at all.</summary>
    public static PlaneCovariance None { get; } = new(0, 0, 0);

    /// <summary>The same variance in every direction.</summary>
    /// <param name="sd">Standard deviation per axis.</param>
    public static PlaneCovariance Round(double sd) => OfVariance(sd * sd);

    /// <summary>The same variance in every direction.</summary>
    /// <param name="variance">Variance per axis.</param>
    internal static PlaneCovariance OfVariance(double variance) => new(variance, variance, 0);

    /// <summary>Covariance of a fixed vector times a random number of variance 1.</summary>
    internal static PlaneCovariance OfMultiples(double along, double across) => new(along * along, across * across, along * across);

    internal static PlaneCovariance Of(Matrix<double> m) => new(m[0, 0], m[1, 1], (m[0, 1] + m[1, 0]) / 2);

    /// <summary>Sum of the two variances: the mean square length of such vectors about their mean.</summary>
    public double Trace => VarianceAlong + VarianceAcross;

    private double HalfDifference => double.Hypot((VarianceAlong - VarianceAcross) / 2, Covariance);

    /// <summary>Variance along the direction in which it is least.</summary>
    public double Smallest => Math.Max(0, Trace / 2 - HalfDifference);

    /// <summary>Variance along the direction in which it is greatest.</summary>
    public double Largest => Trace / 2 + HalfDifference;

    /// <summary>Standard deviations along the longest and the shortest axis of its ellipse; 0 where a variance is not above zero.</summary>
    public (double Longest, double Shortest) AxisSds => (Math.Sqrt(Math.Max(Largest, 0)), Math.Sqrt(Math.Max(Smallest, 0)));

    /// <summary>Standard deviation along a direction.</summary>
    /// <param name="along">Part of a unit vector along the first axis.</param>
    /// <param name="across">Its part along the second axis.</param>
    internal double SdAlong(double along, double across) =>
        Math.Sqrt(Math.Max(along * along * VarianceAlong + across * across * VarianceAcross + 2 * along * across * Covariance, 0));

    /// <summary>Product of the variances along the axes of its ellipse; null when it has no second direction to speak of.</summary>
    internal double? Determinant
    {
        get
        {
            var determinant = VarianceAlong * VarianceAcross - Covariance * Covariance;
            return determinant > 1e-12 * Trace * Trace ? determinant : null;
        }
    }

    /// <summary>Squared length of a vector in units of this covariance (Mahalanobis); null when it has no second direction.</summary>
    internal double? SquaredLength(double along, double across) => Determinant is { } determinant
        ? (VarianceAcross * along * along - 2 * Covariance * along * across + VarianceAlong * across * across) / determinant : null;

    internal Matrix<double> ToMatrix() => Matrix<double>.Build.Dense(2, 2, [VarianceAlong, Covariance, Covariance, VarianceAcross]);

    /// <summary>Covariance of the sum of two independent vectors.</summary>
    public static PlaneCovariance operator +(PlaneCovariance a, PlaneCovariance b) =>
        new(a.VarianceAlong + b.VarianceAlong, a.VarianceAcross + b.VarianceAcross, a.Covariance + b.Covariance);

    /// <summary>The covariance scaled by a factor: the square of what the vector is scaled by.</summary>
    public static PlaneCovariance operator *(double factor, PlaneCovariance a) =>
        new(factor * a.VarianceAlong, factor * a.VarianceAcross, factor * a.Covariance);
}
