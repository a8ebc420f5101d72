namespace JumpAnalytics.Statistics;

/// <summary>
/// The beta distribution on the scale of t, the log-odds of x less those of a / (a + b), where it has one peak at t = 0 whatever its
/// exponents. For F on 2a and 2b degrees of freedom t is the logarithm.
/// </summary>
internal static class BetaKernel
{
    /// <summary>The t at which a share of the distribution is below.</summary>
    public static double Place(double a, double b, TailShare share) =>
        a <= b ? Integral(a, b).Place(share) : -Integral(b, a).Place(share.Opposite);

    /// <summary>Natural logarithm of the probability of a value up to x, or beyond it.</summary>
    /// <param name="a">The exponent at 0, above 0.</param>
    /// <param name="b">The exponent at 1.</param>
    /// <param name="x">From 0 to 1.</param>
    /// <param name="beyond">Beyond x and not up to it.</param>
    public static double LogTail(double a, double b, double x, bool beyond)
    {
        if (x is 0 or 1) return beyond == (x == 0) ? 0 : double.NegativeInfinity;
        var t = Math.Log(x) - Kernels.Log1p(-x) - Math.Log(a / b);
        return a <= b ? Tail(Integral(a, b), t, beyond) : Tail(Integral(b, a), -t, !beyond);
    }

    private static double Tail(TailIntegral integral, double t, bool beyond) =>
        integral.LogBeyond(beyond ? t : -t, beyond ? 1 : -1);

    /// <summary>
    /// Probabilities of t; a is not above b, so that what the logarithm is taken of loses no digits. Stirling's remainders in place of
    /// the beta function, which would cancel.
    /// </summary>
    private static TailIntegral Integral(double a, double b)
    {
        var (sum, centre, middle) = (a + b, a / (a + b), Math.Log(b / a));
        var top = 0.5 * Math.Log(a * (b / sum)) - GammaKernel.LogRoot2Pi
            + GammaKernel.Stirling(sum) - GammaKernel.Stirling(a) - GammaKernel.Stirling(b);
        return new TailIntegral(Density, Smooth);

        double Density(double t) =>
            top + a * t - sum * (t > 300 ? Math.Log(centre) + t : Kernels.Log1p(centre * Kernels.Expm1(t)));

        double Smooth(double t)
        {
            var x = 1 / (1 + Math.Exp(middle - t));
            var (slope, curvature) = (sum * Math.Abs(x - centre), sum * x * (1 - x) * (t < 0 ? 1 : 2));
            return Math.Min(2 + Math.Max(Math.Max(0, -t), t - middle), 20 / (slope + Math.Sqrt(slope * slope + 20 * curvature)));
        }
    }
}
