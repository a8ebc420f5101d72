using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// A hit rate by the beta-binomial distribution: each mission has its own probability of a hit, which varies between missions as a beta
/// distribution does; its landings are independent given that.
/// </summary>
/// <remarks>
/// <para>Maximum likelihood over the mean and the likeness (Skellam 1948, Journal of the Royal Statistical Society B 10:257-261; Crowder
/// 1978, Applied Statistics 27:34-37). The mean is of missions, so a large stick counts for less than its landings; it may differ from
/// hits over landings. A negative likeness is not looked for: missions that agree by luck are taken as independent landings.</para>
/// <para>Interval: means whose best likelihood, over the likeness, lies less below the top than half the squared two-sided t quantile on
/// missions − 1 degrees of freedom. That is the profile likelihood interval with t in place of the normal for few missions. When all
/// landings, or none, are hits the best likeness at a mean below is 1: missions count, and not landings.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record BetaBinomialRate
{
    private BetaBinomialRate(Estimate mean, double? likeness, double logLikelihood, int missions, int landings) =>
        (Mean, Likeness, LogLikelihood, Missions, Landings) = (mean, likeness, logLikelihood, missions, landings);

    /// <summary>
    /// Mean over missions of the probability of a hit, with its profile likelihood interval or the reason why it has none.
    /// </summary>
    public Estimate Mean { get; }

    /// <summary>
    /// Correlation of two landings of one mission, 0 to 1: 1/(α + β + 1) of the beta distribution. Null where landings can't tell: all or
    /// none are hits, or every mission has one landing.
    /// </summary>
    public double? Likeness { get; }

    /// <summary>Natural logarithm of the probability of the counts at the estimate, binomial coefficients included.</summary>
    public double LogLikelihood { get; }

    /// <summary>Number of missions.</summary>
    public int Missions { get; }

    /// <summary>Number of landings.</summary>
    public int Landings { get; }

    /// <summary>Fits the distribution to counts by mission.</summary>
    /// <param name="hits">Hits of each mission.</param>
    /// <param name="landings">Decided landings of each mission, at least one in each.</param>
    /// <param name="confidence">Coverage of the interval, for instance 0.95.</param>
    /// <returns>The fit, or the reason why there is none: no landing, or a single mission, which can't tell how missions differ.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, or counts that can't be.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<BetaBinomialRate> Of(IReadOnlyList<int> hits, IReadOnlyList<int> landings, double confidence = 0.95)
    {
        if (hits.Count == 0 && landings.Count == 0) return Fit<BetaBinomialRate>.Refused("no landing");
        var counted = ClusteredProportion.Of(hits, landings, confidence);
        if (counted.Missions < 2) return Fit<BetaBinomialRate>.Refused("a single mission");
        var likelihood = new BetaBinomialLikelihood(hits, landings);
        var (mean, likeness, top) = likelihood.Top();
        var critical = QuantileOf.T(counted.Missions - 1, TailShare.Middle(confidence));
        var floor = top - critical * critical / 2;
        var range = new Interval(
            mean > 0 ? BinomialLimits.Root(m => likelihood.Profile(m) - floor, 0, mean) : 0,
            mean < 1 ? BinomialLimits.Root(m => floor - likelihood.Profile(m), mean, 1) : 1);
        var orders = Enumerable.Range(0, counted.Missions).Sum(m => SpecialFunctions.BinomialLn(landings[m], hits[m]));
        return Fit<BetaBinomialRate>.Made(new BetaBinomialRate(
            Estimate.Of(mean, range), likelihood.TellsLikeness ? likeness : null, top + orders, counted.Missions, counted.Landings));
    }
}
