namespace JumpAnalytics;

/// <summary>Integrals of smooth functions over heights.</summary>
internal static class Pieces
{
    /// <summary>Points of the rule for each piece, and metres of the longest piece: density and winds are smooth over kilometres.</summary>
    private const int Order = 20;

    private const double Longest = 500;

    private static readonly Quadrature _rule = new(-1, 1, Order);

    /// <summary>Integral over a stretch.</summary>
    public static double Over(double bottom, double top, Func<double, double> f)
    {
        var pieces = Math.Max(1, (int)Math.Ceiling((top - bottom) / Longest));
        var sum = 0.0;
        for (var k = 0; k < pieces; k++) sum += One(bottom + (top - bottom) * k / pieces, bottom + (top - bottom) * (k + 1) / pieces, f);
        return sum;
    }

    /// <summary>
    /// Integral over a stretch whose lower end may be where the function begins steeply: pieces that halve towards the beginning.
    /// </summary>
    public static double Graded(double bottom, double top, Func<double, double> f, double begin = 0)
    {
        var (sum, high) = (0.0, top);
        for (var k = 0; k < 60 && high - bottom > 1e-14 * (top - begin); k++)
        {
            var low = Math.Max(bottom, begin + (high - begin) / 2);
            sum += One(low, high, f);
            high = low;
        }
        return sum;
    }

    private static double One(double a, double b, Func<double, double> f)
    {
        var (middle, half, sum) = ((a + b) / 2, (b - a) / 2, 0.0);
        for (var i = 0; i < Order; i++) sum += _rule.Weight(i) * f(middle + half * _rule.At(i));
        return half * sum;
    }
}
