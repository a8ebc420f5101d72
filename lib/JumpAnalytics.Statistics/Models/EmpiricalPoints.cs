namespace JumpAnalytics.Statistics;

/// <summary>
/// The points themselves, each with the same weight: what happened, with no shape assumed and nothing said beyond the farthest. Metres.
/// </summary>
/// <remarks>
/// A point known only as beyond a distance counts, and lies outside every circle. That is so for circles that stay within the distance;
/// of larger ones the probability within is a lower bound (<see cref="KnownTo"/>).
/// </remarks>
[TypeFormatterSource]
public sealed class EmpiricalPoints : IPlaneModel
{
    private readonly PlaneVector[] _places;

    private EmpiricalPoints(PlaneSample sample)
    {
        (_places, Points, KnownTo) = ([.. sample.Placed], sample.Points, sample.Beyond.DefaultIfEmpty(double.PositiveInfinity).Min());
        Name = $"{sample.Nouns.Points} as they were";
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <summary>Number of points, placed or not.</summary>
    public int Points { get; }

    /// <summary>
    /// Metres from the origin within which circles must stay for their probability to be exact rather than a bound;
    /// infinite when every point is placed.
    /// </summary>
    public double KnownTo { get; }

    /// <summary>The placed points; null when some are known only as beyond a distance, so that these are not the whole of it.</summary>
    internal ReadOnlyMemory<PlaneVector>? Whole => double.IsPositiveInfinity(KnownTo) ? _places : null;

    /// <summary>Null: single points have no density.</summary>
    /// <param name="point">The point.</param>
    public double? LogDensity(PlaneVector point) => null;

    /// <summary>Share of points that are placed within a distance of a place, the rim included.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN, or the place is none.</exception>
    public double ProbabilityWithin(double radius, PlaneVector centre = default)
    {
        Guard.AtLeast(radius, 0);
        centre.RequireFinite(nameof(centre));
        var within = 0;
        foreach (var point in _places)
        {
            if (Distance(point, centre) <= radius) within++;
        }
        return within / (double)Points;
    }

    /// <summary>Share of points that are not placed within a distance of a place.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN, or the place is none.</exception>
    public double ProbabilityBeyond(double radius, PlaneVector centre = default) => 1 - ProbabilityWithin(radius, centre);

    /// <summary>
    /// The smallest radius about a place that holds at least a share of points, metres: the distance of one of them (quantile of type 1 of
    /// Hyndman and Fan 1996, The American Statistician 50:361-365). Infinite where that many are not placed.
    /// </summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <param name="centre">The place; the origin unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1, or the place is none.</exception>
    public double RadiusHolding(double probability, PlaneVector centre = default)
    {
        Guard.Share(probability);
        centre.RequireFinite(nameof(centre));
        var distances = Array.ConvertAll(_places, m => Distance(m, centre));
        Array.Sort(distances);
        var count = (int)Math.Ceiling(probability * Points);
        if (count > 1 && (count - 1) / (double)Points >= probability) count--; // the product was rounded up
        return count <= distances.Length ? distances[count - 1] : double.PositiveInfinity;
    }

    /// <summary>Draws one of the placed points.</summary>
    /// <param name="random">The source of random numbers.</param>
    public PlaneVector Draw(Random random) => _places[random.Next(_places.Length)];

    /// <summary>Takes points as they are.</summary>
    /// <param name="readings">One for each point. One with neither a place nor a distance is left out; a warning of the fit counts
    /// it.</param>
    /// <inheritdoc cref="PlaneSample.Of(IEnumerable{IPlaneReading}, SampleNouns)" path="/exception"/>
    /// <returns>The distribution, without a likelihood since it has no density, or the reason why there is none: no placed point.</returns>
    public static Fit<ModelFit<EmpiricalPoints>> FitTo(IEnumerable<IPlaneReading> readings) => FitTo(PlaneSample.Of(readings));

    /// <summary>Takes the points of a sample as they are.</summary>
    /// <param name="sample">Places and clusters.</param>
    /// <inheritdoc cref="FitTo(IEnumerable{IPlaneReading})" path="/returns"/>
    public static Fit<ModelFit<EmpiricalPoints>> FitTo(PlaneSample sample) => sample.Placed.Count == 0
        ? Fit<ModelFit<EmpiricalPoints>>.Refused($"no {sample.Nouns.Point} has a known place")
        : Fit<ModelFit<EmpiricalPoints>>.Made(new ModelFit<EmpiricalPoints>(
            new EmpiricalPoints(sample), sample, [],
            sample.Beyond.Count > 0 ? [$"{sample.Beyond.Count} of {sample.Nouns.CountedPoints(sample.Points)} are known only as beyond a "
                + "distance and count as outside every circle: the larger ones hold at least what is shown"] : [],
            $"the {sample.Nouns.Points} themselves have no parameters"));

    private static double Distance(PlaneVector point, PlaneVector centre) =>
        double.Hypot(point.Along - centre.Along, point.Across - centre.Across);
}
