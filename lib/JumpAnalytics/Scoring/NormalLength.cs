using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>The mean length of a normal vector in the plane.</summary>
internal static class NormalLength
{
    private const int MostAngles = 1 << 16;

    /// <summary>
    /// A length is a quarter of the integral, over all directions, of its projection's size (Cauchy), and the projections are normal, so their
    /// sizes have a mean in closed form. Equal steps of the direction converge faster than any power; they are halved until nothing
    /// changes.
    /// </summary>
    public static double Mean(double mean1, double mean2, double variance1, double variance2, double covariance)
    {
        var (angles, sum) = (16, 0.0);
        for (var i = 0; i < angles; i++) sum += Size(Math.PI * i / angles);
        while (true)
        {
            var between = 0.0;
            for (var i = 0; i < angles; i++) between += Size(Math.PI * (i + 0.5) / angles);
            var settled = Math.Abs(between - sum) <= 1e-13 * sum;
            (angles, sum) = (2 * angles, sum + between);
            if (settled || angles >= MostAngles) return Math.PI / 2 * sum / angles;
        }

        // The mean size of the projection on a direction; the opposite direction has the same.
        double Size(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            var mean = mean1 * cos + mean2 * sin;
            var sd = Math.Sqrt(Math.Max(0, variance1 * cos * cos + 2 * covariance * cos * sin + variance2 * sin * sin));
            if (sd == 0) return Math.Abs(mean);
            var z = mean / sd;
            return 2 * Constants.InvSqrt2Pi * sd * Math.Exp(-z * z / 2) + mean * SpecialFunctions.Erf(z / Constants.Sqrt2);
        }
    }
}
