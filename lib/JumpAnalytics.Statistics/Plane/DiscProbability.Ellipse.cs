using System.Globalization;

namespace JumpAnalytics.Statistics;

public static partial class DiscProbability
{
    // Below this ratio of the principal standard deviations the minor one counts as zero.
    private const double FlatRatio = 1e-30;

    // Correlations closer to one than this are one with rounding.
    private const double FlatDeterminant = 1e-15;

    // A covariance larger than the variances allow by no more than rounding is the largest that they allow.
    private const double Rounding = 1e-9;

    /// <summary>The covariance itself, or the largest that the variances allow where it is above it by rounding.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is larger than the variances allow.</exception>
    internal static double Possible(double variance1, double variance2, double covariance)
    {
        var limit = Math.Sqrt(variance1) * Math.Sqrt(variance2);
        if (Math.Abs(covariance) <= limit * (1 + Rounding)) return Math.Clamp(covariance, -limit, limit);
        var bound = limit.ToString("R", CultureInfo.InvariantCulture);
        throw Guard.Refused(nameof(covariance), covariance, $"from -{bound} to {bound}");
    }

    /// <summary>Whether a normal of this covariance has a second direction, so that it is not along a line or at a place.</summary>
    internal static bool HasArea(double variance1, double variance2, double covariance) =>
        variance1 > 0 && variance2 > 0
        && Ellipse.Of(0, 0, variance1, variance2, covariance, ScaleOf(variance1, variance2)).Minor > 0;

    // Exponent of the power of two that scales lengths: 0 for variances of 1e-30 to 1e30, otherwise one that brings the
    // larger variance near one, so that squares stay in range.
    private static int ScaleOf(double variance1, double variance2)
    {
        var largest = Math.Max(variance1, variance2);
        return largest is >= 1e-30 and <= 1e30 ? 0 : -Math.ILogB(largest) / 2;
    }

    // The distribution in its principal axes, the mean mirrored to where both of its coordinates are positive. The
    // distance is that of the mean, taken before the turn: near a far rim it needs every digit.
    private readonly record struct Ellipse(
        double MeanMinor, double MeanMajor, double MeanDistance, double Minor, double Major)
    {
        public static Ellipse Of(
            double mean1, double mean2, double variance1, double variance2, double covariance, int scale)
        {
            if (scale != 0)
            {
                mean1 = double.ScaleB(mean1, scale);
                mean2 = double.ScaleB(mean2, scale);
                variance1 = double.ScaleB(variance1, 2 * scale);
                variance2 = double.ScaleB(variance2, 2 * scale);
                covariance = double.ScaleB(covariance, 2 * scale);
            }

            var difference = 0.5 * (variance1 - variance2);
            var spread = Math.Sqrt(difference * difference + covariance * covariance);
            var major = 0.5 * (variance1 + variance2) + spread;

            // The determinant with its rounding error: the minor variance is its quotient, without cancellation.
            var square = covariance * covariance;
            var error = Math.FusedMultiplyAdd(covariance, covariance, -square);
            var determinant = Math.FusedMultiplyAdd(variance1, variance2, -square) - error;
            var minor = determinant > FlatDeterminant * variance1 * variance2 ? determinant / major : 0;
            if (minor < FlatRatio * FlatRatio * major)
                minor = 0;

            // Half the angle of (difference, covariance) by half-angle formulas, from the larger of sine and cosine.
            double cos = 1, sin = 0;
            if (spread > 0 && difference >= 0)
            {
                cos = Math.Sqrt(0.5 * (1 + difference / spread));
                sin = covariance / (2 * spread * cos);
            }
            else if (spread > 0)
            {
                sin = Math.Sqrt(0.5 * (1 - difference / spread));
                cos = covariance / (2 * spread * sin);
            }

            return new Ellipse(
                MeanMinor: Math.Abs(cos * mean2 - sin * mean1),
                MeanMajor: Math.Abs(cos * mean1 + sin * mean2),
                MeanDistance: double.Hypot(mean1, mean2),
                Minor: Math.Sqrt(minor),
                Major: Math.Sqrt(major));
        }
    }
}
