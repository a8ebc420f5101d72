namespace JumpAnalytics.Statistics;

/// <summary>A distribution with a name, whose parameters may be fitted: of points in the plane, or of distances alone.</summary>
public interface IErrorModel
{
    /// <summary>What the distribution is called, for instance <c>bivariate normal</c>.</summary>
    string Name { get; }
}

/// <summary>
/// A distribution of points in the plane: metres, the second axis to the right of the first. Immutable; every member may be called from
/// any thread.
/// </summary>
public interface IPlaneModel : IErrorModel
{
    /// <summary>Natural logarithm of the density at a point, per square metre; null for a distribution that has none.</summary>
    /// <param name="point">The point.</param>
    double? LogDensity(PlaneVector point);

    /// <summary>Probability that a point lies within a distance of a place.</summary>
    /// <param name="radius">Metres, zero or more; infinite gives 1.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityWithin(double radius, PlaneVector centre = default);

    /// <summary>Probability that a point lies farther than a distance from a place, with its own relative accuracy in the tail.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityBeyond(double radius, PlaneVector centre = default);

    /// <summary>The radius about a place that holds a share of points, metres: the inverse of <see cref="ProbabilityWithin"/>.</summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    double RadiusHolding(double probability, PlaneVector centre = default);

    /// <summary>Draws a point.</summary>
    /// <param name="random">The source of random numbers.</param>
    PlaneVector Draw(Random random);
}
