using MathNet.Numerics;

namespace JumpAnalytics.Statistics;

/// <summary>Probabilities of the standard normal that keep their relative accuracy in the tails.</summary>
internal static class NormalInterval
{
    public const double InverseSqrt2Pi = 0.39894228040143267794;
    private const double InverseSqrt2 = 0.70710678118654752440;

    // Below this width the series is exact to 1e-14; above it the difference of two tails loses at most two digits.
    private const double SeriesWidth = 0.05;

    // exp(-Negligible) is below the rounding of a double.
    private const double Negligible = 37;

    /// <summary>The distribution function: probability of a value up to <paramref name="z"/>.</summary>
    public static double Below(double z) => 0.5 * SpecialFunctions.Erfc(-z * InverseSqrt2);

    /// <summary>
    /// Probability that a standard normal lies between <paramref name="near"/> and near + 2 <paramref name="half"/>.
    /// </summary>
    /// <param name="near">The lower end, in standard deviations; the middle of the interval is not negative.</param>
    /// <param name="half">Half the width of the interval, in standard deviations.</param>
    public static double From(double near, double half)
    {
        var centre = near + half;
        if (half * Math.Max(1, centre) < SeriesWidth)
            return Narrow(centre, half);

        // Both tails from the same side; the far one is left out where it is below the rounding of the near one.
        var far = centre + half;
        var nearTail = SpecialFunctions.Erfc(near * InverseSqrt2);
        var fall = near > 0 ? 2 * centre * half : 0.5 * far * far;
        return fall > Negligible
            ? 0.5 * nearTail
            : 0.5 * (nearTail - SpecialFunctions.Erfc(far * InverseSqrt2));
    }

    // The density expanded about the centre and integrated: even Hermite polynomials, even powers of the half width.
    private static double Narrow(double centre, double half)
    {
        var c = centre * centre;
        var h = half * half;
        var second = c - 1;
        var fourth = (c - 6) * c + 3;
        var sixth = ((c - 15) * c + 45) * c - 15;
        var series = 1 + h * (second / 6 + h * (fourth / 120 + h * sixth / 5040));
        return 2 * half * InverseSqrt2Pi * Math.Exp(-0.5 * c) * series;
    }
}
