using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Sums of a function over many whole numbers in a row, by few of its values: Gauss's rule for equal masses on whole numbers, whose
/// orthogonal polynomials are Chebyshev's discrete ones (Gautschi 2004, Orthogonal Polynomials, section 1.5.2).
/// </summary>
internal static class DiscreteSum
{
    private const int Nodes = 14;

    /// <summary>Places and weights, for a function that is smooth but for a pole at 0 or below, as log(p + j) is.</summary>
    /// <param name="from">The first whole number, above 0.</param>
    /// <param name="to">The one after the last.</param>
    /// <remarks>
    /// Rules of 14 nodes over ranges of at most an octave, for which the pole is three half widths from the middle: relative error 1e-20.
    /// </remarks>
    public static IEnumerable<(double At, double Weight)> Places(int from, int to)
    {
        for (long low = from, high; low < to; low = high)
        {
            high = Math.Min(2 * low, to);
            foreach (var place in high - low <= Nodes ? Each(low, high) : Rule(low, high)) yield return place;
        }
    }

    private static IEnumerable<(double At, double Weight)> Each(long low, long high)
    {
        for (var j = low; j < high; j++) yield return (j, 1);
    }

    /// <summary>Golub and Welsch's (1969) way: eigenvalues of the Jacobi matrix, and first elements of its eigenvectors.</summary>
    private static IEnumerable<(double At, double Weight)> Rule(long low, long high)
    {
        double count = high - low, middle = (low + high - 1) / 2.0;
        var jacobi = Matrix<double>.Build.Dense(Nodes, Nodes, (i, j) => Math.Abs(i - j) == 1 ? Beside(Math.Max(i, j)) : 0);
        var parts = jacobi.Evd(Symmetricity.Symmetric);
        for (var k = 0; k < Nodes; k++)
        {
            var first = parts.EigenVectors[0, k];
            yield return (middle + count * parts.EigenValues[k].Real, count * first * first);
        }

        double Beside(int n) => n / 2.0 * Math.Sqrt((1 - n / count * (n / count)) / (4.0 * n * n - 1));
    }
}
