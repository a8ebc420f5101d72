using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// Intervals for a share of independent trials. Hits and trials may be broken numbers, of an effective size, unless said otherwise.
/// </summary>
internal static class BinomialLimits
{
    /// <summary>Wilson's interval with continuity correction: the limits at which the shortfall less half a trial is significant.</summary>
    public static Interval WilsonCorrected(double hits, double trials, double critical)
    {
        return new Interval(Lower(hits), 1 - Lower(trials - hits));

        double Lower(double x)
        {
            if (x <= 0) return 0;
            var (p, z2) = (x / trials, critical * critical);
            var root = critical * Math.Sqrt(z2 - 2 - 1 / trials + 4 * p * (trials * (1 - p) + 1));
            return Math.Max(0, (2 * trials * p + z2 - 1 - root) / (2 * (trials + z2)));
        }
    }

    /// <summary>The exact interval by quantiles of beta distributions.</summary>
    public static Interval ClopperPearson(double hits, double trials, double confidence)
    {
        var tail = TailShare.Below((1 - confidence) / 2);
        var misses = trials - hits;
        return new Interval(
            hits > 0 ? QuantileOf.Beta(hits, misses + 1, tail) : 0,
            misses > 0 ? 1 - QuantileOf.Beta(misses, hits + 1, tail) : 1);
    }

    /// <summary>Equal tails of the posterior under the prior beta(½, ½), ended at 0 without hits and at 1 without misses.</summary>
    public static Interval Jeffreys(double hits, double trials, double confidence)
    {
        var tail = TailShare.Below((1 - confidence) / 2);
        var misses = trials - hits;
        return new Interval(
            hits > 0 ? QuantileOf.Beta(hits + 0.5, misses + 0.5, tail) : 0,
            misses > 0 ? 1 - QuantileOf.Beta(misses + 0.5, hits + 0.5, tail) : 1);
    }

    /// <summary>The interval whose tails count half of the observed outcome; for whole numbers.</summary>
    public static Interval MidP(int hits, int trials, double confidence)
    {
        var tail = (1 - confidence) / 2;
        return new Interval(Lower(hits), 1 - Lower(trials - hits));

        // The share at which more than x hits, and half of x hits, have the probability of the tail. Between the lower limits of
        // Clopper and Pearson for x and for x + 1 hits, which count all of x and none of it.
        double Lower(int x)
        {
            if (x == 0) return 0;
            if (x == trials) return Math.Pow(2 * tail, 1.0 / trials);
            return Root(p => 0.5 * (AtLeast(x, p) + AtLeast(x + 1, p)) - tail,
                QuantileOf.Beta(x, trials - x + 1, TailShare.Below(tail)), QuantileOf.Beta(x + 1, trials - x, TailShare.Below(tail)));
        }

        double AtLeast(int x, double p) => SpecialFunctions.BetaRegularized(x, trials - x + 1, p);
    }

    /// <summary>Where a rising function crosses 0, by halving down to neighbouring numbers.</summary>
    internal static double Root(Func<double, double> rising, double low, double high)
    {
        while (true)
        {
            var middle = low + (high - low) / 2;
            if (middle <= low || middle >= high) return middle;
            if (rising(middle) < 0) low = middle;
            else high = middle;
        }
    }
}
