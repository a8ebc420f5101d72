namespace JumpAnalytics.Statistics;

/// <summary>
/// Several means drawn towards their common mean, which together lie nearer the truth than the means as they came, whatever the truth is:
/// the estimator of James and Stein as Efron and Morris use it, and its empirical Bayes form for unequal variances.
/// </summary>
/// <remarks>
/// <para>Equal variances: each keeps 1 − (k−3)·variance/Σ(value − mean)² of its distance from the mean, not less than nothing (Efron and
/// Morris 1975, Journal of the American Statistical Association 70:311-319).</para>
/// <para>Unequal ones: each keeps 1 − (k−3)/(k−1)·v/(v + τ²), τ² where Q equals k − 1 (Morris 1983, Journal of the American Statistical
/// Association 78:47-55). Where the means lie farther apart than their errors put them both are the same; where they do not this one keeps
/// 2/(k−1), the other nothing.</para>
/// <para>Standard errors are Morris's (1983): with the error of the mean, and of how much to shrink. They hold on average over the means
/// and not for one singled out.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record ShrunkMeans
{
    /// <summary>Fewest means: with three, the mean and the spread leave nothing to draw on.</summary>
    public const int FewestMeans = 4;

    private ShrunkMeans()
    {
    }

    /// <summary>What the means are drawn towards.</summary>
    public required double Mean { get; init; }

    /// <summary>Variance between the true means as estimated; 0 where none shows.</summary>
    public required double TauSquared { get; init; }

    /// <summary>Each mean after shrinkage, in the order given.</summary>
    public required IReadOnlyList<ShrunkEffect> Effects { get; init; }

    /// <summary>Shrinks means of one variance (positive-part James-Stein).</summary>
    /// <param name="values">The means.</param>
    /// <param name="variance">The variance of each, in the square of their unit.</param>
    /// <returns>The shrunken means, or the reason why there are none: fewer than four.</returns>
    /// <exception cref="ArgumentException">A value that is not finite, or a variance that is not above zero.</exception>
    public static Fit<ShrunkMeans> Of(IReadOnlyList<double> values, double variance)
    {
        var data = new WeightedEffects(values, [.. values.Select(_ => variance)]);
        return data.Count < FewestMeans ? TooFew(data.Count)
            : Made(data, values, [.. values.Select(_ => variance)], Math.Max(0, data.Spread / (data.Count - 1) - variance),
                _ => data.Spread > 0 ? Math.Min(1, (data.Count - 3) * variance / data.Spread) : 1);
    }

    /// <summary>Shrinks means of unequal variances (empirical Bayes).</summary>
    /// <param name="values">The means.</param>
    /// <param name="variances">The variance of each.</param>
    /// <returns>The shrunken means, or the reason why there are none: fewer than four.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, a value that is not finite, a variance that is not above zero.</exception>
    public static Fit<ShrunkMeans> Of(IReadOnlyList<double> values, IReadOnlyList<double> variances)
    {
        var data = new WeightedEffects(values, variances);
        if (data.Count < FewestMeans) return TooFew(data.Count);
        var tau2 = data.Between(BetweenVariance.PauleMandel);
        return Made(data, values, variances, tau2, v => (data.Count - 3.0) / (data.Count - 1) * v / (v + tau2));
    }

    private static Fit<ShrunkMeans> TooFew(int count) =>
        Fit<ShrunkMeans>.Refused($"{count} mean{(count == 1 ? "" : "s")}; shrinkage can be judged from {FewestMeans} on");

    private static Fit<ShrunkMeans> Made(WeightedEffects data, IReadOnlyList<double> values, IReadOnlyList<double> variances,
        double tau2, Func<double, double> given)
    {
        var (k, at) = (data.Count, data.At(tau2));
        var typical = variances.Sum(v => v / (v + tau2)) / at.Weights;
        return Fit<ShrunkMeans>.Made(new ShrunkMeans
        {
            Mean = at.Mean,
            TauSquared = tau2,
            Effects = [.. values.Zip(variances, Shrunk)],
        });

        ShrunkEffect Shrunk(double y, double v)
        {
            var (b, r) = (given(v), y - at.Mean);
            var leverage = 1 / ((v + tau2) * at.Weights);
            var ofShrinking = 2.0 / (k - 3) * b * b * (typical + tau2) / (v + tau2);
            return new ShrunkEffect(y, at.Mean + (1 - b) * r, Math.Sqrt(v * (1 - (1 - leverage) * b) + ofShrinking * r * r), 1 - b);
        }
    }
}
