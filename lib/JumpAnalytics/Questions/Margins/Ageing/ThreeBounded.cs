namespace JumpAnalytics;

/// <summary>
/// The step of three parameters, none below its floor, to the top of a quadratic: exact, by trying which of them stay on their floors.
/// </summary>
internal static class ThreeBounded
{
    /// <summary>Maximises g·d − d·A·d/2 with at + d not below the floors.</summary>
    /// <param name="at">Where the parameters are.</param>
    /// <param name="floor">Their floors.</param>
    /// <param name="g">Slope.</param>
    /// <param name="a">Curvature: 00, 01, 02, 11, 12, 22.</param>
    /// <param name="free">Bits of the parameters that may leave their floors.</param>
    /// <param name="to">Where they go.</param>
    /// <returns>The rise.</returns>
    public static double Step(ReadOnlySpan<double> at, ReadOnlySpan<double> floor, ReadOnlySpan<double> g,
        ReadOnlySpan<double> a, int free, Span<double> to)
    {
        var best = double.NegativeInfinity;
        Span<double> d = stackalloc double[3];
        Span<double> right = stackalloc double[3];
        for (var mask = 0; mask < 8; mask++)
        {
            if ((mask & ~free) != 0) continue;
            for (var i = 0; i < 3; i++) d[i] = (mask >> i & 1) != 0 ? 0 : floor[i] - at[i];
            for (var i = 0; i < 3; i++) right[i] = g[i] - (A(a, i, 0) * d[0] + A(a, i, 1) * d[1] + A(a, i, 2) * d[2]);
            if (!Solve(a, right, mask, d)) continue;
            var inside = true;
            for (var i = 0; i < 3; i++) inside &= at[i] + d[i] >= floor[i] - 1e-15;
            if (!inside) continue;
            var rise = 0.0;
            for (var i = 0; i < 3; i++) rise += d[i] * (g[i] - 0.5 * (A(a, i, 0) * d[0] + A(a, i, 1) * d[1] + A(a, i, 2) * d[2]));
            if (!(rise > best)) continue;
            best = rise;
            for (var i = 0; i < 3; i++) to[i] = Math.Max(floor[i], at[i] + d[i]);
        }
        return best;
    }

    private static double A(ReadOnlySpan<double> a, int i, int j) => (i + j, i * j) switch
    {
        (0, _) => a[0], (1, _) => a[1], (2, 0) => a[2], (2, _) => a[3], (3, _) => a[4], _ => a[5],
    };

    /// <summary>Solves for the parameters of the mask by elimination; false where the curvature is not that of a top.</summary>
    private static bool Solve(ReadOnlySpan<double> a, ReadOnlySpan<double> right, int mask, Span<double> d)
    {
        Span<int> at = stackalloc int[3];
        Span<double> m = stackalloc double[12];
        var n = 0;
        for (var i = 0; i < 3; i++)
        {
            if ((mask >> i & 1) != 0) at[n++] = i;
        }
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++) m[4 * i + j] = A(a, at[i], at[j]);
            m[4 * i + 3] = right[at[i]];
        }
        for (var k = 0; k < n; k++)
        {
            if (!(m[4 * k + k] > 1e-10 * A(a, at[k], at[k]) && m[4 * k + k] > 0)) return false;
            for (var i = k + 1; i < n; i++)
            {
                var f = m[4 * i + k] / m[4 * k + k];
                for (var j = k; j < n; j++) m[4 * i + j] -= f * m[4 * k + j];
                m[4 * i + 3] -= f * m[4 * k + 3];
            }
        }
        for (var k = n - 1; k >= 0; k--)
        {
            var x = m[4 * k + 3];
            for (var j = k + 1; j < n; j++) x -= m[4 * k + j] * d[at[j]];
            d[at[k]] = x / m[4 * k + k];
        }
        return true;
    }
}
