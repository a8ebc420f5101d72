namespace JumpAnalytics.Statistics;

/// <summary>
/// The gamma distribution with mean 1 on the scale of the logarithm t, where it has one peak at t = 0 whatever its shape k.
/// </summary>
internal static class GammaKernel
{
    public static readonly double LogRoot2Pi = 0.5 * Math.Log(2 * Math.PI);

    /// <summary>
    /// Logarithm of the density of t, ½ log(k / 2π) − Stirling's remainder − k (exp t − 1 − t), which loses no digits for
    /// large k: the part without t.
    /// </summary>
    public static double Top(double shape) => 0.5 * Math.Log(shape) - LogRoot2Pi - Stirling(shape);

    /// <summary>The part with t.</summary>
    public static double Fall(double shape, double t) => -shape * (Kernels.Expm1(t) - t);

    /// <summary>Probabilities of t.</summary>
    public static TailIntegral Integral(double shape)
    {
        var top = Top(shape);
        return new TailIntegral(t => top + Fall(shape, t), Smooth);

        double Smooth(double t)
        {
            var (slope, curvature) = (shape * Math.Abs(Kernels.Expm1(t)), shape * Math.Exp(t) * (t < 0 ? 1 : 2));
            return Math.Min(2 + Math.Max(0, -t), 20 / (slope + Math.Sqrt(slope * slope + 20 * curvature)));
        }
    }

    /// <summary>
    /// log Γ(k) − (k − ½) log k + k − ½ log 2π: its asymptotic series (Abramowitz and Stegun 1964, 6.1.41) above 12, and down
    /// from there by Γ(k + 1) = k Γ(k).
    /// </summary>
    public static double Stirling(double k)
    {
        var sum = 0.0;
        for (; k < 12; k++) sum += (k + 0.5) * Kernels.Log1p(1 / k) - 1;
        var s = 1 / (k * k);
        return sum + (1.0 / 12 - s * (1.0 / 360 - s * (1.0 / 1260 - s * (1.0 / 1680 - s * (1.0 / 1188 - s * 691 / 360360))))) / k;
    }
}
