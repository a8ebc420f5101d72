namespace JumpAnalytics.Tests;

public sealed class NewtonSearchTests
{
    /// <summary>Rosenbrock's valley (1960), least at (1, 1).</summary>
    [Fact]
    public void A_bent_valley_is_followed_to_its_end()
    {
        var end = NewtonSearch.Minimise((x, g) =>
        {
            var (a, b) = (1 - x[0], x[1] - x[0] * x[0]);
            (g[0], g[1]) = (-2 * a - 400 * x[0] * b, 200 * b);
            return a * a + 100 * b * b;
        }, [-1.2, 1], [1, 1]);
        Assert.True(end.Converged);
        Close.Absolute(1, end.Place[0], 1e-10);
        Close.Absolute(1, end.Place[1], 1e-10);
        Close.Relative(802, end.Hessian[0, 0], 1e-6); // 2 − 400(x₂ − x₁²) + 800 x₁²
        Close.Relative(-400, end.Hessian[0, 1], 1e-6);
    }

    [Fact]
    public void A_function_without_a_least_value_does_not_converge()
    {
        var end = NewtonSearch.Minimise((x, g) =>
        {
            g[0] = -1;
            return -x[0];
        }, [0], [1]);
        Assert.False(end.Converged);
    }

    /// <summary>An end that is no number must not be taken for one.</summary>
    [Fact]
    public void A_wall_is_not_passed()
    {
        var end = NewtonSearch.Minimise((x, g) =>
        {
            if (!(x[0] > 0)) return double.PositiveInfinity;
            g[0] = 1 - 3 / x[0];
            return x[0] - 3 * Math.Log(x[0]);
        }, [80], [1]);
        Assert.True(end.Converged);
        Close.Absolute(3, end.Place[0], 1e-9);
    }

    /// <summary>A random positive definite matrix times its inverse; log determinant by MathNet's LU.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(40)]
    public void The_inverse_of_a_dense_matrix_is_its_inverse(int size)
    {
        var random = SeedStream.For(size, "inverse");
        var root = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(size, size, (_, _) => random.NextDouble() - 0.5);
        var matrix = root * root.Transpose() + MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseIdentity(size);
        var rows = matrix.ToRowMajorArray();
        Close.Absolute(Math.Log(matrix.Determinant()), DenseKernels.Invert(rows, size)!.Value, 1e-12 * size);
        var product = matrix * MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseOfRowMajor(size, size, rows);
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++) Close.Absolute(i == j ? 1 : 0, product[i, j], 1e-13);
        }
        rows = matrix.ToRowMajorArray();
        rows[0] = -1;
        Assert.Null(DenseKernels.Invert(rows, size));
    }
}
