namespace JumpAnalytics.Statistics;

/// <summary>
/// Tests for points that share clusters. A test that takes the points of one cluster as independent rejects too often; here it sees one
/// point of each cluster, drawn by chance, again and again.
/// </summary>
/// <remarks>
/// The p-values of the draws depend on each other in a way nobody knows. Twice their median is a p-value all the same (Rüschendorf
/// 1982, Advances in Applied Probability 14:623-632; Meinshausen, Meier and Bühlmann 2009, Journal of the American Statistical
/// Association 104:1671-1681): it is below α only where half of them are below α/2, and that has a probability of α at most. It errs
/// on the side of no rejection.
/// </remarks>
public static class ClusterDraws
{
    /// <summary>Tests the placed points, one point of each cluster at a time.</summary>
    /// <param name="sample">Places and clusters; points known only as beyond a distance are left out.</param>
    /// <param name="test">The test of independent points, for instance of normality.</param>
    /// <param name="draws">How often a point of each cluster is drawn.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <returns>
    /// The test: its p-value twice the median, its statistic that of the draw in the middle. Where no two points share a cluster, the test
    /// as it is. A draw that can't be tested counts as a p-value of 1; when it is the one in the middle, its reason is returned.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">No draws.</exception>
    public static Fit<FitTest> Test(PlaneSample sample, Func<IReadOnlyList<PlaneVector>, Fit<FitTest>> test, int draws = 25, int seed = 1)
    {
        var names = sample.ClusterOfPlaced.ToArray();
        var placed = sample.Beyond.Count == 0 ? sample
            : PlaneSample.Of(sample.Placed.Select((m, i) => new PlaneReading($"{names[i]}", m)), sample.Nouns);
        return Test(placed, (draw, _) => test(draw.Placed), draws, seed);
    }

    /// <summary>
    /// The same for a test that also looks at points known only as beyond a distance. It is given the number of the
    /// draw, for a stream of its own.
    /// </summary>
    internal static Fit<FitTest> Test(PlaneSample sample, Func<PlaneSample, int, Fit<FitTest>> test, int draws, int seed)
    {
        Guard.AtLeast(draws, 1);
        if (sample.IsIndependent) return test(sample, 0);
        var tests = Of(sample, draws, seed).Select(test).OrderBy(t => t.Value?.PValue ?? 2).ToList();
        var half = tests[(draws - 1) / 2];
        if (half.Value is not { } middle) return half;
        return Fit<FitTest>.Made(middle with
        {
            Name = $"{middle.Name}, one {sample.Nouns.Point} of each {sample.Nouns.Cluster}",
            PValue = Math.Min(1, 2 * middle.PValue),
            Method = $"twice the median of {draws} draws with seed {seed}; {middle.Method}",
            Bootstrap = middle.Bootstrap is { } run ? run with { StandardError = 2 * run.StandardError } : null,
        });
    }

    /// <summary>Samples of one point of each cluster, clusters in their order.</summary>
    internal static IEnumerable<PlaneSample> Of(PlaneSample sample, int draws, int seed)
    {
        var clusters = ByCluster(sample);
        for (var d = 0; d < draws; d++)
        {
            var random = SeedStream.For(seed, $"one {sample.Nouns.Point} of each {sample.Nouns.Cluster} {d}");
            yield return PlaneSample.Of(clusters.Select(points => points[random.Next(points.Count)]).ToList(), sample.Nouns);
        }
    }

    /// <summary>The points of some clusters drawn by chance, clusters in their order; the sample itself when it has no more.</summary>
    internal static PlaneSample Some(PlaneSample sample, int clusters, int seed)
    {
        if (sample.Clusters <= clusters) return sample;
        var random = SeedStream.For(seed, $"some {sample.Nouns.Clusters}");
        return PlaneSample.Of(ByCluster(sample).Select(points => (Points: points, Order: random.NextDouble())).Index()
            .OrderBy(m => m.Item.Order).Take(clusters).OrderBy(m => m.Index).SelectMany(m => m.Item.Points).ToList(), sample.Nouns);
    }

    private static List<PlaneReading>[] ByCluster(PlaneSample sample)
    {
        var clusters = new List<PlaneReading>[sample.Clusters];
        for (var m = 0; m < clusters.Length; m++) clusters[m] = [];
        for (var i = 0; i < sample.Placed.Count; i++) Add(sample.ClusterOfPlaced[i], sample.Placed[i], null, sample.MeasuredSd[i]);
        for (var i = 0; i < sample.Beyond.Count; i++) Add(sample.ClusterOfBeyond[i], null, sample.Beyond[i], null);
        return clusters;

        void Add(int cluster, PlaneVector? point, double? beyond, double? sd) =>
            clusters[cluster].Add(new PlaneReading($"{cluster}", point, beyond, sd));
    }
}
