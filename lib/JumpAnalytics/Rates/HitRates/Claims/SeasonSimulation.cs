namespace JumpAnalytics;

/// <summary>Draws hits by mission from the beta-binomial distribution, sizes of missions from recorded ones.</summary>
internal sealed class SeasonSimulation
{
    private readonly IReadOnlyList<int> _sizes;
    private readonly Dictionary<int, double[]> _upTo = [];

    public SeasonSimulation(IReadOnlyList<int> sizes, double rate, double correlation)
    {
        _sizes = sizes;
        foreach (var size in sizes.Distinct())
        {
            var (upTo, sum) = (Probabilities(size, rate, correlation), 0.0);
            for (var i = 0; i < upTo.Length; i++) upTo[i] = sum += upTo[i];
            _upTo.Add(size, upTo);
        }
    }

    public (int[] Hits, int[] Landings) Draw(int missions, Random random)
    {
        var (hits, landings) = (new int[missions], new int[missions]);
        for (var m = 0; m < missions; m++)
        {
            landings[m] = _sizes[random.Next(_sizes.Count)];
            var (upTo, u) = (_upTo[landings[m]], random.NextDouble());
            while (hits[m] < landings[m] && upTo[hits[m]] <= u) hits[m]++;
        }
        return (hits, landings);
    }

    /// <summary>Beta-binomial probability of each number of hits in a mission of some landings.</summary>
    public static double[] Probabilities(int landings, double mean, double correlation)
    {
        var (chances, free) = (new double[landings + 1], 1 - correlation);
        for (var hits = 0; hits <= landings; hits++)
        {
            var p = 1.0;
            for (var i = 0; i < hits; i++) p *= (mean * free + i * correlation) * (landings - i) / (i + 1);
            for (var i = 0; i < landings - hits; i++) p *= (1 - mean) * free + i * correlation;
            for (var i = 0; i < landings; i++) p /= free + i * correlation;
            chances[hits] = p;
        }
        return chances;
    }
}
