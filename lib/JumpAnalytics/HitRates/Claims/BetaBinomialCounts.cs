namespace JumpAnalytics;

/// <summary>
/// The beta-binomial likelihood of hits by mission: each mission has a rate of its own, drawn from a beta distribution with a mean and an
/// intra-mission correlation. Kept as counts of how many missions have more than i hits, misses and landings, so that its cost does not depend on
/// the number of missions.
/// </summary>
/// <remarks>
/// In the form of products (Williams 1975, Biometrics 31:949-952), which holds at correlation 0, the binomial, too. The binomial coefficients are left out.
/// </remarks>
internal sealed class BetaBinomialCounts
{
    private readonly int[] _hits;
    private readonly int[] _misses;
    private readonly int[] _landings;

    public BetaBinomialCounts(IReadOnlyList<int> hits, IReadOnlyList<int> landings)
    {
        var largest = landings.Max();
        (_hits, _misses, _landings) = (new int[largest], new int[largest], new int[largest]);
        for (var m = 0; m < hits.Count; m++)
        {
            for (var i = 0; i < hits[m]; i++) _hits[i]++;
            for (var i = 0; i < landings[m] - hits[m]; i++) _misses[i]++;
            for (var i = 0; i < landings[m]; i++) _landings[i]++;
        }
    }

    /// <summary>Logarithm of the likelihood.</summary>
    /// <param name="mean">Rate, above 0 and below 1.</param>
    /// <param name="correlation">Intra-mission correlation, 0 to below 1.</param>
    public double At(double mean, double correlation)
    {
        var (sum, free) = (0.0, 1 - correlation);
        for (var i = 0; i < _landings.Length && _landings[i] > 0; i++)
        {
            var shared = i * correlation;
            if (_hits[i] > 0) sum += _hits[i] * Math.Log(mean * free + shared);
            if (_misses[i] > 0) sum += _misses[i] * Math.Log((1 - mean) * free + shared);
            sum -= _landings[i] * Math.Log(free + shared);
        }
        return sum;
    }

    /// <summary>Probability of each number of hits in a mission of some landings.</summary>
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
