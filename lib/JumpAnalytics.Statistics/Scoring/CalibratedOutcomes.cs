namespace JumpAnalytics.Statistics;

/// <summary>
/// Outcomes as they would be if forecast probabilities were right: each is a success when a latent standard normal lies below the quantile
/// of its probability, and the latent normals of one cluster share a correlation, the likeness (Gaussian copula).
/// </summary>
/// <remarks>
/// Forecasts that were estimated have errors of their own: the quantile of each is then moved by a normal that all forecasts share and one
/// that those of its group share, drawn anew for each set of outcomes.
/// </remarks>
internal sealed class CalibratedOutcomes
{
    public const double MostLikeness = 0.99;

    private readonly double[] _probabilities;
    private readonly double[] _quantiles;
    private readonly int[][] _clusters;
    private readonly IReadOnlyList<ForecastError>? _errors;

    public CalibratedOutcomes(double[] probabilities, IReadOnlyList<int> clusters, IReadOnlyList<ForecastError>? errors = null)
    {
        (_probabilities, _errors) = (probabilities, errors);
        _quantiles = [.. probabilities.Select(p => QuantileOf.Normal(TailShare.Below(p)))];
        _clusters = [.. Enumerable.Range(0, clusters.Count).GroupBy(i => clusters[i]).Select(g => g.ToArray())];
    }

    public int Clusters => _clusters.Length;

    /// <summary>
    /// The likeness at which the products of what outcomes exceed their probabilities by, summed over the pairs of each cluster, have the
    /// expectation that they came to; 0 when they came to less than none. The expectation of a pair is the bivariate normal probability
    /// less the product, the integral of the density over the correlation (Plackett 1954, Biometrika 41:351-360), here over its arc sine.
    /// </summary>
    public double Likeness(bool[] successes)
    {
        const int Steps = 128;
        var (left, slopes) = (0.0, new double[Steps + 1]);
        var step = Math.Asin(MostLikeness) / Steps;
        foreach (var cluster in _clusters)
        {
            for (var i = 1; i < cluster.Length; i++)
            {
                for (var j = 0; j < i; j++) AddPair(cluster[i], cluster[j]);
            }
        }
        for (var k = 0; k < Steps; k++)
        {
            var gain = step * (slopes[k] + slopes[k + 1]) / 2;
            if (gain > left) return left <= 0 ? 0 : Math.Sin(step * (k + left / gain));
            left -= gain;
        }
        return left > 0 && slopes[0] > 0 ? MostLikeness : 0;

        void AddPair(int i, int j)
        {
            var (h, k) = (_quantiles[i], _quantiles[j]);
            left += ((successes[i] ? 1 : 0) - _probabilities[i]) * ((successes[j] ? 1 : 0) - _probabilities[j]);
            if (double.IsInfinity(h) || double.IsInfinity(k)) return; // a certain forecast has no chance to share
            for (var s = 0; s <= Steps; s++)
            {
                var (sin, cos) = Math.SinCos(s * step);
                slopes[s] += Math.Exp(-(h * h + k * k - 2 * h * k * sin) / (2 * cos * cos)) / (2 * Math.PI);
            }
        }
    }

    /// <summary>Draws as many clusters as there are, with replacement, and outcomes for the forecasts of each.</summary>
    public void Draw(Random random, double likeness, Action<int, bool> outcome)
    {
        var (common, own) = (Math.Sqrt(likeness), Math.Sqrt(1 - likeness));
        var (all, groups) = (_errors is null ? 0 : StandardNormal.Pair(random).Item1, new Dictionary<int, double>());
        for (var m = 0; m < _clusters.Length; m++)
        {
            var cluster = _clusters[random.Next(_clusters.Length)];
            var (shared, spare) = StandardNormal.Pair(random);
            var ready = true;
            foreach (var i in cluster)
            {
                double first;
                if (ready) first = spare;
                else (first, spare) = StandardNormal.Pair(random);
                ready = !ready;
                outcome(i, common * shared + own * first < _quantiles[i] + Error(i));
            }
        }

        double Error(int i)
        {
            if (_errors is null) return 0;
            var error = _errors[i];
            if (!groups.TryGetValue(error.Group, out var group)) groups.Add(error.Group, group = StandardNormal.Pair(random).Item1);
            return error.Shared * all + error.Own * group;
        }
    }
}

/// <summary>Standard errors of an estimated forecast, on the scale of the normal quantile of its probability.</summary>
/// <param name="Group">Forecasts of one group share the error <paramref name="Own"/>.</param>
/// <param name="Own">What the group has for itself.</param>
/// <param name="Shared">What all forecasts share.</param>
internal readonly record struct ForecastError(int Group, double Own, double Shared);
