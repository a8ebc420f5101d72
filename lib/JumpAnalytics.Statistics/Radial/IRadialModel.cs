namespace JumpAnalytics;

/// <summary>
/// A distribution of distances from the spot, metres, for records that lack the direction of the misses. Immutable; every member may be
/// called from any thread.
/// </summary>
public interface IRadialModel : IErrorModel
{
    /// <summary>Natural logarithm of the density at a distance, per metre; infinite where the density is zero or has a pole.</summary>
    /// <param name="distance">Metres, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or NaN.</exception>
    double LogDensity(double distance);

    /// <summary>Probability that a landing lies within a distance of the spot, with its own relative accuracy near zero.</summary>
    /// <param name="radius">Metres, zero or more; infinite gives 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityWithin(double radius);

    /// <summary>Probability that a landing lies farther than a distance from the spot, with its own relative accuracy in the tail.</summary>
    /// <param name="radius">Metres, zero or more; infinite gives 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN.</exception>
    double ProbabilityBeyond(double radius);

    /// <summary>Probability that a landing lies between two distances from the spot, with its own relative accuracy however narrow the ring.</summary>
    /// <param name="low">Metres, zero or more.</param>
    /// <param name="high">Metres, no less than <paramref name="low"/>; may be infinite.</param>
    /// <exception cref="ArgumentOutOfRangeException">A distance is negative or NaN, or the second is less than the first.</exception>
    double ProbabilityBetween(double low, double high);

    /// <summary>The radius about the spot that holds a share of landings, metres: the inverse of <see cref="ProbabilityWithin"/>.</summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    double RadiusHolding(double probability);

    /// <summary>Draws a distance, metres.</summary>
    /// <param name="random">The source of random numbers.</param>
    double Draw(Random random);

    /// <summary>Logarithm of the probability between two distances, the first the smaller one, also where the probability itself is below the least double.</summary>
    internal double LogBetween(double low, double high);
}

/// <summary>What the distributions of distances have in common: checked arguments, and probabilities from their logarithms.</summary>
internal static class RadialProbability
{
    public static double Within(IRadialModel model, double radius) => Share(model, 0, Distance(radius, nameof(radius)));

    public static double Beyond(IRadialModel model, double radius) => Share(model, Distance(radius, nameof(radius)), double.PositiveInfinity);

    public static double Between(IRadialModel model, double low, double high) => Distance(low, nameof(low)) <= high
        ? Share(model, low, high)
        : throw new ArgumentOutOfRangeException(nameof(high), high, "The farther distance must not be less than the nearer one.");

    private static double Share(IRadialModel model, double low, double high) => low < high ? Math.Exp(model.LogBetween(low, high)) : 0;

    public static double Distance(double value, string name) => value >= 0
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "A distance from the spot is zero or more.");

    public static double Probability(double probability) => probability is > 0 and < 1
        ? probability
        : throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability between 0 and 1.");

    public static double Positive(double value, string name) => value > 0 && double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "This parameter is a finite number above zero.");

    public static double NotNegative(double value, string name) => value >= 0 && double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "This parameter is a finite number, zero or more.");
}
