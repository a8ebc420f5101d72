using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Gauss-Hermite quadrature for the standard normal: the mean of f(z) is Σ weight · f(node), exact for polynomials up to degree 2n − 1.
/// </summary>
/// <remarks>
/// Nodes are the eigenvalues of the Jacobi matrix (Golub and Welsch 1969, Mathematics of Computation 23:221-230), polished by Newton's
/// method on the orthonormal Hermite polynomial; weights from its Christoffel numbers.
/// </remarks>
internal sealed class GaussHermite
{
    /// <summary>More nodes than that are of no use here.</summary>
    public const int MostNodes = 100;

    private GaussHermite(double[] nodes, double[] logWeights) => (Nodes, LogWeights) = (nodes, logWeights);

    /// <summary>The nodes, rising, symmetric about zero.</summary>
    public double[] Nodes { get; }

    /// <summary>Natural logarithms of the weights, which sum to 1.</summary>
    public double[] LogWeights { get; }

    /// <summary>A rule of some number of nodes, from 1 to <see cref="MostNodes"/>.</summary>
    public static GaussHermite Of(int count)
    {
        var jacobi = Matrix<double>.Build.Dense(count, count, (i, j) => Math.Abs(i - j) == 1 ? Math.Sqrt(Math.Max(i, j)) : 0);
        var (nodes, logWeights) = (new double[count], new double[count]);
        var starts = jacobi.Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order().ToArray();
        for (var k = 0; k < count - count / 2; k++)
        {
            var mirror = count - 1 - k;
            var z = mirror == k ? 0 : starts[k];
            for (var step = 0; step < 3 && mirror != k; step++)
            {
                var (last, slope, _) = Polynomials(z, count);
                z -= last / slope;
            }
            (nodes[k], nodes[mirror]) = (z, -z);
            logWeights[k] = logWeights[mirror] = -Math.Log(Polynomials(z, count).Squares);
        }
        return new GaussHermite(nodes, logWeights);
    }

    /// <summary>The orthonormal polynomial of a degree, its slope, and the sum of squares of those of lower degree.</summary>
    private static (double Last, double Slope, double Squares) Polynomials(double z, int degree)
    {
        var (before, now, squares) = (0.0, 1.0, 0.0);
        for (var j = 0; j < degree; j++)
        {
            squares += now * now;
            (before, now) = (now, (z * now - Math.Sqrt(j) * before) / Math.Sqrt(j + 1));
        }
        return (now, Math.Sqrt(degree) * before, squares);
    }
}
