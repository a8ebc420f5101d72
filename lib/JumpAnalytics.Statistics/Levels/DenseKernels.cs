using System.Numerics;
using System.Runtime.InteropServices;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Positive definite matrices as blocks of rows, on one thread: every number is the same on any machine, and a system of a hundred rows is
/// not slowed down by the sharing out of its work.
/// </summary>
internal static class DenseKernels
{
    /// <summary>Adds a multiple of one row to another.</summary>
    public static void Add(double factor, ReadOnlySpan<double> from, Span<double> to)
    {
        if (factor == 0) return;
        var wideFrom = MemoryMarshal.Cast<double, Vector<double>>(from);
        var wideTo = MemoryMarshal.Cast<double, Vector<double>>(to);
        var wide = new Vector<double>(factor);
        for (var i = 0; i < wideTo.Length; i++) wideTo[i] += wide * wideFrom[i];
        for (var i = wideTo.Length * Vector<double>.Count; i < to.Length; i++) to[i] += factor * from[i];
    }

    /// <summary>Puts the inverse in place of a positive definite matrix.</summary>
    /// <param name="matrix">Rows of the matrix, all of it.</param>
    /// <param name="size">Number of rows.</param>
    /// <returns>The logarithm of the matrix's determinant; null when it is not positive definite.</returns>
    public static double? Invert(double[] matrix, int size)
    {
        // Uᵀ U in the upper triangle.
        var logDeterminant = 0.0;
        for (var k = 0; k < size; k++)
        {
            var pivot = matrix[k * size + k];
            if (!(pivot > 0) || double.IsInfinity(pivot)) return null;
            logDeterminant += Math.Log(pivot);
            var root = Math.Sqrt(pivot);
            var row = matrix.AsSpan(k * size, size);
            for (var j = k; j < size; j++) row[j] /= root;
            for (var i = k + 1; i < size; i++) Add(-row[i], row[i..], matrix.AsSpan(i * size + i, size - i));
        }

        // Uᵀ Z = I, then U X = Z, by rows.
        var inverse = new double[size * size];
        for (var k = 0; k < size; k++)
        {
            var row = inverse.AsSpan(k * size, size);
            row[k] = 1;
            for (var i = 0; i < k; i++) Add(-matrix[i * size + k], inverse.AsSpan(i * size, i + 1), row[..(i + 1)]);
            for (var j = 0; j <= k; j++) row[j] /= matrix[k * size + k];
        }
        for (var k = size - 1; k >= 0; k--)
        {
            var row = inverse.AsSpan(k * size, size);
            for (var i = k + 1; i < size; i++) Add(-matrix[k * size + i], inverse.AsSpan(i * size, size), row);
            for (var j = 0; j < size; j++) row[j] /= matrix[k * size + k];
        }
        inverse.CopyTo(matrix, 0);
        return logDeterminant;
    }
}
