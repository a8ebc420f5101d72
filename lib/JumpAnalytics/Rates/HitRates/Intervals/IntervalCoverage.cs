namespace JumpAnalytics;

/// <summary>How often the intervals of one method cover the true rate, over simulated seasons.</summary>
/// <param name="Method">The method.</param>
/// <param name="Covered">Seasons whose interval held the true rate.</param>
/// <param name="Told">Seasons with an interval.</param>
/// <param name="MeanWidth">Mean width of the intervals, as a share; null when no season has one.</param>
[TypeFormatterSource]
public sealed record MethodCoverage(RateInterval Method, int Covered, int Told, double? MeanWidth)
{
    /// <summary>Share of seasons covered, with its 95 % Wilson interval; null when no season has an interval.</summary>
    public Estimate? Coverage => Told == 0 ? null
        : Estimate.Of((double)Covered / Told, ClusteredProportion.Wilson((double)Covered / Told, Told, 1.959963984540054));
}

/// <summary>
/// What the intervals of a hit rate are worth: seasons are drawn from the two-level error model with a known rate, and each method's
/// intervals are held against it.
/// </summary>
/// <param name="Missions">Missions of each season.</param>
/// <param name="Rate">The true hit rate.</param>
/// <param name="Correlation">Share of the variance of a miss that the landings of a mission have in common.</param>
/// <param name="Confidence">Coverage that is claimed.</param>
/// <param name="Seasons">Seasons drawn.</param>
/// <param name="Methods">One for each method.</param>
/// <remarks>
/// A miss is the sum of a part that the mission shares and one of its own, both circular normals about the spot; the target radius is the
/// one that holds the wanted rate. Sizes of missions are drawn from given ones. The correlation of hits is less than that of the misses.
/// </remarks>
[TypeFormatterSource]
public sealed record IntervalCoverage(
    int Missions, double Rate, double Correlation, double Confidence, int Seasons, IReadOnlyList<MethodCoverage> Methods)
{
    /// <summary>Simulates seasons.</summary>
    /// <param name="missions">Missions of each season, at least 1.</param>
    /// <param name="rate">True hit rate, between 0 and 1.</param>
    /// <param name="correlation">Share of the variance that a mission shares, 0 to below 1.</param>
    /// <param name="sizes">Landings of a mission, drawn from these with equal chance.</param>
    /// <param name="confidence">Coverage that is claimed.</param>
    /// <param name="seasons">Seasons to draw.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="methods">The methods; all when left out.</param>
    /// <param name="replicates">Resamples of the mission bootstrap.</param>
    /// <exception cref="ArgumentException">A size below 1 or none at all.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Rate, correlation or a number outside its range.</exception>
    public static IntervalCoverage Of(
        int missions, double rate, double correlation, IReadOnlyList<int> sizes, double confidence, int seasons, int seed,
        IReadOnlyList<RateInterval>? methods = null, int replicates = 400)
    {
        Guard.AtLeast(missions, 1);
        Guard.AtLeast(seasons, 1);
        Guard.Share(rate);
        if (!(correlation >= 0 && correlation < 1)) throw Guard.Refused(nameof(correlation), correlation, "0 or more and below 1");
        if (sizes.Count == 0 || sizes.Any(s => s < 1))
            throw new ArgumentException("Sizes of missions of one landing or more.", nameof(sizes));
        methods ??= Enum.GetValues<RateInterval>();
        var results = new (bool Told, bool Covered, double Width)[seasons][];
        Parallel.For(0, seasons, s =>
        {
            var random = SeedStream.For(seed, $"season {s} of {missions} missions, rate {rate:R}, correlation {correlation:R}");
            var (hits, landings) = Season(missions, rate, correlation, sizes, random);
            results[s] = [.. methods.Select(m => RateIntervals.Of(m, hits, landings, confidence, replicates, seed).Value?.Range is { } range
                ? (true, range.Contains(rate), range.High - range.Low) : (false, false, 0))];
        });
        return new IntervalCoverage(missions, rate, correlation, confidence, seasons, [.. methods.Select((m, i) =>
        {
            var told = results.Count(r => r[i].Told);
            return new MethodCoverage(m, results.Count(r => r[i].Covered), told, told == 0 ? null : results.Sum(r => r[i].Width) / told);
        })]);
    }

    /// <summary>Hits and landings of one season.</summary>
    internal static (int[] Hits, int[] Landings) Season(int missions, double rate, double correlation,
        IReadOnlyList<int> sizes, Random random)
    {
        var radius = Math.Sqrt(-2 * Math.Log(1 - rate)); // in standard deviations of a miss
        var (shared, own) = (Math.Sqrt(correlation), Math.Sqrt(1 - correlation));
        var (hits, landings) = (new int[missions], new int[missions]);
        for (var m = 0; m < missions; m++)
        {
            landings[m] = sizes[random.Next(sizes.Count)];
            var (x, y) = StandardNormal.Pair(random);
            for (var j = 0; j < landings[m]; j++)
            {
                var (u, v) = StandardNormal.Pair(random);
                if (double.Hypot(shared * x + own * u, shared * y + own * v) <= radius) hits[m]++;
            }
        }
        return (hits, landings);
    }
}
