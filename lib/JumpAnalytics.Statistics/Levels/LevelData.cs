namespace JumpAnalytics;

/// <summary>Landings as a two-level model sees them: one or two numbers each, a mission, and perhaps a spotter and a number the mean runs along.</summary>
internal sealed class LevelData
{
    /// <summary>Gathers the landings of each mission.</summary>
    /// <param name="axes">For each axis one number a landing.</param>
    /// <param name="mission">Mission of each landing, 0 to <paramref name="missions"/> − 1.</param>
    /// <param name="missions">Number of missions; some may have no landing.</param>
    /// <param name="spotter">Spotter of each landing, 0 to <paramref name="spotters"/> − 1; null without that level.</param>
    /// <param name="spotters">Number of spotters.</param>
    /// <param name="along">What the mean runs along, one number a landing; null when the mean is constant.</param>
    public LevelData(double[][] axes, ReadOnlySpan<int> mission, int missions, int[]? spotter = null, int spotters = 0, double[]? along = null)
    {
        (Axes, Spotter, Spotters, Along) = (axes, spotter, spotters, along);
        Start = new int[missions + 1];
        foreach (var m in mission) Start[m + 1]++;
        for (var m = 0; m < missions; m++)
        {
            if (Start[m + 1] > 0) Missions++;
            Start[m + 1] += Start[m];
        }
        var next = Start.AsSpan(0, missions).ToArray();
        Order = new int[mission.Length];
        for (var i = 0; i < mission.Length; i++) Order[next[mission[i]]++] = i;
    }

    public double[][] Axes { get; }
    public int[]? Spotter { get; }
    public int Spotters { get; }
    public double[]? Along { get; }

    /// <summary>Landings by mission, in the order given within each.</summary>
    public int[] Order { get; }

    /// <summary>Where each mission begins in <see cref="Order"/>; one more for the end.</summary>
    public int[] Start { get; }

    /// <summary>Missions that have a landing.</summary>
    public int Missions { get; }

    public int Landings => Order.Length;

    /// <summary>Numbers of the mean for each axis: one, or two with a slope.</summary>
    public int Fixed => Along is null ? 1 : 2;

    public ReadOnlySpan<int> LandingsOf(int mission) => Order.AsSpan(Start[mission]..Start[mission + 1]);

    /// <summary>Numbers names in order of appearance.</summary>
    public static (IReadOnlyList<string> Names, int[] Number) Numbered(IEnumerable<string> names)
    {
        var (known, number) = (new Dictionary<string, int>(StringComparer.Ordinal), new List<int>());
        foreach (var name in names)
        {
            if (!known.TryGetValue(name, out var n)) known.Add(name, n = known.Count);
            number.Add(n);
        }
        return ([.. known.Keys], [.. number]);
    }
}
