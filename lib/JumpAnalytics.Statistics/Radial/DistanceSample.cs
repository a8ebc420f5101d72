namespace JumpAnalytics;

/// <summary>
/// What a distribution of distances is fitted to where the direction of the misses was not recorded: distances from the spot, measured,
/// paced or known only as beyond something, each with the mission it belongs to. Landings of one mission are not independent.
/// </summary>
[TypeFormatterSource]
public sealed class DistanceSample
{
    private readonly DistanceReading[] _readings;
    private readonly int[] _missionOf;
    private readonly int[] _kindOf;
    private readonly (DistanceReading Reading, int Count)[] _kinds;

    private DistanceSample(DistanceReading[] readings, int[] missionOf, int missions, double? resolution)
    {
        if (resolution is { } r && !(r > 0 && double.IsFinite(r)))
            throw new ArgumentOutOfRangeException(nameof(resolution), r, "A resolution is a finite number of metres, more than zero.");
        if (resolution is { } step) readings = [.. readings.Select(x => x.High == 0 ? DistanceReading.Within(step / 2) : x)];
        (_readings, _missionOf, _kindOf, Missions) = (readings, missionOf, new int[readings.Length], missions);
        var places = new Dictionary<DistanceReading, int>();
        var kinds = new List<(DistanceReading Reading, int Count)>();
        for (var i = 0; i < readings.Length; i++)
        {
            if (places.TryAdd(readings[i], kinds.Count)) kinds.Add((readings[i], 0));
            _kindOf[i] = places[readings[i]];
            kinds[_kindOf[i]] = (readings[i], kinds[_kindOf[i]].Count + 1);
        }
        _kinds = [.. kinds];
    }

    /// <summary>What is known of each landing, in the order given.</summary>
    public IReadOnlyList<DistanceReading> Readings => _readings;

    /// <summary>Number of landings.</summary>
    public int Landings => _readings.Length;

    /// <summary>Number of missions.</summary>
    public int Missions { get; }

    /// <summary>Whether no two landings share a mission.</summary>
    public bool IsIndependent => Missions == Landings;

    /// <summary>The readings that differ from one another, and how many landings have each.</summary>
    internal ReadOnlySpan<(DistanceReading Reading, int Count)> Kinds => _kinds;

    /// <summary>The place of each landing's reading among <see cref="Kinds"/>.</summary>
    internal ReadOnlySpan<int> KindOf => _kindOf;

    /// <summary>Mission of each landing, 0 to <see cref="Missions"/> − 1.</summary>
    internal ReadOnlySpan<int> MissionOf => _missionOf;

    /// <summary>Landings that stand each for a mission of its own.</summary>
    /// <param name="readings">One for each landing.</param>
    /// <param name="resolution">
    /// The step in which distances were recorded, metres. Where it is given, a distance recorded as 0 is taken as anything up to half of
    /// it: a landing on the spot is a good one, but no distribution of distances has a likelihood at exactly 0.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">The resolution is not a finite number above zero.</exception>
    public static DistanceSample Of(IEnumerable<DistanceReading> readings, double? resolution = null)
    {
        DistanceReading[] all = [.. readings];
        return new DistanceSample(all, [.. Enumerable.Range(0, all.Length)], all.Length, resolution);
    }

    /// <summary>Landings with their missions.</summary>
    /// <param name="readings">One for each landing.</param>
    /// <param name="resolution">The step in which distances were recorded, metres; a distance of 0 stands for anything up to half of it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resolution is not a finite number above zero.</exception>
    public static DistanceSample Of(IEnumerable<(string Mission, DistanceReading Distance)> readings, double? resolution = null)
    {
        var missions = new Dictionary<string, int>(StringComparer.Ordinal);
        var (distances, missionOf) = (new List<DistanceReading>(), new List<int>());
        foreach (var (mission, distance) in readings)
        {
            missions.TryAdd(mission, missions.Count);
            missionOf.Add(missions[mission]);
            distances.Add(distance);
        }
        return new DistanceSample([.. distances], [.. missionOf], missions.Count, resolution);
    }

    /// <summary>The distances of misses whose direction is known too, and those known only as beyond a distance.</summary>
    /// <param name="sample">Misses and missions; placed landings come first.</param>
    /// <param name="resolution">The step in which distances were recorded, metres; a distance of 0 stands for anything up to half of it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resolution is not a finite number above zero.</exception>
    public static DistanceSample Of(MissSample sample, double? resolution = null) => new(
        [.. sample.Placed.Select(m => DistanceReading.Exact(m.Length)), .. sample.Beyond.Select(DistanceReading.Beyond)],
        [.. sample.MissionOfPlaced, .. sample.MissionOfBeyond], sample.Missions, resolution);
}
