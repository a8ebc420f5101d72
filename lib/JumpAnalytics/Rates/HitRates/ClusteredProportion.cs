using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>
/// A share of hits whose uncertainty comes from the missions, because jumpers of one mission share one forecast.
/// </summary>
/// <remarks>
/// <para>Rate: hits over landings, a ratio of two totals over missions. Its variance is the linearised, between-mission one,
/// M/(M−1) · Σ(hits_m − rate·landings_m)² / landings² (Cochran, Sampling Techniques, 1977, section 6; also survey::svymean).</para>
/// <para>Design effect: that variance over rate·(1−rate)/landings. Interval: Wilson's (1927) score interval on the effective number of
/// landings, landings / design effect, with a t quantile in place of the normal one. Its degrees of freedom are Satterthwaite's (1946,
/// Biometrics Bulletin 2:110-114): of a variance of D times the binomial one only the part D − 1 is estimated, from M − 1 degrees, so
/// that there are (M−1)·D²/(D−1)² of them. That holds for missions that differ as a normal does. Where most of the variance comes from a
/// few poor missions, as at high rates, it is known less well, and the degrees are no more than 2·(Σr²)²/(Σr⁴ − (Σr²)²/M) of the missions'
/// residuals r = hits − rate·landings: Satterthwaite's rule with the variance's own variance estimated. The design effect
/// is not taken below 1 for the interval: a few missions that happen to agree are no proof that a mission tells more than its landings; the
/// interval is then Wilson's own. When all landings, or none, are hits the
/// variance says nothing; the effective number is then landings² / Σ landings_m², the value for missions whose jumpers all share one
/// fate, with M − 1 degrees.</para>
/// <para>Below 5 missions the design effect is hardly known and t is on M − 1 degrees. How often the interval covers the truth is tabulated
/// in tests/EVIDENCE.md; with t on M − 1 degrees throughout it covers too often below 30 missions.</para>
/// <para>Intra-class correlation: the one-way analysis-of-variance estimate for binary data (Fleiss, 1981).</para>
/// </remarks>
[TypeFormatterSource]
public sealed record ClusteredProportion
{
    /// <summary>Missions, and hits or misses among the effective landings, from which the interval covers as it claims.</summary>
    private const int EnoughMissions = 15, EnoughOutcomes = 5;

    /// <summary>Number of missions with at least one decided landing.</summary>
    public required int Missions { get; init; }

    /// <summary>Number of decided landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Number of hits among them.</summary>
    public required int Hits { get; init; }

    /// <summary>Hits over landings with its interval, or with the reason why it has none.</summary>
    public required Estimate Rate { get; init; }

    /// <summary>Between-mission standard error of the rate; null with fewer than 2 missions.</summary>
    public double? StandardError { get; init; }

    /// <summary>
    /// Variance of the rate over that of as many independent landings; null with fewer than 2 missions or a rate of 0 or 1.
    /// </summary>
    public double? DesignEffect { get; init; }

    /// <summary>Likeness of the landings of one mission; null where the landings can't tell.</summary>
    public double? IntraclassCorrelation { get; init; }

    /// <summary>Number of independent landings that would tell as much; null with fewer than 2 missions.</summary>
    public double? EffectiveLandings { get; init; }

    /// <summary>Degrees of freedom of the interval; infinite where landings count as independent.</summary>
    internal double Freedom { get; init; }

    /// <summary>
    /// Why the interval may cover more often than it claims; null where it covers as claimed. In simulated seasons of 15 missions or more
    /// and an expected 5 hits and 5 misses or more among the effective landings, 90 % intervals covered 89 to 94 %; else 89 to 96 %.
    /// </summary>
    internal string? Caution =>
        EffectiveLandings is not { } effective ? null
        : Missions < EnoughMissions ? $"fewer than {EnoughMissions} missions: the interval may be wider than it need be"
        : effective * Rate.Value < EnoughOutcomes ? "few hits: the interval may be wider than it need be"
        : effective * (1 - Rate.Value) < EnoughOutcomes ? "few misses: the interval may be wider than it need be"
        : null;

