namespace JumpAnalytics;

/// <summary>
/// The landings themselves, each with the same weight: what happened, with no shape assumed and nothing said beyond the farthest. Metres;
/// axis 1 downwind (+ long), axis 2 to the right.
/// </summary>
/// <remarks>
/// A landing known only as beyond a distance counts, and lies outside every circle. That is so for circles that stay within the distance;
/// of larger ones the probability within is a lower bound (<see cref="KnownTo"/>).
/// </remarks>
[TypeFormatterSource]
public sealed class EmpiricalMisses : IMissModel
{
    private readonly DownwindVector[] _misses;

    private EmpiricalMisses(MissSample sample) =>
        (_misses, Landings, KnownTo) = ([.. sample.Placed], sample.Landings, sample.Beyond.DefaultIfEmpty(double.PositiveInfinity).Min());

    /// <inheritdoc/>
    public string Name => "landings as they were";

    /// <summary>Number of landings, placed or not.</summary>
    public int Landings { get; }

    /// <summary>Metres from the spot within which circles must stay for their probability to be exact rather than a bound; infinite when every landing is placed.</summary>
    public double KnownTo { get; }

    /// <summary>The placed landings; null when some are known only as beyond a distance, so that these are not the whole of it.</summary>
    internal ReadOnlyMemory<DownwindVector>? Whole => double.IsPositiveInfinity(KnownTo) ? _misses : null;

    /// <summary>Null: single landings have no density.</summary>
    /// <param name="miss">A miss in the downwind frame.</param>
    public double? LogDensity(DownwindVector miss) => null;

    /// <summary>Share of landings that are placed within a distance of a place, the rim included.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN, or the place is none.</exception>
    public double ProbabilityWithin(double radius, DownwindVector centre = default)
    {
        if (!(radius >= 0)) throw new ArgumentOutOfRangeException(nameof(radius), radius, "A radius of zero or more.");
        centre.RequireFinite(nameof(centre));
        var within = 0;
        foreach (var miss in _misses)
        {
            if (Distance(miss, centre) <= radius) within++;
        }
        return within / (double)Landings;
    }

    /// <summary>Share of landings that are not placed within a distance of a place.</summary>
    /// <param name="radius">Metres, zero or more.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is negative or NaN, or the place is none.</exception>
    public double ProbabilityBeyond(double radius, DownwindVector centre = default) => 1 - ProbabilityWithin(radius, centre);

    /// <summary>
    /// The smallest radius about a place that holds at least a share of landings, metres: the distance of one of them (quantile of type 1 of
    /// Hyndman and Fan 1996, The American Statistician 50:361-365). Infinite where that many are not placed.
    /// </summary>
    /// <param name="probability">Between 0 and 1, both excluded.</param>
    /// <param name="centre">The place in the downwind frame; the spot unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1, or the place is none.</exception>
    public double RadiusHolding(double probability, DownwindVector centre = default)
    {
        if (!(probability > 0 && probability < 1))
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability between 0 and 1.");
        centre.RequireFinite(nameof(centre));
        var distances = Array.ConvertAll(_misses, m => Distance(m, centre));
        Array.Sort(distances);
        var count = (int)Math.Ceiling(probability * Landings);
        if (count > 1 && (count - 1) / (double)Landings >= probability) count--; // the product was rounded up
        return count <= distances.Length ? distances[count - 1] : double.PositiveInfinity;
    }

    /// <summary>Draws one of the placed landings.</summary>
    /// <param name="random">The source of random numbers.</param>
    public DownwindVector Draw(Random random) => _misses[random.Next(_misses.Length)];

    /// <summary>Takes the landings of a sample as they are.</summary>
    /// <param name="sample">Misses and missions.</param>
    /// <returns>The distribution, without a likelihood since it has no density, or the reason why there is none: no placed landing.</returns>
    public static Fit<ModelFit<EmpiricalMisses>> FitTo(MissSample sample) => sample.Placed.Count == 0
        ? Fit<ModelFit<EmpiricalMisses>>.Refused("no landing has a known place")
        : Fit<ModelFit<EmpiricalMisses>>.Made(new ModelFit<EmpiricalMisses>(
            new EmpiricalMisses(sample), sample.Landings, sample.Missions, [],
            sample.Beyond.Count > 0 ? [$"{sample.Beyond.Count} of {sample.Landings} landings are known only as beyond a distance and count as outside every circle: the larger ones hold at least what is shown"] : [],
            "the landings themselves have no parameters"));

    private static double Distance(DownwindVector miss, DownwindVector centre) => double.Hypot(miss.Downwind - centre.Downwind, miss.Right - centre.Right);
}
