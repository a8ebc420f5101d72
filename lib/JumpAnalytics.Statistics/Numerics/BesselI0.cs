namespace JumpAnalytics.Statistics;

/// <summary>The modified Bessel function of the first kind of order zero, I0.</summary>
internal static class BesselI0
{
    /// <summary>From here on the asymptotic series is exact to a rounding: its least term is about exp(-2 x).</summary>
    private const double Large = 20;

    private static readonly double[] _inverseSquares = [.. Enumerable.Range(1, 60).Select(k => 1.0 / k / k)];

    /// <summary>exp(-x) I0(x), which neither overflows nor vanishes; accurate to 1e-15.</summary>
    /// <param name="x">Zero or more.</param>
    /// <remarks>
    /// Power series, and the asymptotic one: Abramowitz and Stegun (1964, Handbook of Mathematical Functions), 9.6.12 and 9.7.1.
    /// </remarks>
    public static double Scaled(double x)
    {
        double sum = 1, term = 1;
        if (x < Large)
        {
            var square = x * x / 4;
            for (var k = 0; term > 1e-17 * sum; k++) sum += term *= square * _inverseSquares[k];
            return Math.Exp(-x) * sum;
        }
        for (var k = 1; term > 1e-17 && k < 2 * Large; k++) sum += term *= (2 * k - 1) * (2 * k - 1) / (8 * x * k);
        return sum / Math.Sqrt(2 * Math.PI * x);
    }
}