    /// <summary>Computes the share from counts by mission.</summary>
    /// <param name="hits">Hits of each mission.</param>
    /// <param name="landings">Decided landings of each mission, at least one in each.</param>
    /// <param name="confidence">Coverage of the interval, for instance 0.95.</param>
    /// <exception cref="ArgumentException">No mission, lengths that differ, or counts that can't be or exceed 2³¹ − 1.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static ClusteredProportion Of(IReadOnlyList<int> hits, IReadOnlyList<int> landings, double confidence)
    {
        if (hits.Count == 0 || hits.Count != landings.Count)
            throw new ArgumentException("Hits and landings must be given for the same missions, at least one; "
                + $"found {hits.Count} and {landings.Count}.");
        Guard.Confidence(confidence);
        for (var m = 0; m < hits.Count; m++)
        {
            if (landings[m] < 1 || hits[m] < 0 || hits[m] > landings[m])
                throw new ArgumentException($"A mission can't have {hits[m]} hits in {landings[m]} landings.");
        }
        if (landings.Sum(l => (long)l) is > int.MaxValue and var all)
            throw new ArgumentException($"{all} landings are more than can be counted, {int.MaxValue}.");
        int missions = hits.Count, k = hits.Sum(), n = landings.Sum();
        var p = (double)k / n;
        var bare = new ClusteredProportion
        {
            Missions = missions, Landings = n, Hits = k,
            Rate = Estimate.WithoutRange(p, "a single mission"),
        };
        if (missions < 2) return bare;
        double[] squares = [.. Enumerable.Range(0, missions).Select(m => Square(hits[m] - p * landings[m]))];
        var variance = squares.Sum() * missions / (missions - 1) / ((double)n * n);
        var binomial = p * (1 - p) / n;
        double? designEffect = binomial > 0 ? variance / binomial : null;
        var effective = designEffect is { } d ? n / Math.Max(1, d) : (double)n * n / landings.Sum(Square);
        var freedom = designEffect is not { } f || missions < CellRate.FewMissions ? missions - 1 : f > 1
            ? Math.Min((missions - 1) * Square(f / (f - 1)), Told(squares)) : double.PositiveInfinity;
        return bare with
        {
            Freedom = freedom,
            Rate = Estimate.Of(p, Wilson(p, effective, QuantileOf.T(freedom, TailShare.Middle(confidence)))),
            StandardError = Math.Sqrt(variance),
            DesignEffect = designEffect,
            IntraclassCorrelation = Icc(hits, landings, p),
            EffectiveLandings = effective,
        };
    }

    /// <summary>
    /// Degrees of freedom of a variance between missions by how unevenly it comes from them: twice the square of its mean over its own
    /// variance, the latter from the missions' fourth moments.
    /// </summary>
    private static double Told(double[] squares)
    {
        var sum = squares.Sum();
        return 2 / Math.Max(1e-9, squares.Sum(Square) / (sum * sum) - 1.0 / squares.Length);
    }

    /// <summary>Wilson's score interval for a share.</summary>
    /// <param name="rate">The observed share, 0 to 1.</param>
    /// <param name="n">Number of trials; may be an effective, broken number.</param>
    /// <param name="critical">Two-sided quantile, for instance 1.96.</param>
    internal static Interval Wilson(double rate, double n, double critical)
    {
        var z2 = critical * critical;
        var centre = (rate + z2 / (2 * n)) / (1 + z2 / n);
        var half = critical * Math.Sqrt(rate * (1 - rate) / n + z2 / (4 * n * n)) / (1 + z2 / n);
        // At a rate of 0 or 1 the limit is exact; rounding would leave it a hair away.
        return new Interval(rate == 0 ? 0 : Math.Max(0, centre - half), rate == 1 ? 1 : Math.Min(1, centre + half));
    }

    /// <summary>The interval another rate would have with this one's design effect: for asking what uncounted landings could do.</summary>
    /// <param name="rate">The other rate.</param>
    /// <param name="landings">The landings it would rest on.</param>
    /// <param name="confidence">Coverage.</param>
    internal Interval? IntervalAt(double rate, int landings, double confidence) =>
        EffectiveLandings is { } effective
            ? Wilson(rate, landings * effective / Landings, QuantileOf.T(Freedom, TailShare.Middle(confidence)))
            : null;

    /// <summary>
    /// Confidence that the true rate is a rate or more: the one-sided level of the test that the interval is the inverse of; null with a
    /// single mission.
    /// </summary>
    /// <param name="rate">The rate, between 0 and 1.</param>
    /// <param name="found">The rate found; the counted one unless given.</param>
    internal double? AtLeast(double rate, double? found = null)
    {
        if (EffectiveLandings is not { } effective) return null;
        var t = ((found ?? Rate.Value) - rate) / Math.Sqrt(rate * (1 - rate) / effective);
        return Freedom < 1e7 ? StudentT.CDF(0, 1, Freedom, t) : Normal.CDF(0, 1, t);
    }

    private static double? Icc(IReadOnlyList<int> hits, IReadOnlyList<int> landings, double p)
    {
        int missions = hits.Count, n = landings.Sum();
        if (n == missions || p is 0 or 1) return null;
        var n0 = (n - landings.Sum(Square) / (double)n) / (missions - 1);
        double between = 0, within = 0;
        for (var m = 0; m < missions; m++)
        {
            var share = (double)hits[m] / landings[m];
            between += landings[m] * Square(share - p);
            within += landings[m] * share * (1 - share);
        }
        var msb = between / (missions - 1);
        var msw = within / (n - missions);
        var total = msb + (n0 - 1) * msw;
        return total > 0 ? (msb - msw) / total : null;
    }

    private static double Square(double x) => x * x;

    private static double Square(int x) => (double)x * x;
}
