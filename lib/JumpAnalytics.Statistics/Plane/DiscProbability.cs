namespace JumpAnalytics.Statistics;

/// <summary>
/// Probability that a bivariate normal point lies in a disc about the origin or beyond it, and the radius that holds a
/// given probability, for instance 50, 90 or 95 % of points.
/// </summary>
/// <remarks>
/// <para>Lengths may be in any one unit, used throughout; variances and the covariance are in that unit squared.</para>
/// <para>
/// Method: the distribution is turned to its principal axes and taken in standard deviations, where the normal is round
/// and the disc an ellipse. In polar coordinates about the mean the radial integral is closed, and one integral round
/// the rim is left, of exp(-s/2) for the squared distance s of the rim from the mean. Written in the angle round the
/// disc it is smooth and periodic, so that even angles converge geometrically (Trefethen and Weideman 2014, SIAM Review
/// 56, 385-458); how many are needed follows from the exponent. Where that would be hundreds, the integral over the
/// chords across the minor axis takes its place, within a window about the mean: the density times the normal
/// probability of the chord (DiDonato and Jarnagin 1961, Mathematics of Computation 15, 375-382, treat this integral for
/// the offset ellipse; Harter 1960, Journal of the American Statistical Association 55, 723-731, tabulates the centred
/// one). For a disc so large that its rim is all but straight, it is the half plane with the rim's mean curvature.
/// </para>
/// <para>
/// Accuracy of either probability: absolute 1e-12; relative 1e-9 down to 1e-200. Principal standard deviations in a
/// ratio below 1e-30, or a determinant below 1e-15 of the product of the variances, count as a distribution along a line.
/// </para>
/// <para>
/// Every method is pure, allocates nothing and may be called from any thread. The sum round the rim, which serves all
/// but narrow ellipses and tiny or huge discs, has the same bits on every processor; elsewhere the last digits follow
/// the platform's exponential.
/// </para>
/// </remarks>
public static partial class DiscProbability
{
    // From this many major standard deviations on, the spread is below the rounding of the mean's distance.
    private const double AllDistance = 1e18;

    /// <summary>
    /// Probability that a point of the bivariate normal lies within <paramref name="radius"/> of the origin.
    /// </summary>
    /// <param name="radius">Radius of the disc, zero to positive infinity.</param>
    /// <param name="mean1">First coordinate of the mean, in the unit of the radius.</param>
    /// <param name="mean2">Second coordinate of the mean.</param>
    /// <param name="variance1">Variance of the first coordinate, zero or more.</param>
    /// <param name="variance2">Variance of the second coordinate, zero or more.</param>
    /// <param name="covariance">Covariance, at most the root of the product of the variances in size.</param>
    /// <returns>
    /// A probability from 0 to 1, never NaN. Radius 0 gives 0 and an infinite radius 1. Without any variance the
    /// answer is 1 for a mean on or inside the rim, otherwise 0.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// An argument is outside its range; the message gives both.
    /// </exception>
    public static double Inside(
        double radius, double mean1, double mean2, double variance1, double variance2, double covariance) =>
        Probability(false, radius, mean1, mean2, variance1, variance2, covariance);

    /// <summary>
    /// Probability that a point of the bivariate normal lies farther than <paramref name="radius"/> from the origin: the
    /// complement of <c>Inside</c>, accurate by itself where it is small, so that its logarithm may be taken.
    /// </summary>
    /// <param name="radius">Radius of the disc, zero to positive infinity.</param>
    /// <param name="mean1">First coordinate of the mean, in the unit of the radius.</param>
    /// <param name="mean2">Second coordinate of the mean.</param>
    /// <param name="variance1">Variance of the first coordinate, zero or more.</param>
    /// <param name="variance2">Variance of the second coordinate, zero or more.</param>
    /// <param name="covariance">Covariance, at most the root of the product of the variances in size.</param>
    /// <returns>
    /// A probability from 0 to 1, never NaN. Radius 0 gives 1 and an infinite radius 0; so does any rim 39 of the larger
    /// principal standard deviations beyond the mean. Without any variance the answer is 0 for a mean on or inside the
    /// rim, otherwise 1.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// An argument is outside its range; the message gives both.
    /// </exception>
    public static double Outside(
        double radius, double mean1, double mean2, double variance1, double variance2, double covariance) =>
        Probability(true, radius, mean1, mean2, variance1, variance2, covariance);

    /// <summary>The radius about the origin that holds the given probability: the inverse of <c>Inside</c>.</summary>
    /// <param name="probability">Probability to hold, above 0 and below 1.</param>
    /// <param name="mean1">First coordinate of the mean, in any length unit.</param>
    /// <param name="mean2">Second coordinate of the mean.</param>
    /// <param name="variance1">Variance of the first coordinate, zero or more.</param>
    /// <param name="variance2">Variance of the second coordinate, zero or more.</param>
    /// <param name="covariance">Covariance, at most the root of the product of the variances in size.</param>
    /// <returns>
    /// The radius, to 1e-9 relative wherever a double can tell the probability from its neighbours. Without any
    /// variance it is the distance of the mean. Infinite where the answer exceeds the largest double.
    /// </returns>
    /// <remarks>
    /// Method: bracketed inverse quadratic interpolation after Chandrupatla (1997, Advances in Engineering Software 28,
    /// 145-149) on the logarithm of the probability, between bounds that hold for every ellipse.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">
    /// An argument is outside its range; the message gives both.
    /// </exception>
    public static double Radius(
        double probability, double mean1, double mean2, double variance1, double variance2, double covariance)
    {
        if (!(probability > 0 && probability < 1))
            throw Guard.Refused(nameof(probability), probability, "above 0 and below 1");
        Check(mean1, mean2, variance1, variance2, covariance);

        if (variance1 == 0 && variance2 == 0)
            return double.Hypot(mean1, mean2);

        var scale = ScaleOf(variance1, variance2);
        var ellipse = Ellipse.Of(mean1, mean2, variance1, variance2, covariance, scale);
        return ellipse.MeanDistance < AllDistance * ellipse.Major
            ? double.ScaleB(Radius(probability, ellipse), -scale)
            : double.Hypot(mean1, mean2);
    }

    private static double Probability(
        bool beyond, double radius, double mean1, double mean2, double variance1, double variance2, double covariance)
    {
        if (!(radius >= 0))
            throw Guard.Refused(nameof(radius), radius, "zero or more");
        Check(mean1, mean2, variance1, variance2, covariance);

        if (radius == 0)
            return beyond ? 1 : 0;
        if (double.IsPositiveInfinity(radius))
            return beyond ? 0 : 1;
        if (variance1 == 0 && variance2 == 0)
            return double.Hypot(mean1, mean2) > radius == beyond ? 1 : 0;

        var scale = ScaleOf(variance1, variance2);
        var ellipse = Ellipse.Of(mean1, mean2, variance1, variance2, covariance, scale);
        if (ellipse.MeanDistance < AllDistance * ellipse.Major)
        {
            var scaled = double.ScaleB(radius, scale);
            return beyond ? Outside(scaled, ellipse) : Inside(scaled, ellipse);
        }

        var side = radius.CompareTo(double.Hypot(mean1, mean2));
        return 0.5 * (1 + (beyond ? -Math.Sign(side) : Math.Sign(side)));
    }

    private static void Check(double mean1, double mean2, double variance1, double variance2, double covariance)
    {
        Guard.Finite(mean1);
        Guard.Finite(mean2);
        Guard.NotNegative(variance1);
        Guard.NotNegative(variance2);
        Possible(variance1, variance2, covariance);
    }
}
