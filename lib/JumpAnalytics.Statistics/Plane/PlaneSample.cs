using System.Globalization;
using System.Runtime.CompilerServices;

namespace JumpAnalytics.Statistics;

/// <summary>
/// What an error distribution is fitted to: points in the plane, metres, and points known only as beyond a distance, each with
/// the cluster it belongs to. Points of one cluster have an error in common and are not independent.
/// </summary>
[TypeFormatterSource]
public sealed class PlaneSample
{
    private readonly PlaneVector[] _placed;
    private readonly int[] _clusterOfPlaced;
    private readonly double?[] _measuredSd;
    private readonly double[] _beyond;
    private readonly int[] _clusterOfBeyond;

    private PlaneSample(
        PlaneVector[] placed, int[] clusterOfPlaced, double?[] measuredSd, double[] beyond, int[] clusterOfBeyond, int clusters,
        int leftOut, SampleNouns nouns)
    {
        (_placed, _clusterOfPlaced, _measuredSd) = (placed, clusterOfPlaced, measuredSd);
        (_beyond, _clusterOfBeyond, Clusters) = (beyond, clusterOfBeyond, clusters);
        (LeftOut, Nouns) = (leftOut, nouns);
    }

    /// <summary>Places of the points whose place is known, in the order given.</summary>
    public IReadOnlyList<PlaneVector> Placed => _placed;

    /// <summary>Metres from the origin beyond which each of the other points lies; its place is unknown.</summary>
    public IReadOnlyList<double> Beyond => _beyond;

    /// <summary>Number of clusters.</summary>
    public int Clusters { get; }

    /// <summary>Number of points, placed or not.</summary>
    public int Points => _placed.Length + _beyond.Length;

    /// <summary>
    /// Readings that are left out, with neither a place in the plane nor a distance that they lie beyond. They are not among the
    /// points.
    /// </summary>
    public int LeftOut { get; }

    /// <summary>
    /// What to know of a fit to these points: how many readings are left out, and that most points have no place; none when all is well.
    /// </summary>
    internal IReadOnlyList<string> Warnings =>
    [
        .. LeftOut == 0 ? Array.Empty<string>()
            : [$"{Nouns.CountedPoints(LeftOut)} with neither a place in the plane nor a distance left out"],
        .. Beyond.Count <= Placed.Count ? Array.Empty<string>()
            : [$"{Beyond.Count} of {Nouns.CountedPoints(Points)} are known only as beyond a distance: what is fitted rests on the form of "
                + $"the distribution more than on {Nouns.Places}"],
    ];

    /// <summary>What points, clusters and the rest are called in texts.</summary>
    internal SampleNouns Nouns { get; }

    /// <summary>Whether no two points share a cluster.</summary>
    public bool IsIndependent => Clusters == Points;

    /// <summary>Cluster of each placed point, 0 to <see cref="Clusters"/> − 1.</summary>
    internal ReadOnlySpan<int> ClusterOfPlaced => _clusterOfPlaced;

    /// <summary>Cluster of each point known only as beyond a distance.</summary>
    internal ReadOnlySpan<int> ClusterOfBeyond => _clusterOfBeyond;

    /// <summary>The points as one block.</summary>
    internal ReadOnlySpan<PlaneVector> Places => _placed;

    /// <summary>Standard deviation per axis of each placed point's own measurement, metres; null where it was not recorded.</summary>
    public IReadOnlyList<double?> MeasuredSd => _measuredSd;

    /// <summary>Places that stand each for a cluster of its own.</summary>
    /// <param name="points">Places in the plane, metres.</param>
    /// <param name="nouns">What they are called in texts; points when left out.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    [OverloadResolutionPriority(1)]
    public static PlaneSample Of(IEnumerable<PlaneVector> points, SampleNouns? nouns = null) =>
        Of(points.Select((m, i) => new PlaneReading(i.ToString(CultureInfo.InvariantCulture), m)), nouns);

    /// <summary>Points with their clusters.</summary>
    /// <param name="readings">One for each point. One with neither a place nor a distance is left out and counted
    /// (<see cref="LeftOut"/>).</param>
    /// <param name="nouns">What they are called in texts; as the first reading has it when left out.</param>
    /// <exception cref="ArgumentException">A reading has a place or a distance that is not a finite number, or a negative distance or
    /// measurement error.</exception>
    public static PlaneSample Of(IEnumerable<IPlaneReading> readings, SampleNouns? nouns = null)
    {
        var leftOut = 0;
        var clusters = new Dictionary<string, int>(StringComparer.Ordinal);
        var (placed, beyond) = (new List<PlaneVector>(), new List<double>());
        var (clusterOfPlaced, clusterOfBeyond, measured) = (new List<int>(), new List<int>(), new List<double?>());
        foreach (var reading in readings)
        {
            nouns ??= reading.Nouns;
            if (reading is { Place: null, Beyond: null })
            {
                leftOut++;
                continue;
            }
            if (!clusters.TryGetValue(reading.Cluster, out var cluster)) clusters.Add(reading.Cluster, cluster = clusters.Count);
            if (reading.Place is { } point && double.IsFinite(point.Along) && double.IsFinite(point.Across))
            {
                placed.Add(point);
                clusterOfPlaced.Add(cluster);
                measured.Add(reading.MeasuredSd is null or (>= 0 and < double.PositiveInfinity)
                    ? reading.MeasuredSd : throw Unusable(reading));
            }
            else if (reading is { Place: null, Beyond: { } distance and >= 0 } && double.IsFinite(distance))
            {
                beyond.Add(distance);
                clusterOfBeyond.Add(cluster);
            }
            else
            {
                throw Unusable(reading);
            }
        }
        return new PlaneSample(
            [.. placed], [.. clusterOfPlaced], [.. measured], [.. beyond], [.. clusterOfBeyond],
            clusters.Count, leftOut, nouns ?? SampleNouns.Default);
    }

    private static ArgumentException Unusable(IPlaneReading reading) =>
        new($"A {reading.Nouns.Point} of {reading.Nouns.Cluster} '{reading.Cluster}' is {reading}: it needs a place of finite coordinates, "
            + "or a finite distance that it lies beyond, and a measurement error of zero or more.");
}
