using MathNet.Numerics.RootFinding;

namespace JumpAnalytics.Internals;

/// <summary>
/// The noncentral t distribution: (Z + offset) / √(χ²/degrees), Z standard normal and χ² independent of it. Its distribution function is the mean of
/// Φ(t·s − offset) over s = √(χ²/degrees), summed at equal steps of ln s, where the density of s is smooth and falls off on both sides, so
/// that the sum converges faster than any power of the step.
/// </summary>
internal static class NoncentralT
{
    // In units of one over the root of the integrand's curvature where it bends most. Half of it changes no digit.
    private const double Spacing = 0.6;

    // The density of ln s is analytic up to ±π/4 from the line for one degree of freedom.
    private const double WidestStep = 0.1;

    // exp(-Negligible) is below the rounding of a double.
    private const double Negligible = 40;

    /// <summary>The distribution function at <paramref name="t"/>.</summary>
    /// <param name="t">A finite number.</param>
    /// <param name="degrees">Degrees of freedom, 1 or more.</param>
    /// <param name="offset">The noncentrality.</param>
    public static double Below(double t, double degrees, double offset)
    {
        var step = Math.Min(WidestStep, Spacing / Math.Sqrt(2 * degrees + offset * offset));
        double below = 0, all = 0;
        Sum(0, step);
        Sum(-step, -step);
        return below / all;

        void Sum(double from, double by)
        {
            for (var x = from; ; x += by)
            {
                // ln of the density of ln s, less its greatest value, which is at s = 1.
                var height = -0.5 * degrees * (Math.Exp(2 * x) - 1 - 2 * x);
                if (height < -Negligible) return;
                var weight = Math.Exp(height);
                all += weight;
                below += weight * NormalInterval.Below(t * Math.Exp(x) - offset);
            }
        }
    }

    /// <summary>The value that a share does not pass.</summary>
    /// <param name="share">Between 0 and 1, both excluded.</param>
    /// <param name="degrees">Degrees of freedom, 1 or more.</param>
    /// <param name="offset">The noncentrality.</param>
    public static double Quantile(double share, double degrees, double offset)
    {
        double low = offset - 1, high = offset + 1;
        for (var width = 1.0; Below(low, degrees, offset) > share; width *= 2) low -= width;
        for (var width = 1.0; Below(high, degrees, offset) < share; width *= 2) high += width;
        return Brent.FindRoot(t => Below(t, degrees, offset) - share, low, high, 1e-16, 200);
    }
}
