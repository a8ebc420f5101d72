namespace JumpAnalytics.Statistics;

/// <summary>A(κ) = I1(κ)/I0(κ), the mean resultant length of a von Mises distribution, its inverse, and log I0.</summary>
internal static class BesselRatio
{
    private const double Large = 20;
    private const int Steps = 100;

    /// <summary>
    /// I1(x)/I0(x) to a few roundings: Gauss's continued fraction taken from behind, and for large x the quotient of the asymptotic series.
    /// </summary>
    /// <param name="x">Zero or more.</param>
    /// <remarks>
    /// Abramowitz and Stegun (1964), 9.7.1; the fraction is DLMF 10.33.1. From x = 20 on a series is exact to a
    /// rounding before its least term.
    /// </remarks>
    public static double Of(double x)
    {
        if (x == 0) return 0;
        if (x >= Large) return FirstScaled(x) / BesselI0.Scaled(x);
        var ratio = 0.0;
        for (var k = Steps; k > 0; k--) ratio = 1 / (2 * k / x + ratio);
        return ratio;
    }

    /// <summary>The concentration of a von Mises distribution with this mean resultant length: A⁻¹.</summary>
    /// <param name="length">0 or more, below 1.</param>
    /// <remarks>Newton from Best and Fisher's (1981) approximation; A' = 1 − A/κ − A².</remarks>
    public static double Inverse(double length)
    {
        if (length == 0) return 0;
        var r = length;
        var kappa = r < 0.53 ? r * (2 + r * r * (1 + 5 * r * r / 6)) : r < 0.85
            ? -0.4 + 1.39 * r + 0.43 / (1 - r) : 1 / (r * (3 + r * (r - 4)));
        for (var i = 0; i < 50; i++)
        {
            var a = Of(kappa);
            var step = (a - r) / Slope(kappa, a);
            kappa -= Math.Min(step, kappa / 2);
            if (Math.Abs(step) <= 1e-15 * kappa) break;
        }
        return kappa;
    }

    /// <summary>log I0(x), accurate near zero and without overflow.</summary>
    /// <param name="x">Zero or more.</param>
    public static double LogI0(double x)
    {
        if (x > 1) return x + Math.Log(BesselI0.Scaled(x));
        double sum = 0, term = 1;
        for (var k = 1; k < 20; k++) sum += term *= x * x / (4.0 * k * k);
        return Kernels.Log1p(sum);
    }

    // Above, 1 − A/κ − A² loses digits: 1/(2κ²) by its series there.
    private static double Slope(double kappa, double a) =>
        kappa > 1000 ? (0.5 + (0.25 + 0.375 / kappa) / kappa) / (kappa * kappa) : kappa < 1e-4 ? 0.5 : 1 - a / kappa - a * a;

    private static double FirstScaled(double x)
    {
        double sum = 1, term = 1;
        for (var k = 1; Math.Abs(term) > 1e-17 && k < 2 * Large; k++) sum += term *= -(4.0 - (2 * k - 1) * (2 * k - 1)) / (8 * x * k);
        return sum / Math.Sqrt(2 * Math.PI * x);
    }
}
