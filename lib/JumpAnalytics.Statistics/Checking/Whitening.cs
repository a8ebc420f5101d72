namespace JumpAnalytics;

/// <summary>Points moved to mean zero and turned and stretched to unit covariance (divisor n), on which every affine-invariant statistic rests.</summary>
internal static class Whitening
{
    // A coordinate whose variance is this small a part of its own square, or is left over from those before it, has no spread but rounding.
    private const double Least = 1e-12;
    private const double LeastOfSquare = 1e-26;

    /// <summary>The whitened points, or null when they lie in fewer dimensions than they have coordinates.</summary>
    /// <param name="points">Coordinates, point after point.</param>
    /// <param name="dimensions">Coordinates of a point.</param>
    public static double[]? Of(ReadOnlySpan<double> points, int dimensions)
    {
        var n = points.Length / dimensions;
        var mean = new double[dimensions];
        for (var i = 0; i < points.Length; i++) mean[i % dimensions] += points[i] / n;
        var white = new double[points.Length];
        for (var i = 0; i < points.Length; i++) white[i] = points[i] - mean[i % dimensions];

        var covariance = new double[dimensions, dimensions];
        for (var i = 0; i < points.Length; i += dimensions)
        {
            for (var a = 0; a < dimensions; a++)
            {
                for (var b = 0; b <= a; b++) covariance[a, b] += white[i + a] * white[i + b] / n;
            }
        }
        if (Triangle(covariance, mean) is not { } root) return null;

        // Forward substitution, point by point, in place.
        for (var i = 0; i < white.Length; i += dimensions)
        {
            for (var a = 0; a < dimensions; a++)
            {
                for (var b = 0; b < a; b++) white[i + a] -= root[a, b] * white[i + b];
                white[i + a] /= root[a, a];
            }
        }
        return white;
    }

    /// <summary>Cholesky's lower triangle of a covariance; null when it is singular.</summary>
    private static double[,]? Triangle(double[,] covariance, double[] mean)
    {
        var root = (double[,])covariance.Clone();
        for (var a = 0; a < mean.Length; a++)
        {
            for (var b = 0; b <= a; b++)
            {
                for (var c = 0; c < b; c++) root[a, b] -= root[a, c] * root[b, c];
                if (b < a) root[a, b] /= root[b, b];
            }
            if (!(root[a, a] > Least * covariance[a, a] && covariance[a, a] > LeastOfSquare * mean[a] * mean[a])) return null;
            root[a, a] = Math.Sqrt(root[a, a]);
        }
        return root;
    }
}
