using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The uncertainty of any figure by resampling whole clusters with replacement, because points of one cluster are not independent.
/// Made once, it can be asked for intervals of every <see cref="BootstrapMethod"/> and confidence.
/// </summary>
/// <remarks>
/// <para>Of random resamples quantiles are of type 8 (Hyndman and Fan 1996); of all resamples, each with its exact probability, they
/// are the inverse of the distribution function. Resamples are drawn one after another from one stream: the result does not depend on
/// the number of threads.</para>
/// <para>No resample lies beyond the one that consists of a single cluster, which has probability M^−M: where a limit would need less,
/// there is no interval, and the reason says so. At 95 % the widened percentiles need 5 clusters, plain ones 4.</para>
/// </remarks>
[TypeFormatterSource]
public sealed class ClusterBootstrap
{
    /// <summary>Share of resamples that must yield a value.</summary>
    private const double LeastUsable = 0.95;

    /// <summary>Random resamples drawn from one stream where several figures are resampled at once.</summary>
    private const int Block = 250;

    /// <summary>With fewer resamples beyond a limit, single ones decide where it lies.</summary>
    private const int FewestBeyond = 10;

    /// <summary>A limit's error by chance among the resamples is named from this share of its distance from the estimate on.</summary>
    private const double Noticed = 0.05;

    private readonly (double[] Values, long[] UpTo) _law; // rising, with the number of resamples up to and including each
    private readonly long _drawn;
    private readonly SampleNouns _nouns;
    private readonly Lazy<Fit<ClusterJackknife>> _jackknife;

    private ClusterBootstrap(
        double value, int clusters, bool isExact, (double[], long[]) law, long drawn, Func<int[], double?> figure, SampleNouns nouns)
    {
        _nouns = nouns;
        (Value, Clusters, IsExact, _law, _drawn) = (value, clusters, isExact, law, drawn);
        _jackknife = new(() => ClusterJackknife.Of(clusters, figure, nouns: nouns));
        var n = (double)Resamples;
        var mean = _law.Values.Select((v, i) => v * (Count(i) / n)).Sum();
        if (Resamples < 2 || !double.IsFinite(mean)) return;
        Bias = mean - value;
        StandardError = Math.Sqrt(_law.Values.Select((v, i) => Count(i) * (v - mean) * (v - mean)).Sum() / (isExact ? n : n - 1));
    }

    /// <summary>The figure of all clusters, in its own unit.</summary>
    public double Value { get; }

    /// <summary>Number of clusters, M.</summary>
    public int Clusters { get; }

    /// <summary>Whether every resample was looked at, and not random ones.</summary>
    public bool IsExact { get; }

    /// <summary>Resamples that yielded a value: of random ones their number, of all M^M of them how many.</summary>
    public long Resamples => _law.UpTo is [.., var all] ? all : 0;

    /// <summary>
    /// Mean of the resamples less <see cref="Value"/>; null with a single cluster or where a resample has no finite value.
    /// </summary>
    public double? Bias { get; }

    /// <summary>Standard deviation of the resamples; null as <see cref="Bias"/> is.</summary>
    public double? StandardError { get; }

