namespace JumpAnalytics;

/// <summary>A distribution with a name, whose parameters may be fitted: of misses in the plane, or of distances alone.</summary>
public interface IErrorModel
{
    /// <summary>What the distribution is called, for instance <c>bivariate normal</c>.</summary>
    string Name { get; }
}

/// <summary>
/// A distribution of misses in the downwind frame: metres, axis 1 downwind (+ long), axis 2 to the right. Immutable; every
/// member may be called from any thread.
/// </summary>
public interface IMissModel : IErrorModel
{
    /// <summary>Natural logarithm of the density at a miss, per square metre; null for a distribution that has none.</summary>
    /// <param name="miss">A miss in the downwind frame.</param>
    double? LogDensity(DownwindVector miss);

    /// <summary>Probability that a landing lies within a distance of a place.</summary>
    /// <param name="radius">Metres, zero or more; infinite gives 1.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityWithin(double radius, DownwindVector centre = default);

    /// <summary>Probability that a landing lies farther than a distance from a place, with its own relative accuracy in the tail.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityBeyond(double radius, DownwindVector centre = default);

    /// <summary>The radius about a place that holds a share of landings, metres: the inverse of <see cref="ProbabilityWithin"/>.</summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    double RadiusHolding(double probability, DownwindVector centre = default);

    /// <summary>Draws a miss.</summary>
    /// <param name="random">The source of random numbers.</param>
    DownwindVector Draw(Random random);
}
