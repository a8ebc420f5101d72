using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Tests;

public sealed class RandomContrastsTests
{
    private static RandomContrasts Of(double[] y, Matrix<double> covariance) => new(y, covariance, 0.95, 0.5);

    /// <summary>What independent estimates say of differences is the restricted likelihood of their random-effects mean.</summary>
    [Theory]
    [InlineData("vaccine")]
    [InlineData("viechtbauer")]
    [InlineData("schools")]
    public void Independent_estimates_give_the_random_effects_mean(string set)
    {
        var (y, v) = RandomEffectsMeanTests.Set(set);
        var (one, other) = (Of(y, Matrix<double>.Build.DenseOfDiagonalArray(v)), RandomEffectsMean.Of(y, v).Value!);
        Close.Absolute(other.TauSquared, one.TauSquared, 1e-12);
        Close.Relative(other.Q, one.Q, 1e-12);
        Close.Relative(other.QP, one.P, 1e-9);
        Close.Absolute(other.TauSquaredRange.Low, one.TauSquaredRange.Low, 1e-9);
        Close.Relative(other.TauSquaredRange.High, one.TauSquaredRange.High, 1e-10);
    }

    /// <summary>
    /// Correlated estimates, by dense matrices and adaptive integration in R 4.2.2: tests/reference/shrinking. The
    /// integral here is a trapezoid sum.
    /// </summary>
    [Theory]
    [InlineData("vaccine")]
    [InlineData("viechtbauer")]
    public void Correlated_estimates_give_what_dense_matrices_give(string set)
    {
        var (y, v) = RandomEffectsMeanTests.Set(set);
        var covariance = Matrix<double>.Build.Dense(y.Length, y.Length,
            (i, j) => 0.3 + (i == j ? v[i] : Math.Abs(i - j) == 1 ? 0.4 * Math.Sqrt(v[i] * v[j]) : 0));
        var made = Of(y, covariance);
        Close.Relative(RandomEffectsMeanTests.Reference(set, "CorrelatedTau2"), made.TauSquared, 1e-9);
        Close.Relative(RandomEffectsMeanTests.Reference(set, "CorrelatedQ"), made.Q, 1e-9);
        var difference = made.Difference([1, .. Enumerable.Repeat(-1.0 / (y.Length - 1), y.Length - 1)]);
        Close.Absolute(RandomEffectsMeanTests.Reference(set, "AveragedFirst"), difference.Mean, 1e-6);
        Close.Absolute(RandomEffectsMeanTests.Reference(set, "FirstBelowZero"), difference.Below(0), 1e-6);
        foreach (var share in new[] { 0.001, 0.025, 0.5, 0.975 })
            Close.Absolute(share, difference.Below(difference.Quantile(share)), 1e-12);
    }

    [Fact]
    public void What_the_estimates_have_in_common_does_not_matter()
    {
        var (y, v) = RandomEffectsMeanTests.Set("viechtbauer");
        var (one, other) = (Of(y, Matrix<double>.Build.DenseOfDiagonalArray(v)),
            Of([.. y.Select(x => x + 7)], Matrix<double>.Build.DenseOfDiagonalArray(v) + 3));
        Close.Relative(one.TauSquared, other.TauSquared, 1e-9);
        Close.Relative(one.Q, other.Q, 1e-9);
        Assert.Throws<ArgumentException>(() => Of([1], Matrix<double>.Build.Dense(1, 1, 1)));
        Assert.Throws<ArgumentException>(() => Of([1, 2], Matrix<double>.Build.Dense(2, 2, 1)));
    }
}