    /// <summary>Resamples the clusters.</summary>
    /// <param name="clusters">Number of clusters.</param>
    /// <param name="figure">
    /// From how often each cluster was drawn to the figure; null when it can't be computed, positive infinity when it is only known to lie
    /// beyond every point. The array is used again for the next call.
    /// </param>
    /// <param name="options">Number, choice and seed of the resamples.</param>
    /// <returns>The resamples, or the reason why there are none: no cluster, or a figure that the clusters do not yield.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of clusters.</exception>
    public static Fit<ClusterBootstrap> Of(int clusters, Func<int[], double?> figure, ResampleOptions options)
    {
        Guard.AtLeast(clusters, 0);
        if (clusters == 0) return Fit<ClusterBootstrap>.Refused($"no {options.Nouns.Cluster}");
        var draws = new int[clusters];
        Array.Fill(draws, 1);
        if (figure(draws) is not { } value || !double.IsFinite(value)) return Fit<ClusterBootstrap>.Refused(NotFromAll(options));
        if (clusters == 1) return Fit<ClusterBootstrap>.Made(new(value, 1, true, ([], []), 0, figure, options.Nouns));

        var seen = new List<(double Value, long Ways)>();
        var exact = options.Choice == ResampleChoice.AllIfFew && ClusterResamples.Different(clusters) <= options.Replicates;
        var drawn = exact
            ? ClusterResamples.All(draws, Take)
            : ClusterResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, options.Purpose), Take);
        return Fit<ClusterBootstrap>.Made(new(value, clusters, exact, Law(seen), drawn, figure, options.Nouns));

        void Take(long ways)
        {
            if (figure(draws) is { } v && !double.IsNaN(v)) seen.Add((v, ways));
        }
    }

    /// <summary>
    /// Resamples the clusters once for several figures: each sees the same resamples, so that their values belong together resample by
    /// resample. On all cores; random resamples are drawn in blocks of fixed size with a stream for each, so that the result does not
    /// depend on the number of threads.
    /// </summary>
    /// <param name="clusters">Number of clusters.</param>
    /// <param name="figures">
    /// The figures, as in <see cref="Of"/>; they are called from several threads at once and must not write to anything shared.
    /// </param>
    /// <param name="options">Number, choice and seed of the resamples.</param>
    /// <returns>The resamples of each figure, or the reason why it has none.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of clusters.</exception>
    public static IReadOnlyList<Fit<ClusterBootstrap>> OfMany(int clusters, IReadOnlyList<Func<int[], double?>> figures,
        ResampleOptions options)
    {
        Guard.AtLeast(clusters, 0);
        if (clusters < 2 || (options.Choice == ResampleChoice.AllIfFew && ClusterResamples.Different(clusters) <= options.Replicates))
            return [.. figures.Select(f => Of(clusters, f, options))];
        var values = new double[figures.Count][];
        for (var f = 0; f < figures.Count; f++) values[f] = new double[options.Replicates];
        Parallel.For(0, (options.Replicates + Block - 1) / Block, block =>
        {
            var (from, draws) = (block * Block, new int[clusters]);
            var at = from;
            ClusterResamples.Random(draws, Math.Min(Block, options.Replicates - from),
                SeedStream.For(options.Seed, $"{options.Purpose}, block {block}"), _ =>
                {
                    for (var f = 0; f < figures.Count; f++) values[f][at] = figures[f](draws) ?? double.NaN;
                    at++;
                });
        });
        return [.. figures.AsParallel().AsOrdered().Select((figure, f) =>
        {
            var once = new int[clusters];
            Array.Fill(once, 1);
            if (figure(once) is not { } value || !double.IsFinite(value)) return Fit<ClusterBootstrap>.Refused(NotFromAll(options));
            return Fit<ClusterBootstrap>.Made(new(value, clusters, false,
                Law([.. values[f].Where(v => !double.IsNaN(v)).Select(v => (v, 1L))]), options.Replicates, figure, options.Nouns));
        })];
    }

    /// <summary>The value that a share of the resamples does not pass.</summary>
    /// <param name="share">Between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is not between 0 and 1.</exception>
    /// <exception cref="InvalidOperationException">There is no resample: a single cluster, or a figure that no resample yields.</exception>
    public double Quantile(double share)
    {
        Guard.Probability(share);
        if (Resamples == 0) throw new InvalidOperationException($"There is no resample of {_nouns.CountedClusters(Clusters)} that yields "
            + "a value.");
        if (!IsExact) return HyndmanFan.OfSorted(_law.Values, share);
        var at = Array.BinarySearch(_law.UpTo, (long)Math.Ceiling(share * Resamples));
        return _law.Values[Math.Min(at < 0 ? ~at : at, _law.Values.Length - 1)];
    }

    /// <summary>
    /// The bias correction z0 of <see cref="BootstrapMethod.BiasCorrected"/>: the normal quantile of the share of
    /// resamples below the value.
    /// </summary>
    /// <param name="ties">How resamples that equal the value count; equal is what differs by rounding alone, 1e-12.</param>
    /// <returns>z0; null when no resample, or every one, lies below the value.</returns>
    public double? BiasCorrection(TieRule ties)
    {
        if (Resamples == 0) return null;
        var below = Resamples - CountAbove(Value - Slack, orEqual: true);
        var above = CountAbove(Value + Slack, orEqual: false);
        var share = (ties == TieRule.Strict ? below : 0.5 * (below + (Resamples - above))) / Resamples;
        return share > 0 && share < 1 ? QuantileOf.Normal(TailShare.Below(share)) : null;
    }

    /// <summary>The figure with its interval. The end of the interval at 2c − 1 is the one-sided limit at confidence c.</summary>
    /// <param name="method">How the interval is read from the resamples.</param>
    /// <param name="confidence">Coverage, for instance 0.95.</param>
    /// <param name="ties">How resamples that equal the value count towards the bias correction.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public Estimate Interval(BootstrapMethod method, double confidence, TieRule ties = TieRule.Half)
    {
        Guard.Confidence(confidence);
        var (low, whyNotLow) = Limit(method, (1 + confidence) / 2, ties, upper: false);
        var (high, whyNotHigh) = Limit(method, (1 + confidence) / 2, ties, upper: true);
        return whyNotLow is null && whyNotHigh is null
            ? Estimate.Of(Value, new Interval(low, high)) : Estimate.WithoutRange(Value, whyNotLow ?? whyNotHigh!);
    }

    /// <summary>What chance in the resamples alone, and not in the clusters, does to the limits of an interval.</summary>
    /// <inheritdoc cref="Interval" path="/param|/exception"/>
    /// <returns>The errors, or the reason why there is no interval.</returns>
    public Fit<MonteCarloErrors> ErrorsOf(BootstrapMethod method, double confidence, TieRule ties = TieRule.Half)
    {
        Guard.Confidence(confidence);
        var (low, whyNotLow) = ErrorOf(method, (1 + confidence) / 2, ties, upper: false);
        var (high, whyNotHigh) = ErrorOf(method, (1 + confidence) / 2, ties, upper: true);
        return whyNotLow is null && whyNotHigh is null
            ? Fit<MonteCarloErrors>.Made(new MonteCarloErrors(low.Error, high.Error, low.Warning ?? high.Warning))
            : Fit<MonteCarloErrors>.Refused(whyNotLow ?? whyNotHigh!);
    }

    /// <summary>One limit at a one-sided confidence, or the reason why there is none.</summary>
    internal (double Value, string? Why) Limit(BootstrapMethod method, double confidence, TieRule ties, bool upper)
    {
        var (share, why) = ShareBelow(method, confidence, ties, upper);
        if (why is not null) return (0, why);
        var limit = Quantile(share);
        return double.IsFinite(limit) ? (limit, null) : (0, $"the limit would lie among {_nouns.Points} known only as beyond a distance");
    }

    /// <summary>
    /// Standard error of one limit: half of what the quantile moves by when its share moves by a binomial standard error to either side,
    /// by one resample at the least (the interval by ranks at 68 %; Maritz and Jarrett 1978, Journal of the American Statistical
    /// Association 73:194-196, smooth the same).
    /// </summary>
    internal ((double Error, string? Warning) Found, string? Why) ErrorOf(
        BootstrapMethod method, double confidence, TieRule ties, bool upper)
    {
        var (limit, why) = Limit(method, confidence, ties, upper);
        if (why is not null || IsExact) return ((0, null), why);
        var share = ShareBelow(method, confidence, ties, upper).Share;
        var step = Math.Max(Math.Sqrt(share * (1 - share) / Resamples), 1.0 / Resamples);
        var error = (Quantile(Math.Min(1, share + step)) - Quantile(Math.Max(0, share - step))) / 2;
        return ((error, Math.Min(share, 1 - share) * Resamples < FewestBeyond
            ? $"fewer than {FewestBeyond} of the {Resamples} resamples lie beyond a limit: more resamples would move it"
            : error > Noticed * Math.Abs(limit - Value)
            ? $"by chance among the {Resamples} resamples a limit is uncertain by "
                + $"{Math.Ceiling(100 * error / Math.Abs(limit - Value)):0} % of its distance from the "
                + "estimate; take more resamples" : null), null);
    }

    /// <summary>The share of resamples below a limit.</summary>
    private (double Share, string? Why) ShareBelow(BootstrapMethod method, double confidence, TieRule ties, bool upper)
    {
        if (Clusters < 2) return (0, $"a single {_nouns.Cluster}");
        if (Resamples < LeastUsable * _drawn) return (0, $"only {Resamples} of {_drawn} resamples of its {Clusters} {_nouns.Clusters} "
            + "could be fitted");
        if (_law.Values[^1] - _law.Values[0] <= Slack) return (0, $"every resample of the {_nouns.Clusters} gives the same value");
        var critical = method is BootstrapMethod.WidenedPercentile or BootstrapMethod.WidenedBiasCorrected
            ? Widened(Clusters, confidence) : QuantileOf.Normal(TailShare.Below(confidence));
        var (z, why) = method is BootstrapMethod.BiasCorrected or BootstrapMethod.WidenedBiasCorrected
            ? Corrected(upper ? critical : -critical, ties) : (upper ? critical : -critical, null);
        if (why is not null) return (0, why);
        var tail = Normal.CDF(0, 1, -Math.Abs(z));
        return tail <= Math.Pow(Clusters, -Clusters) * (1 + 1e-9)
            ? (0, $"the limit would lie beyond every resample of {Clusters} {_nouns.Clusters}") : (z > 0 ? 1 - tail : tail, null);
    }

    /// <summary>Quantile of the normal, at a one-sided confidence, widened for few clusters.</summary>
    internal static double Widened(int clusters, double confidence) =>
        Math.Sqrt(clusters / (clusters - 1.0)) * QuantileOf.T(clusters - 1, TailShare.Below(confidence));

    private (double Z, string? Why) Corrected(double z, TieRule ties)
    {
        if (BiasCorrection(ties) is not { } z0) return (0, "all resamples lie on one side of the value");
        if (_jackknife.Value is not { Success: true } jackknife) return (0, $"no acceleration: {_jackknife.Value.Reason}");
        var shrink = 1 - jackknife.Value.Acceleration * (z0 + z);
        return shrink > 0 ? (z0 + (z0 + z) / shrink, null) : (0, "the correction for acceleration leads beyond every resample");
    }

    private static (double[] Values, long[] UpTo) Law(List<(double Value, long Ways)> seen)
    {
        var sorted = seen.OrderBy(s => s.Value).ToList();
        var upTo = new long[sorted.Count];
        var all = 0L;
        for (var i = 0; i < upTo.Length; i++) upTo[i] = all += sorted[i].Ways;
        return ([.. sorted.Select(s => s.Value)], upTo);
    }

    private static string NotFromAll(ResampleOptions options) => $"the figure can't be computed from all {options.Nouns.Clusters}";

    /// <summary>What values that are equal may differ by.</summary>
    private double Slack => 1e-12 * Math.Max(Math.Abs(Value), Math.Abs(_law.Values[0]));

    private long Count(int i) => i == 0 ? _law.UpTo[0] : _law.UpTo[i] - _law.UpTo[i - 1];

    private long CountAbove(double value, bool orEqual)
    {
        var from = Roots.First(i => orEqual ? _law.Values[i] < value : _law.Values[i] <= value, -1, _law.Values.Length);
        return Resamples - (from == 0 ? 0 : _law.UpTo[from - 1]);
    }
}
