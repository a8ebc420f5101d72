namespace JumpAnalytics.Statistics;

/// <summary>The Bessel functions J0 and J1 to an absolute 1e-15, many at a time.</summary>
internal static class BesselJ
{
    /// <summary>From here on Hankel's expansion (DLMF 10.17.3) is exact to a rounding.</summary>
    private const double Large = 25;
    private const int Quarter = 16;

    // Midpoints of 64 equal parts of a turn, one quarter of them: the mean over the turn of cos(x cos θ) is J0(x)
    // but for 2 J64(x), below 1e-18.
    private static readonly double[] _cosines =
        [.. Enumerable.Range(0, Quarter).Select(k => Math.Cos((k + 0.5) * Math.PI / (2 * Quarter)))];

    /// <summary>J0(x) for x of zero or more.</summary>
    public static double Zero(double x)
    {
        if (x >= Large) return Hankel(x, 0);
        var sum = 0.0;
        foreach (var c in _cosines) sum += Math.Cos(x * c);
        return sum / Quarter;
    }

    /// <summary>J1(x) for x of zero or more.</summary>
    public static double One(double x)
    {
        if (x >= Large) return Hankel(x, 4);
        var sum = 0.0;
        foreach (var c in _cosines) sum += c * Math.Sin(x * c);
        return sum / Quarter;
    }

    private static double Hankel(double x, double square)
    {
        double even = 1, odd = 0, term = 1;
        for (var k = 1; k < 50 && Math.Abs(term) > 1e-17; k++)
        {
            term *= (square - (2 * k - 1) * (2 * k - 1)) / (8 * x * k);
            if (k % 2 == 1) odd += k % 4 == 1 ? term : -term;
            else even += k % 4 == 0 ? term : -term;
        }
        var (sin, cos) = Math.SinCos(x);
        // x − π/4 and x − 3π/4 by addition, which keeps the digits of x.
        var (c, s) = square == 0 ? (cos + sin, sin - cos) : (sin - cos, -sin - cos);
        return (even * c - odd * s) / Math.Sqrt(Math.PI * x);
    }
}
