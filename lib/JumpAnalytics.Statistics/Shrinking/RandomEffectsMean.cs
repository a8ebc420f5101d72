using MathNet.Numerics;

namespace JumpAnalytics.Statistics;

/// <summary>One effect after shrinkage.</summary>
/// <param name="Observed">The estimate as it came.</param>
/// <param name="Value">The shrunken estimate, in the same unit.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="Kept">Share of its distance from the mean that the estimate kept, 0 to 1.</param>
[TypeFormatterSource]
public sealed record ShrunkEffect(double Observed, double Value, double StandardError, double Kept);

/// <summary>
/// Estimates of several effects of one kind, each with a known variance, brought together: their mean, how much the effects differ beyond
/// the errors of the estimates, and each effect drawn towards the mean by as much as its own record is thin.
/// </summary>
/// <remarks>
/// <para>Model: estimate_i = effect_i + error_i, error_i ~ N(0, v_i) with v_i known, effect_i ~ N(mean, τ²). Formulas as in Viechtbauer
/// (2010, Journal of Statistical Software 36(3)). Likelihoods are searched for their highest top over the whole line, since they may have
/// several, and end at τ² = 0 where that is highest.</para>
/// <para>Estimates must be independent of each other; where they share a reference, see how fair comparisons are made.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record RandomEffectsMean
{
    private RandomEffectsMean()
    {
    }

    /// <summary>How the variance between effects was estimated.</summary>
    public required BetweenVariance Method { get; init; }

    /// <summary>Coverage of every interval.</summary>
    public required double Confidence { get; init; }

    /// <summary>Variance between effects, τ², in the square of the estimates' unit.</summary>
    public required double TauSquared { get; init; }

    /// <summary>
    /// Interval of τ² by the Q-profile (Viechtbauer 2007, Statistics in Medicine 26:37-52), exact under the model; both limits are 0 when
    /// the estimates lie closer together than their errors should let them.
    /// </summary>
    public required Interval TauSquaredRange { get; init; }

    /// <summary>Weighted mean with its normal (Wald) interval.</summary>
    public required Estimate Mean { get; init; }

    /// <summary>Its standard error, τ² taken as known.</summary>
    public required double StandardError { get; init; }

    /// <summary>
    /// The same mean with the interval of Knapp and Hartung (2003, Statistics in Medicine 22:2693-2710), t on k − 1 degrees:
    /// for few effects the better one.
    /// </summary>
    public required Estimate KnappHartung { get; init; }

    /// <summary>Standard error of Knapp and Hartung.</summary>
    public required double KnappHartungError { get; init; }

    /// <summary>Cochran's Q: squared residuals about the precision-weighted mean over the variances.</summary>
    public required double Q { get; init; }

    /// <summary>Its degrees of freedom, k − 1.</summary>
    public required int Freedom { get; init; }

    /// <summary>Chance of a Q as large or larger if all effects were equal.</summary>
    public required double QP { get; init; }

    /// <summary>Share of the variance of the estimates that is variance between effects, 0 to 1 (I²), at a typical own variance.</summary>
    public required double ISquared { get; init; }

    /// <summary>Variance of the estimates over a typical own variance (H²).</summary>
    public required double HSquared { get; init; }

    /// <summary>Where the effect of one more of the kind would lie, normal limits.</summary>
    public required Interval Prediction { get; init; }

    /// <summary>
    /// Each effect drawn towards the mean (best linear unbiased prediction), with the error of the mean in its
    /// standard error; in the order given.
    /// </summary>
    public required IReadOnlyList<ShrunkEffect> Effects { get; init; }

    /// <summary>Brings estimates together.</summary>
    /// <param name="values">Estimates of the effects.</param>
    /// <param name="variances">The variance of each, above zero.</param>
    /// <param name="method">How the variance between effects is estimated.</param>
    /// <param name="confidence">Coverage of intervals, for instance 0.95.</param>
    /// <returns>The result, or the reason why there is none: fewer than two estimates.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, a value that is not finite, a variance that is not above zero.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1, or the method is none.</exception>
    public static Fit<RandomEffectsMean> Of(
        IReadOnlyList<double> values, IReadOnlyList<double> variances, BetweenVariance method = BetweenVariance.RestrictedLikelihood,
        double confidence = 0.95)
    {
        var data = new WeightedEffects(values, variances);
        Guard.Confidence(confidence);
        Guard.Defined(method);
        var k = data.Count;
        if (k < 2)
            return Fit<RandomEffectsMean>.Refused($"{k} estimate{(k == 1 ? "" : "s")}; a spread between effects can be told from 2 on");

        var (tau2, whole) = (data.Between(method), data.At(0));
        var at = data.At(tau2);
        var (z, t) = (QuantileOf.Normal(TailShare.Middle(confidence)), QuantileOf.T(k - 1, TailShare.Middle(confidence)));
        var (error, adjusted) = (Math.Sqrt(1 / at.Weights), Math.Sqrt(at.Q / (k - 1) / at.Weights));
        var typical = (k - 1) * whole.Weights / (whole.Weights * whole.Weights - whole.Squares);
        var fixedEffect = method == BetweenVariance.None;
        return Fit<RandomEffectsMean>.Made(new RandomEffectsMean
        {
            Method = method,
            Confidence = confidence,
            TauSquared = tau2,
            TauSquaredRange = Profile(x => data.At(x).Q, k - 1, confidence, data.Scale),
            Mean = Estimate.Of(at.Mean, About(at.Mean, z * error)),
            StandardError = error,
            KnappHartung = adjusted > 0
                ? Estimate.Of(at.Mean, About(at.Mean, t * adjusted)) : Estimate.WithoutRange(at.Mean, "the estimates do not differ"),
            KnappHartungError = adjusted,
            Q = whole.Q,
            Freedom = k - 1,
            QP = UpperTail(whole.Q, k - 1),
            ISquared = fixedEffect ? whole.Q > 0 ? Math.Max(0, (whole.Q - (k - 1)) / whole.Q) : 0 : tau2 / (tau2 + typical),
            HSquared = fixedEffect ? whole.Q / (k - 1) : (tau2 + typical) / typical,
            Prediction = About(at.Mean, z * Math.Sqrt(tau2 + error * error)),
            Effects = [.. values.Zip(variances, (y, v) => Shrunk(y, v, tau2 / (tau2 + v)))],
        });

        ShrunkEffect Shrunk(double y, double v, double kept) =>
            new(y, kept * y + (1 - kept) * at.Mean, Math.Sqrt(kept * v + (1 - kept) * (1 - kept) * error * error), kept);
    }

    /// <summary>The variances between effects at which a Q of so many degrees of freedom is not unusual.</summary>
    internal static Interval Profile(Func<double, double> q, int freedom, double confidence, double scale) =>
        new(BetweenSearch.Passing(q, QuantileOf.ChiSquared(freedom, TailShare.Middle(confidence)), scale),
            BetweenSearch.Passing(q, QuantileOf.ChiSquared(freedom, TailShare.Below((1 - confidence) / 2)), scale));

    /// <summary>Probability of a chi-square of so many degrees of freedom beyond a value.</summary>
    internal static double UpperTail(double chiSquare, int freedom) =>
        chiSquare > 0 ? SpecialFunctions.GammaUpperRegularized(freedom / 2.0, chiSquare / 2) : 1;

    private static Interval About(double centre, double half) => new(centre - half, centre + half);
}
