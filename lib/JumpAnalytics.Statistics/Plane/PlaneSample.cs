namespace JumpAnalytics.Statistics;

/// <summary>
/// What an error distribution is fitted to: points in the downwind frame, metres, and points known only as beyond a
/// distance, each with the cluster it belongs to. Points of one cluster share a forecast and are not independent.
/// </summary>
[TypeFormatterSource]
public sealed class PlaneSample
{
    private readonly PlaneVector[] _placed;
    private readonly int[] _clusterOfPlaced;
    private readonly double?[] _measuredSd;
    private readonly double[] _beyond;
    private readonly int[] _clusterOfBeyond;

    private PlaneSample(PlaneVector[] placed, int[] clusterOfPlaced, double?[] measuredSd, double[] beyond, int[] clusterOfBeyond, int clusters)
    {
        (_placed, _clusterOfPlaced, _measuredSd) = (placed, clusterOfPlaced, measuredSd);
        (_beyond, _clusterOfBeyond, Clusters) = (beyond, clusterOfBeyond, clusters);
    }

    /// <summary>Places of the points whose place is known, in the order given.</summary>
    public IReadOnlyList<PlaneVector> Placed => _placed;

    /// <summary>Metres from the origin beyond which each of the other points lies; its place is unknown.</summary>
    public IReadOnlyList<double> Beyond => _beyond;

    /// <summary>Number of clusters.</summary>
    public int Clusters { get; }

    /// <summary>Number of points, placed or not.</summary>
    public int Points => _placed.Length + _beyond.Length;

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
    /// <param name="points">Places in the downwind frame, metres.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    public static PlaneSample Of(IEnumerable<PlaneVector> points) => Of(points.Select((m, i) => new PlaneReading(i.ToString(), m)));

    /// <summary>Points with their clusters.</summary>
    /// <param name="readings">One for each point.</param>
    /// <exception cref="ArgumentException">A reading has neither a point nor a distance, or one that is not a finite number.</exception>
    public static PlaneSample Of(IEnumerable<PlaneReading> readings)
    {
        var clusters = new Dictionary<string, int>(StringComparer.Ordinal);
        var (placed, beyond) = (new List<PlaneVector>(), new List<double>());
        var (clusterOfPlaced, clusterOfBeyond, measured) = (new List<int>(), new List<int>(), new List<double?>());
        foreach (var reading in readings)
        {
            if (!clusters.TryGetValue(reading.Cluster, out var cluster)) clusters.Add(reading.Cluster, cluster = clusters.Count);
            if (reading.Place is { } point && double.IsFinite(point.Along) && double.IsFinite(point.Across))
            {
                placed.Add(point);
                clusterOfPlaced.Add(cluster);
                measured.Add(reading.MeasuredSd is null or (>= 0 and < double.PositiveInfinity) ? reading.MeasuredSd : throw Unusable(reading));
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
        return new PlaneSample([.. placed], [.. clusterOfPlaced], [.. measured], [.. beyond], [.. clusterOfBeyond], clusters.Count);
    }

    private static ArgumentException Unusable(PlaneReading reading) =>
        new($"A reading of cluster '{reading.Cluster}' is {reading}: it needs a point of finite coordinates, or a finite distance that the point lies beyond, and a measurement error of zero or more.");
}

/// <summary>One point as an error distribution sees it.</summary>
/// <param name="Cluster">The cluster it belongs to.</param>
/// <param name="Place">The point in the downwind frame, metres; null when only <paramref name="Beyond"/> is known.</param>
/// <param name="Beyond">Metres from the origin; the point lies farther and its place is unknown.</param>
/// <param name="MeasuredSd">Standard deviation per axis of the measurement, metres; null when it was not recorded.</param>
[TypeFormatterSource]
public sealed record PlaneReading(string Cluster, PlaneVector? Place, double? Beyond = null, double? MeasuredSd = null);
