namespace JumpAnalytics.Statistics;

/// <summary>Estimates with known variances, weighted by 1/(variance + between).</summary>
internal sealed class WeightedEffects
{
    private readonly double[] _values, _variances;

    public WeightedEffects(IReadOnlyList<double> values, IReadOnlyList<double> variances)
    {
        if (values.Count != variances.Count)
            throw new ArgumentException($"Each value needs one variance; found {values.Count} values and {variances.Count} variances.",
                nameof(variances));
        for (var i = 0; i < values.Count; i++)
        {
            if (!double.IsFinite(values[i]))
                throw new ArgumentException($"Values must be finite; found {values[i]} in place {i}.", nameof(values));
            if (!(variances[i] > 0) || !double.IsFinite(variances[i]))
                throw new ArgumentException($"Variances must be finite and above zero; found {variances[i]} in place {i}.",
                    nameof(variances));
        }
        (_values, _variances) = ([.. values], [.. variances]);
        if (_values.Length == 0) return;
        Plain = _values.Average();
        Spread = _values.Sum(y => (y - Plain) * (y - Plain));
    }

    public int Count => _values.Length;

    /// <summary>Unweighted mean.</summary>
    public double Plain { get; }

    /// <summary>Sum of squares about it.</summary>
    public double Spread { get; }

    /// <summary>A variance between effects that no estimate exceeds.</summary>
    public double Scale => 10 * (Spread + _variances.Max());

    /// <summary>
    /// Weighted mean, sums of weights and of their squares, Q, and the sum of squared weights times squared residuals,
    /// at a variance between effects.
    /// </summary>
    public (double Mean, double Weights, double Squares, double Q, double SquaredQ) At(double between)
    {
        double weights = 0, sum = 0, squares = 0, q = 0, squaredQ = 0;
        for (var i = 0; i < _values.Length; i++)
        {
            var w = 1 / (_variances[i] + between);
            (weights, sum, squares) = (weights + w, sum + w * _values[i], squares + w * w);
        }
        var mean = sum / weights;
        for (var i = 0; i < _values.Length; i++)
        {
            var (w, r) = (1 / (_variances[i] + between), _values[i] - mean);
            (q, squaredQ) = (q + w * r * r, squaredQ + w * w * r * r);
        }
        return (mean, weights, squares, q, squaredQ);
    }

    /// <summary>The variance between effects by a method; never negative.</summary>
    public double Between(BetweenVariance method)
    {
        var (k, whole) = (Count, At(0));
        return method switch
        {
            BetweenVariance.None => 0,
            BetweenVariance.DerSimonianLaird => Math.Max(0, (whole.Q - (k - 1)) / (whole.Weights - whole.Squares / whole.Weights)),
            BetweenVariance.Hedges => Math.Max(0, Spread / (k - 1) - _variances.Average()),
            BetweenVariance.HunterSchmidt => Math.Max(0, (whole.Q - k) / whole.Weights),
            BetweenVariance.SidikJonkman => Spread > 0 ? Spread / k * At(Spread / k).Q / (k - 1) : 0,
            BetweenVariance.PauleMandel => BetweenSearch.Passing(t => At(t).Q, k - 1, Scale),
            BetweenVariance.MaximumLikelihood or BetweenVariance.RestrictedLikelihood =>
                Likeliest(method == BetweenVariance.RestrictedLikelihood),
            _ => throw Guard.Refused(nameof(method), method, "a way to estimate the variance between effects"),
        };
    }

    private double Likeliest(bool restricted)
    {
        return BetweenSearch.HighestTop(Slope, Height, Scale);

        double Slope(double t)
        {
            var at = At(t);
            return at.SquaredQ - at.Weights + (restricted ? at.Squares / at.Weights : 0);
        }

        double Height(double t)
        {
            var at = At(t);
            return -_variances.Sum(v => Math.Log(v + t)) - at.Q - (restricted ? Math.Log(at.Weights) : 0);
        }
    }
}
