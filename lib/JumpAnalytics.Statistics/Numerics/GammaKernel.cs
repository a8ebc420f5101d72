namespace JumpAnalytics.Statistics;

/// <summary>
/// The gamma distribution with mean 1 on the scale of the logarithm t, where it has one peak at t = 0 whatever its shape k.
/// </summary>
internal static class GammaKernel
{
    private static readonly double _logRoot2Pi = 0.5 * Math.Log(2 * Math.PI);

    /// <summary>
    /// Logarithm of the density of t, ½ log(k / 2π) − Stirling's remainder − k (exp t − 1 − t), which loses no digits for
    /// large k: the part without t.
    /// </summary>
    public static double Top(double shape) => 0.5 * Math.Log(shape) - _logRoot2Pi - Stirling(shape);

    /// <summary>The part with t.</summary>
    public static double Fall(double shape, double t) => -shape * (Kernels.Expm1(t) - t);

    /// <summary>Probabilities of t.</summary>
    public static TailIntegral Integral(double shape)
    {
        var top = Top(shape);
        return new TailIntegral(t => top + Fall(shape, t), double.NegativeInfinity, 0, Smooth);

        double Smooth(double t)
        {
            var (slope, curvature) = (shape * Math.Abs(Kernels.Expm1(t)), shape * Math.Exp(t) * (t < 0 ? 1 : 2));
            return Math.Min(2 + Math.Max(0, -t), 20 / (slope + Math.Sqrt(slope * slope + 20 * curvature)));
        }
    }

    /// <summary>The t that a probability lies below.</summary>
    public static double Quantile(double shape, double probability)
    {
        var (integral, rest) = (Integral(shape), Kernels.Log1p(-probability));
        // Chernoff's bounds: beyond t lies no more than exp(-k (exp t - 1 - t)), which is t² / 2 or more above 0 and -1 - t or more below.
        var (low, high) = (-1 + Math.Log(probability) / shape, Math.Sqrt(-2 * rest / shape));
        return Roots.Of(Excess, low - 1e-9, high + 1e-9, 1e-14)
            ?? throw new InvalidOperationException($"No quantile of the gamma distribution of shape {shape:R} at {probability:R}.");

        double Excess(double t) => probability < 0.5
            ? integral.LogBetween(double.NegativeInfinity, t, double.PositiveInfinity) - Math.Log(probability)
            : rest - integral.LogBetween(t, double.PositiveInfinity, double.PositiveInfinity);
    }

    /// <summary>
    /// log Γ(k) − (k − ½) log k + k − ½ log 2π: its asymptotic series (Abramowitz and Stegun 1964, 6.1.41) above 12, and down
    /// from there by Γ(k + 1) = k Γ(k).
    /// </summary>
    private static double Stirling(double k)
    {
        var sum = 0.0;
        for (; k < 12; k++) sum += (k + 0.5) * Kernels.Log1p(1 / k) - 1;
        var s = 1 / (k * k);
        return sum + (1.0 / 12 - s * (1.0 / 360 - s * (1.0 / 1260 - s * (1.0 / 1680 - s * (1.0 / 1188 - s * 691 / 360360))))) / k;
    }
}
