using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Statistics;

/// <summary>The mean size of a number drawn from a symmetric law of spread 1 about a place.</summary>
internal interface IMeanSize
{
    /// <summary>The mean of |place + draw|.</summary>
    double About(double place);
}

/// <summary>
/// The mean length of a vector in the plane whose projections are all of one law, shifted and scaled: of a normal, a t, or a mixture
/// of two normals of one shape.
/// </summary>
internal static class MeanLength
{
    private const int MostAngles = 1 << 16;

    /// <summary>
    /// A length is a quarter of the integral, over all directions, of its projection's size (Cauchy), and the sizes of the projections have
    /// a mean in closed form. Equal steps of the direction converge faster than any power; they are halved until nothing changes.
    /// </summary>
    public static double Of<TSize>(TSize size, double mean1, double mean2, double variance1, double variance2, double covariance)
        where TSize : struct, IMeanSize
    {
        var (angles, sum) = (16, 0.0);
        for (var i = 0; i < angles; i++) sum += Projected(Math.PI * i / angles);
        while (true)
        {
            var between = 0.0;
            for (var i = 0; i < angles; i++) between += Projected(Math.PI * (i + 0.5) / angles);
            var settled = Math.Abs(between - sum) <= 1e-13 * sum;
            (angles, sum) = (2 * angles, sum + between);
            if (settled || angles >= MostAngles) return Math.PI / 2 * sum / angles;
        }

        // The mean size of the projection on a direction; the opposite direction has the same.
        double Projected(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            var mean = mean1 * cos + mean2 * sin;
            var sd = Math.Sqrt(Math.Max(0, variance1 * cos * cos + 2 * covariance * cos * sin + variance2 * sin * sin));
            return sd == 0 ? Math.Abs(mean) : sd * size.About(mean / sd);
        }
    }

    /// <summary>The standard normal.</summary>
    public readonly struct NormalSize : IMeanSize
    {
        public double About(double place) =>
            2 * Constants.InvSqrt2Pi * Math.Exp(-place * place / 2) + place * SpecialFunctions.Erf(place / Constants.Sqrt2);
    }

    /// <summary>Student's t with more than one degree of freedom.</summary>
    public readonly struct StudentSize(double freedom) : IMeanSize
    {
        public double About(double place) =>
            2 * StudentT.PDF(0, 1, freedom, place) * (freedom + place * place) / (freedom - 1)
            + place * (1 - 2 * StudentT.CDF(0, 1, freedom, -place));
    }

    /// <summary>A standard normal and, with some share, one some times as wide.</summary>
    public readonly struct MixtureSize(double wideShare, double widening) : IMeanSize
    {
        public double About(double place) =>
            (1 - wideShare) * new NormalSize().About(place) + wideShare * widening * new NormalSize().About(place / widening);
    }
}
