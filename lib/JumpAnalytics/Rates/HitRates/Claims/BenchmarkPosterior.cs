namespace JumpAnalytics;

/// <summary>The probability that the true rate is at least a benchmark, given hits by mission.</summary>
/// <remarks>
/// Posterior of a beta-binomial model with a flat prior for the intra-mission correlation and Jeffreys' prior, beta(½, ½), for the
/// rate, which is flat in the angle whose squared sine is the rate. Both are integrated by Gauss and Legendre's rule, the angle on
/// either side of the benchmark by itself.
/// </remarks>
internal static class BenchmarkPosterior
{
    private const int Nodes = 64;

    private static readonly Quadrature _rule = new(0, 1, Nodes);

    /// <summary>Half width of the window about the observed rate, in standard deviations.</summary>
    private const double Reach = 14;

    /// <summary>Correlations whose likelihood lies this far (in logarithms) below the best are left out.</summary>
    private const double Negligible = 35;

    /// <param name="hits">Hits of each mission.</param>
    /// <param name="landings">Landings of each mission.</param>
    /// <param name="benchmark">Rate to reach, between 0 and 1.</param>
    public static double AtLeast(IReadOnlyList<int> hits, IReadOnlyList<int> landings, double benchmark)
    {
        var counts = new BetaBinomialLikelihood(hits, landings);
        var (n, k) = (landings.Sum(), hits.Sum());
        var angle = Math.Asin(Math.Sqrt((double)k / n));
        var border = Math.Asin(Math.Sqrt(benchmark));
        var (low, high) = Correlations(counts, (k + 0.5) / (n + 1.0));
        var parts = new List<(double Log, bool Above)>();
        for (var c = 0; c < Nodes; c++)
        {
            var correlation = low + (high - low) * _rule.At(c);
            var spread = Math.Sqrt(landings.Sum(l => l * (1 + (l - 1) * correlation))) / (2 * n);
            var (from, to) = (Math.Max(0, angle - Reach * spread), Math.Min(Math.PI / 2, angle + Reach * spread));
            Integrate(from, Math.Min(to, border), correlation, _rule.Weight(c), false);
            Integrate(Math.Max(from, border), to, correlation, _rule.Weight(c), true);
        }
        var top = parts.Max(p => p.Log);
        var (above, all) = (0.0, 0.0);
        foreach (var (log, isAbove) in parts)
        {
            var weight = Math.Exp(log - top);
            all += weight;
            if (isAbove) above += weight;
        }
        return above / all;

        void Integrate(double from, double to, double correlation, double weight, bool isAbove)
        {
            for (var i = 0; i < Nodes && to > from; i++)
            {
                var sine = Math.Sin(from + (to - from) * _rule.At(i));
                parts.Add((counts.At(sine * sine, correlation) + Math.Log(weight * _rule.Weight(i) * (to - from)), isAbove));
            }
        }
    }

    /// <summary>The range of correlations that the records don't rule out.</summary>
    private static (double Low, double High) Correlations(BetaBinomialLikelihood counts, double rate)
    {
        var coarse = Enumerable.Range(0, 2 * Nodes).Select(i => (i + 0.5) / (2 * Nodes))
            .Select(c => (C: c, L: counts.At(rate, c))).ToList();
        var top = coarse.Max(x => x.L);
        var kept = coarse.Where(x => x.L > top - Negligible).ToList();
        return (Math.Max(0, kept[0].C - 1.0 / (2 * Nodes)), Math.Min(1, kept[^1].C + 1.0 / (2 * Nodes)));
    }
}
