namespace JumpAnalytics;

/// <summary>
/// The likelihood of a beta-binomial distribution over its mean and the likeness of landings of one mission, both from 0 to 1, ends
/// included: at likeness 0 landings are independent, at 1 all of a mission share one fate.
/// </summary>
/// <remarks>
/// With likeness ρ and mean μ the probability of one order of hits and misses in a mission is, landing by landing as from Pólya's urn,
/// Π ((1−ρ)μ + jρ) Π ((1−ρ)(1−μ) + jρ) / Π ((1−ρ) + jρ), j counting from 0 over hits, misses and landings. So the logarithm needs only
/// how many missions have more than j of each, and is concave in μ.
/// </remarks>
internal sealed class BetaBinomialLikelihood
{
    /// <summary>Likenesses among which the top is sought before it is closed in on.</summary>
    private static readonly double[] _likenesses =
        [0, 0.003, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.96, 0.99, 0.997, 1];

    /// <summary>From this j on, sums over j are taken by <see cref="DiscreteSum"/>: a mission may have a million landings.</summary>
    private const int Near = 64;

    private readonly int[] _hits;
    private readonly int[] _misses;
    private readonly int[] _landings;
    private readonly (double J, double Count)[] _farHits, _farMisses, _farLandings;

    public BetaBinomialLikelihood(IReadOnlyList<int> hits, IReadOnlyList<int> landings)
    {
        var most = Math.Min(landings.Max(), Near);
        (_hits, _misses, _landings) = (new int[most], new int[most], new int[most]);
        for (var m = 0; m < hits.Count; m++)
        {
            for (var j = 0; j < Math.Min(landings[m], Near); j++)
            {
                _landings[j]++;
                if (j < hits[m]) _hits[j]++;
                if (j < landings[m] - hits[m]) _misses[j]++;
            }
        }
        (_farHits, _farMisses, _farLandings) = (Far(hits), Far([.. landings.Select((n, m) => n - hits[m])]), Far(landings));
    }

    /// <summary>Whether there are both hits and misses, and missions of more than one landing to tell how alike they are.</summary>
    public bool TellsLikeness => _hits[0] > 0 && _misses[0] > 0 && _landings.Length > 1;

    /// <summary>Missions with both hits and misses.</summary>
    private int Mixed => _hits[0] + _misses[0] - _landings[0];

    /// <summary>Logarithm of the probability of the hits in their order, mission by mission.</summary>
    public double At(double mean, double likeness)
    {
        var (free, sum) = (1 - likeness, Log(_hits[0], mean) + Log(_misses[0], 1 - mean) + Log(Mixed, 1 - likeness));
        for (var j = 1; j < _landings.Length; j++)
        {
            sum += Log(_hits[j], free * mean + j * likeness) + Log(_misses[j], free * (1 - mean) + j * likeness)
                - Log(_landings[j], free + j * likeness);
        }
        foreach (var (j, count) in _farHits) sum += Log(count, free * mean + j * likeness);
        foreach (var (j, count) in _farMisses) sum += Log(count, free * (1 - mean) + j * likeness);
        foreach (var (j, count) in _farLandings) sum -= Log(count, free + j * likeness);
        return sum;

        static double Log(double count, double x) => count == 0 ? 0 : count * Math.Log(x);
    }

    /// <summary>The top over both: mean, likeness and height.</summary>
    public (double Mean, double Likeness, double Value) Top()
    {
        var likeness = Best(r => At(BestMean(r), r), r => SlopeInLikeness(BestMean(r), r));
        var mean = BestMean(likeness);
        return (mean, likeness, At(mean, likeness));
    }

    /// <summary>The top over the likeness for a given mean.</summary>
    public double Profile(double mean) => At(mean, Best(r => At(mean, r), r => SlopeInLikeness(mean, r)));

    private double BestMean(double likeness) =>
        _hits[0] == 0 ? 0 : _misses[0] == 0 ? 1 : BinomialLimits.Root(mean => -SlopeInMean(mean, likeness), 0, 1);

    private double SlopeInMean(double mean, double likeness)
    {
        var (free, slope) = (1 - likeness, Ratio(_hits[0], mean) - Ratio(_misses[0], 1 - mean));
        for (var j = 1; j < _landings.Length; j++)
            slope += free * (Ratio(_hits[j], free * mean + j * likeness) - Ratio(_misses[j], free * (1 - mean) + j * likeness));
        foreach (var (j, count) in _farHits) slope += free * Ratio(count, free * mean + j * likeness);
        foreach (var (j, count) in _farMisses) slope -= free * Ratio(count, free * (1 - mean) + j * likeness);
        return slope;
    }

    private double SlopeInLikeness(double mean, double likeness)
    {
        var (free, slope) = (1 - likeness, -Ratio(Mixed, 1 - likeness));
        for (var j = 1; j < _landings.Length; j++)
        {
            slope += Ratio(_hits[j], free * mean + j * likeness) * (j - mean)
                + Ratio(_misses[j], free * (1 - mean) + j * likeness) * (j - (1 - mean))
                - Ratio(_landings[j], free + j * likeness) * (j - 1);
        }
        foreach (var (j, count) in _farHits) slope += Ratio(count, free * mean + j * likeness) * (j - mean);
        foreach (var (j, count) in _farMisses) slope += Ratio(count, free * (1 - mean) + j * likeness) * (j - (1 - mean));
        foreach (var (j, count) in _farLandings) slope -= Ratio(count, free + j * likeness) * (j - 1);
        return slope;
    }

    private static double Ratio(double count, double x) => count == 0 ? 0 : count / x;

    /// <summary>Places j from <see cref="Near"/> on, each with the number of missions that have more, times the places it is for.</summary>
    private static (double J, double Count)[] Far(IReadOnlyList<int> counts)
    {
        var (far, from, left) = (new List<(double, double)>(), Near, counts.Count(c => c > Near));
        foreach (var group in counts.Where(c => c > Near).GroupBy(c => c).OrderBy(g => g.Key))
        {
            foreach (var (j, weight) in DiscreteSum.Places(from, group.Key)) far.Add((j, left * weight));
            (from, left) = (group.Key, left - group.Count());
        }
        return [.. far];
    }

    /// <summary>
    /// The likeness at the top of a function, which may be an end: the best of a few, closed in on by the sign of the slope.
    /// </summary>
    private static double Best(Func<double, double> value, Func<double, double> slope)
    {
        var values = _likenesses.Select(value).ToArray();
        var best = Array.IndexOf(values, values.Max());
        var (low, high) = (_likenesses[Math.Max(0, best - 1)], _likenesses[Math.Min(_likenesses.Length - 1, best + 1)]);
        return best == 0 && slope(0) <= 0 ? 0
            : best == _likenesses.Length - 1 && slope(1) >= 0 ? 1
            : BinomialLimits.Root(r => -slope(r), low, high);
    }
}
