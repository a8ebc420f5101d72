namespace JumpAnalytics.Statistics;

/// <summary>
/// Value and slope of a curve at a time by a polynomial fitted to its neighbours: at most a cubic, less where few are near (Savitzky and
/// Golay 1964, for uneven times).
/// </summary>
internal static class LocalCubic
{
    private const int Most = 4;

    /// <summary>Fits round a time; null with fewer than two places near.</summary>
    /// <param name="seconds">Times, rising.</param>
    /// <param name="values">Values.</param>
    /// <param name="weights">Weights; 0 leaves a time out.</param>
    /// <param name="at">Index of the time asked for.</param>
    /// <param name="reach">How far neighbours may be, seconds.</param>
    /// <param name="terms">Terms of the polynomial: 4 for a cubic.</param>
    public static (double Value, double Slope)? At(double[] seconds, double[] values, double[] weights, int at, double reach, int terms)
    {
        Span<double> matrix = stackalloc double[Most * Most], right = stackalloc double[Most], powers = stackalloc double[2 * Most];
        matrix.Clear();
        right.Clear();
        var (first, last, count) = (at, at, 0);
        while (first > 0 && seconds[at] - seconds[first - 1] <= reach) first--;
        while (last < seconds.Length - 1 && seconds[last + 1] - seconds[at] <= reach) last++;
        for (var i = first; i <= last; i++) count += weights[i] > 0 ? 1 : 0;
        terms = Math.Min(terms, count - 1);
        if (terms < 2) return null;
        for (var i = first; i <= last; i++)
        {
            if (!(weights[i] > 0)) continue;
            var t = (seconds[i] - seconds[at]) / reach;
            var power = weights[i];
            for (var k = 0; k < 2 * terms - 1; k++, power *= t) powers[k] = power;
            for (var a = 0; a < terms; a++)
            {
                right[a] += powers[a] * values[i];
                for (var b = 0; b < terms; b++) matrix[Most * a + b] += powers[a + b];
            }
        }
        return Solve(matrix, right, terms) ? (right[0], right[1] / reach) : null;
    }

    /// <summary>Gauss's elimination of a small positive definite system, in place.</summary>
    private static bool Solve(Span<double> matrix, Span<double> right, int n)
    {
        for (var k = 0; k < n; k++)
        {
            var pivot = matrix[Most * k + k];
            if (!(pivot > 1e-12)) return false;
            for (var i = k + 1; i < n; i++)
            {
                var factor = matrix[Most * i + k] / pivot;
                for (var j = k; j < n; j++) matrix[Most * i + j] -= factor * matrix[Most * k + j];
                right[i] -= factor * right[k];
            }
        }
        for (var k = n - 1; k >= 0; k--)
        {
            for (var j = k + 1; j < n; j++) right[k] -= matrix[Most * k + j] * right[j];
            right[k] /= matrix[Most * k + k];
        }
        return true;
    }
}
