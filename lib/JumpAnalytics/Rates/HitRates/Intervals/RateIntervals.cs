namespace JumpAnalytics;

/// <summary>A share of hits with an interval by a method that is named.</summary>
public static class RateIntervals
{
    private const string NoSpread = "landings are all hits or all misses, and so is every resample";
    private const string NoOdds = "a share of 0 or 1 has no log odds";

    /// <summary>The share of hits, over all missions, with its interval.</summary>
    /// <param name="method">The method; which of them respect missions stands there.</param>
    /// <param name="hits">Hits of each mission.</param>
    /// <param name="landings">Decided landings of each mission, at least one in each.</param>
    /// <param name="confidence">Coverage of the interval, for instance 0.95.</param>
    /// <param name="replicates">Resamples, at least 200; for <see cref="RateInterval.MissionResampling"/> alone.</param>
    /// <param name="seed">Seed of the resamples.</param>
    /// <returns>
    /// Hits over landings (the mean over missions for <see cref="RateInterval.BetaBinomial"/>) with the interval, or with the reason why
    /// the method gives none; a reason alone when there is no landing. Methods that respect missions have no interval for a single
    /// mission.
    /// </returns>
    /// <remarks>
    /// On the effective number of landings and its two conventions (never above the number of landings; missions taken as of one fate when
    /// all landings, or none, are hits) see <see cref="ClusteredProportion"/>; the methods that use it share it.
    /// </remarks>
    /// <exception cref="ArgumentException">Lengths that differ, or counts that can't be.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A confidence not between 0 and 1, fewer than 200 resamples, or an unknown method.
    /// </exception>
    public static Fit<Estimate> Of(RateInterval method, IReadOnlyList<int> hits, IReadOnlyList<int> landings, double confidence = 0.95,
        int replicates = 2000, int seed = 1)
    {
        if (hits.Count == 0 && landings.Count == 0) return Fit<Estimate>.Refused("no landing");
        var counted = ClusteredProportion.Of(hits, landings, confidence);
        return Fit<Estimate>.Made(method switch
        {
            RateInterval.Wilson => Independent(ClusteredProportion.Wilson(counted.Rate.Value, counted.Landings, Quantile(confidence))),
            RateInterval.WilsonCorrected =>
                Independent(BinomialLimits.WilsonCorrected(counted.Hits, counted.Landings, Quantile(confidence))),
            RateInterval.ClopperPearson => Independent(BinomialLimits.ClopperPearson(counted.Hits, counted.Landings, confidence)),
            RateInterval.Jeffreys => Independent(BinomialLimits.Jeffreys(counted.Hits, counted.Landings, confidence)),
            RateInterval.MidP => Independent(BinomialLimits.MidP(counted.Hits, counted.Landings, confidence)),
            RateInterval.EffectiveWilson => counted.Rate,
            RateInterval.KornGraubard => OfMissions(counted, n => KornGraubard(counted, n, confidence)),
            RateInterval.EffectiveLogit => OfMissions(counted, n => Logit(counted, n, confidence)),
            RateInterval.BetaBinomial => BetaBinomialRate.Of(hits, landings, confidence) is { Success: true } fit
                ? fit.Value.Mean : counted.Rate,
            RateInterval.MissionResampling =>
                Resampled(counted, hits, landings, new AccuracyOptions { Confidence = confidence, Replicates = replicates, Seed = seed }),
            _ => throw Guard.Refused(nameof(method), method, "a method of RateInterval"),
        });

        Estimate Independent(Interval range) => Estimate.Of(counted.Rate.Value, range);
    }

    private static Estimate OfMissions(ClusteredProportion counted, Func<double, Estimate> interval) =>
        counted.EffectiveLandings is { } effective ? interval(effective) : counted.Rate;

    private static Estimate KornGraubard(ClusteredProportion counted, double effective, double confidence)
    {
        effective *= Square(Quantile(confidence, counted.Landings - 1) / Quantile(confidence, counted.Missions - 1));
        var rate = counted.Rate.Value;
        return Estimate.Of(rate, BinomialLimits.ClopperPearson(rate * effective, effective, confidence));
    }

    private static Estimate Logit(ClusteredProportion counted, double effective, double confidence)
    {
        var rate = counted.Rate.Value;
        if (rate is 0 or 1) return Estimate.WithoutRange(rate, NoOdds);
        var centre = Kernels.Logit(rate);
        var half = Quantile(confidence, counted.Missions - 1) / Math.Sqrt(rate * (1 - rate) * effective);
        return Estimate.Of(rate, new Interval(Kernels.Logistic(centre - half), Kernels.Logistic(centre + half)));
    }

    private static Estimate Resampled(ClusteredProportion counted, IReadOnlyList<int> hits,
        IReadOnlyList<int> landings, AccuracyOptions options)
    {
        if (counted.Rate.Value is 0 or 1 && counted.Missions > 1) return Estimate.WithoutRange(counted.Rate.Value, NoSpread);
        return ClusterBootstrap.Of(counted.Missions, draws =>
        {
            var (hit, all) = (0L, 0L);
            for (var m = 0; m < draws.Length; m++) (hit, all) = (hit + (long)draws[m] * hits[m], all + (long)draws[m] * landings[m]);
            return (double)hit / all;
        }, options.Resampling("share of hits")).Value!.Interval(BootstrapMethod.WidenedPercentile, options.Confidence);
    }

    private static double Quantile(double confidence) => QuantileOf.Normal(TailShare.Middle(confidence));

    private static double Quantile(double confidence, int freedom) => QuantileOf.T(freedom, TailShare.Middle(confidence));

    private static double Square(double x) => x * x;
}
