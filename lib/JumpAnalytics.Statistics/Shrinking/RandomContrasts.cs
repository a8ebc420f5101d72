using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Random;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Effects of which only differences can be told (one person against the others), from correlated estimates with a known covariance: how
/// much they differ, and each difference drawn towards nothing. With independent estimates it is the restricted likelihood of
/// <see cref="RandomEffectsMean"/>.
/// </summary>
/// <remarks>
/// The differences are turned into k − 1 independent coordinates with variances λ + τ² (eigenvectors of the covariance of orthonormal
/// contrasts), in which likelihood, Q and shrinkage are sums.
/// </remarks>
internal sealed class RandomContrasts
{
    private const int GridPoints = 100; // the sum is even in the spread, so that it converges faster than any power
    private const double Negligible = 18; // of the log weight

    private readonly Matrix<double> _turn; // coordinates by effects
    private readonly double[] _variances, _values;
    private readonly (double Weight, double TauSquared)[] _spreads;

    /// <param name="values">Estimates of the effects; what they have in common does not matter.</param>
    /// <param name="covariance">Their covariance; likewise.</param>
    /// <param name="confidence">Coverage of the interval of the spread.</param>
    /// <param name="priorSd">
    /// Standard deviation of the half-normal density of the spread that differences are averaged over, in the values' unit.
    /// </param>
    public RandomContrasts(double[] values, Matrix<double> covariance, double confidence, double priorSd)
    {
        var k = values.Length;
        if (k < 2) throw new ArgumentException($"Differences need two effects; found {k}.", nameof(values));
        var contrasts = Orthonormal(k);
        var axes = (contrasts * covariance * contrasts.Transpose()).Evd(Symmetricity.Symmetric);
        _turn = axes.EigenVectors.Transpose() * contrasts;
        _variances = [.. axes.EigenValues.Select(v => v.Real)];
        if (_variances.Any(v => !(v > 0)))
            throw new ArgumentException("The covariance of the differences must be positive definite.", nameof(covariance));
        _values = (_turn * Vector<double>.Build.Dense(values)).ToArray();
        var scale = 10 * (_values.Sum(v => v * v) + _variances.Max());
        TauSquared = BetweenSearch.HighestTop(Slope, Height, scale);
        TauSquaredRange = RandomEffectsMean.Profile(QAt, k - 1, confidence, scale);
        Q = QAt(0);
        P = RandomEffectsMean.UpperTail(Q, k - 1);
        _spreads = Spreads(priorSd);
    }

    /// <summary>Variance between effects by restricted likelihood.</summary>
    public double TauSquared { get; }

    /// <summary>Its interval by the Q-profile.</summary>
    public Interval TauSquaredRange { get; }

    /// <summary>Squared differences over their covariance: chi-square on k − 1 degrees if the effects are equal.</summary>
    public double Q { get; }

    /// <summary>Its degrees of freedom, k − 1.</summary>
    public int Freedom => _values.Length;

    /// <summary>Chance of a Q as large or larger if they are.</summary>
    public double P { get; }

    /// <summary>
    /// A difference, averaged over what the estimates and the half-normal density leave open about the spread: the likeliest spread is
    /// often zero, and differences that took it for certain would look surer than they are.
    /// </summary>
    /// <param name="contrast">Weights of the effects, which sum to zero.</param>
    public ShrunkDifference Difference(double[] contrast)
    {
        var along = (_turn * Vector<double>.Build.Dense(contrast)).ToArray();
        return new ShrunkDifference([.. _spreads.Select(s => (s.Weight, Mean(s.TauSquared), Math.Sqrt(Variance(s.TauSquared))))]);

        double Mean(double t) => Enumerable.Range(0, along.Length).Sum(j => along[j] * t / (t + _variances[j]) * _values[j]);
        double Variance(double t) =>
            Enumerable.Range(0, along.Length).Sum(j => along[j] * along[j] * t * _variances[j] / (t + _variances[j]));
    }

    /// <summary>The effects less their mean, drawn from what is left open.</summary>
    public double[] Draw(RandomSource random)
    {
        var (left, part) = (random.NextDouble(), 0);
        while (part < _spreads.Length - 1 && (left -= _spreads[part].Weight) > 0) part++;
        var t = _spreads[part].TauSquared;
        return (Vector<double>.Build.Dense(_values.Length,
            j => t / (t + _variances[j]) * _values[j] + Math.Sqrt(t * _variances[j] / (t + _variances[j])) * Normal.Sample(random, 0, 1))
            * _turn).ToArray();
    }

    private double QAt(double t) => _values.Zip(_variances, (z, v) => z * z / (v + t)).Sum();

    private double Slope(double t) => _values.Zip(_variances, (z, v) => z * z / ((v + t) * (v + t)) - 1 / (v + t)).Sum();

    private double Height(double t) => -QAt(t) - _variances.Sum(v => Math.Log(v + t));

    /// <summary>The spreads that count, evenly spaced, with their weights.</summary>
    private (double Weight, double TauSquared)[] Spreads(double priorSd)
    {
        var tops = Enumerable.Range(0, GridPoints + 1).Max(i => LogWeight(6 * priorSd * i / GridPoints));
        var (low, high) = (0.0, 6 * priorSd);
        while (high > 1e-6 * priorSd && LogWeight(high * 0.8) < tops - Negligible) high *= 0.8;
        while (low < high && LogWeight(low + 0.05 * high) < tops - Negligible) low += 0.05 * high;
        var parts = Enumerable.Range(0, GridPoints + 1)
            .Select(i => (Sd: low + (high - low) * i / GridPoints, Half: i is 0 or GridPoints ? 0.5 : 1))
            .Select(p => (Weight: p.Half * Math.Exp(LogWeight(p.Sd) - tops), TauSquared: p.Sd * p.Sd)).ToArray();
        var all = parts.Sum(p => p.Weight);
        return [.. parts.Select(p => (p.Weight / all, p.TauSquared))];

        double LogWeight(double sd) => Height(sd * sd) / 2 - sd * sd / (2 * priorSd * priorSd);
    }

    private static Matrix<double> Orthonormal(int k) => Matrix<double>.Build.Dense(k - 1, k, (row, column) =>
        (column <= row ? 1 : column == row + 1 ? -(row + 1.0) : 0) / Math.Sqrt((row + 1.0) * (row + 2)));
}

/// <summary>What is known of a difference: a mixture of normals, one for each spread.</summary>
internal sealed class ShrunkDifference((double Weight, double Mean, double Sd)[] parts)
{
    /// <summary>Its mean.</summary>
    public double Mean => parts.Sum(p => p.Weight * p.Mean);

    /// <summary>Probability that it is no more than a value.</summary>
    public double Below(double value) =>
        parts.Sum(p => p.Weight * (p.Sd > 0 ? NormalInterval.Below((value - p.Mean) / p.Sd) : value >= p.Mean ? 1 : 0));

    /// <summary>Probability that it is more than a value.</summary>
    public double Above(double value) =>
        parts.Sum(p => p.Weight * (p.Sd > 0 ? NormalInterval.Below((p.Mean - value) / p.Sd) : value < p.Mean ? 1 : 0));

    /// <summary>The value that it is below with a probability.</summary>
    public double Quantile(double share)
    {
        var (low, high) = (parts.Min(p => p.Mean - 40 * p.Sd), parts.Max(p => p.Mean + 40 * p.Sd));
        return Roots.Middle(x => Below(x) < share, low, high);
    }
}
