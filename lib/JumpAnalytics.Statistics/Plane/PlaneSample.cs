namespace JumpAnalytics;

/// <summary>
/// What an error distribution is fitted to: misses in the downwind frame, metres, and landings known only as beyond a
/// distance, each with the mission it belongs to. Landings of one mission share a forecast and are not independent.
/// </summary>
[TypeFormatterSource]
public sealed class MissSample
{
    private readonly DownwindVector[] _placed;
    private readonly int[] _missionOfPlaced;
    private readonly double?[] _measuredSd;
    private readonly double[] _beyond;
    private readonly int[] _missionOfBeyond;

    private MissSample(DownwindVector[] placed, int[] missionOfPlaced, double?[] measuredSd, double[] beyond, int[] missionOfBeyond, int missions)
    {
        (_placed, _missionOfPlaced, _measuredSd) = (placed, missionOfPlaced, measuredSd);
        (_beyond, _missionOfBeyond, Missions) = (beyond, missionOfBeyond, missions);
    }

    /// <summary>Misses of the landings whose place is known, in the order given.</summary>
    public IReadOnlyList<DownwindVector> Placed => _placed;

    /// <summary>Metres from the spot beyond which each of the other landings lies; its place is unknown.</summary>
    public IReadOnlyList<double> Beyond => _beyond;

    /// <summary>Number of missions.</summary>
    public int Missions { get; }

    /// <summary>Number of landings, placed or not.</summary>
    public int Landings => _placed.Length + _beyond.Length;

    /// <summary>Whether no two landings share a mission.</summary>
    public bool IsIndependent => Missions == Landings;

    /// <summary>Mission of each placed landing, 0 to <see cref="Missions"/> − 1.</summary>
    internal ReadOnlySpan<int> MissionOfPlaced => _missionOfPlaced;

    /// <summary>Mission of each landing known only as beyond a distance.</summary>
    internal ReadOnlySpan<int> MissionOfBeyond => _missionOfBeyond;

    /// <summary>The misses as one block.</summary>
    internal ReadOnlySpan<DownwindVector> Misses => _placed;

    /// <summary>Standard deviation per axis of each placed landing's own measurement, metres; null where it was not recorded.</summary>
    public IReadOnlyList<double?> MeasuredSd => _measuredSd;

    /// <summary>Misses that stand each for a mission of its own.</summary>
    /// <param name="misses">Misses in the downwind frame, metres.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    public static MissSample Of(IEnumerable<DownwindVector> misses) => Of(misses.Select((m, i) => new MissReading(i.ToString(), m)));

    /// <summary>Landings with their missions.</summary>
    /// <param name="readings">One for each landing.</param>
    /// <exception cref="ArgumentException">A reading has neither a miss nor a distance, or one that is not a finite number.</exception>
    public static MissSample Of(IEnumerable<MissReading> readings)
    {
        var missions = new Dictionary<string, int>(StringComparer.Ordinal);
        var (placed, beyond) = (new List<DownwindVector>(), new List<double>());
        var (missionOfPlaced, missionOfBeyond, measured) = (new List<int>(), new List<int>(), new List<double?>());
        foreach (var reading in readings)
        {
            if (!missions.TryGetValue(reading.Mission, out var mission)) missions.Add(reading.Mission, mission = missions.Count);
            if (reading.Miss is { } miss && double.IsFinite(miss.Downwind) && double.IsFinite(miss.Right))
            {
                placed.Add(miss);
                missionOfPlaced.Add(mission);
                measured.Add(reading.MeasuredSd is null or (>= 0 and < double.PositiveInfinity) ? reading.MeasuredSd : throw Unusable(reading));
            }
            else if (reading is { Miss: null, Beyond: { } distance and >= 0 } && double.IsFinite(distance))
            {
                beyond.Add(distance);
                missionOfBeyond.Add(mission);
            }
            else
            {
                throw Unusable(reading);
            }
        }
        return new MissSample([.. placed], [.. missionOfPlaced], [.. measured], [.. beyond], [.. missionOfBeyond], missions.Count);
    }

    private static ArgumentException Unusable(MissReading reading) =>
        new($"A reading of mission '{reading.Mission}' is {reading}: it needs a miss of finite coordinates, or a finite distance that the landing lies beyond, and a measurement error of zero or more.");
}

/// <summary>One landing as an error distribution sees it.</summary>
/// <param name="Mission">The mission it belongs to.</param>
/// <param name="Miss">The miss in the downwind frame, metres; null when only <paramref name="Beyond"/> is known.</param>
/// <param name="Beyond">Metres from the spot; the landing lies farther and its place is unknown.</param>
/// <param name="MeasuredSd">Standard deviation per axis of the measurement, metres; null when it was not recorded.</param>
[TypeFormatterSource]
public sealed record MissReading(string Mission, DownwindVector? Miss, double? Beyond = null, double? MeasuredSd = null);
