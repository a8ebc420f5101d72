namespace JumpAnalytics.Statistics;

/// <summary>
/// The scores of two forecasters on the same points, point by point (less is better), with intervals that respect clusters: the
/// cluster bootstrap of the pairs. Whatever makes a point hard for both falls out of the difference.
/// </summary>
[TypeFormatterSource]
public sealed record ScoreComparison
{
    private ScoreComparison(int points, int clusters, double mean, double reference, Estimate difference, Fit<Estimate> skill) =>
        (Points, Clusters, Mean, ReferenceMean, Difference, Skill) = (points, clusters, mean, reference, difference, skill);

    /// <summary>Number of points.</summary>
    public int Points { get; }

    /// <summary>Number of clusters.</summary>
    public int Clusters { get; }

    /// <summary>Mean score of the forecaster.</summary>
    public double Mean { get; }

    /// <summary>Mean score of the forecaster compared with.</summary>
    public double ReferenceMean { get; }

    /// <summary>Mean less the reference's, in the unit of the score, with its interval; below 0 the forecaster is better.</summary>
    public Estimate Difference { get; }

    /// <summary>
    /// 1 − mean / reference's mean: 1 is perfect, 0 no better; or the reason why there is none: a reference whose mean is not above 0.
    /// </summary>
    public Fit<Estimate> Skill { get; }

    /// <summary>Compares two forecasters.</summary>
    /// <param name="scores">Score of each point for the forecaster.</param>
    /// <param name="referenceScores">Score of the same points for the other one.</param>
    /// <param name="clusters">Cluster of each point, any numbers.</param>
    /// <param name="confidence">Coverage of the intervals, for instance 0.95.</param>
    /// <param name="replicates">Resamples of clusters, at least 200.</param>
    /// <param name="seed">Seed of the resamples.</param>
    /// <param name="nouns">What points and clusters are called in a reason; so when left out.</param>
    /// <returns>
    /// The comparison, or the reason why there is none: no point, or infinite scores (a certain forecast that failed, by the logarithmic
    /// score). With a single cluster it has no intervals.
    /// </returns>
    /// <exception cref="ArgumentException">Lengths that differ, or a score that is NaN or minus infinity.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A confidence not between 0 and 1, or fewer than 200 resamples.</exception>
    public static Fit<ScoreComparison> Of(
        IReadOnlyList<double> scores, IReadOnlyList<double> referenceScores, IReadOnlyList<int> clusters,
        double confidence = 0.95, int replicates = 2000, int seed = 1, SampleNouns? nouns = null)
    {
        nouns ??= SampleNouns.Default;
        if (scores.Count != referenceScores.Count || scores.Count != clusters.Count)
            throw new ArgumentException($"Each {nouns.Point} needs two scores and a {nouns.Cluster}; found {scores.Count} and "
                + $"{referenceScores.Count} scores and {nouns.CountedClusters(clusters.Count)}.");
        Guard.Confidence(confidence);
        var resamples = new ResampleOptions { Replicates = replicates, Seed = seed, Purpose = "score comparison",
            Choice = ResampleChoice.Random, Nouns = nouns };
        if (scores.Count == 0) return Fit<ScoreComparison>.Refused($"no {nouns.Point}");
        if (scores.Concat(referenceScores).FirstOrDefault(s => double.IsNaN(s) || double.IsNegativeInfinity(s), 0) is not 0 and var odd)
            throw new ArgumentException($"A score can't be {odd}.");
        var (failed, referenceFailed) = (scores.Count(double.IsInfinity), referenceScores.Count(double.IsInfinity));
        if (failed + referenceFailed > 0)
            return Fit<ScoreComparison>.Refused($"infinite scores: {failed} of the forecaster and {referenceFailed} of the one compared "
                + $"with, in {scores.Count} {nouns.Points}");

        var sums = Enumerable.Range(0, scores.Count).GroupBy(i => clusters[i])
            .Select(g => (Own: g.Sum(i => scores[i]), Reference: g.Sum(i => referenceScores[i]), Points: g.Count())).ToArray();
        var all = new int[sums.Length];
        Array.Fill(all, 1);
        var (mean, reference) = Means(all);
        var skill = reference > 0
            ? Fit<Estimate>.Made(Interval(1 - mean / reference, m => m.Reference > 0 ? 1 - m.Own / m.Reference : null))
            : Fit<Estimate>.Refused("the mean score of the forecaster compared with is not above 0, so a share of it means nothing");
        return Fit<ScoreComparison>.Made(new ScoreComparison(
            scores.Count, sums.Length, mean, reference, Interval(mean - reference, m => m.Own - m.Reference), skill));

        Estimate Interval(double value, Func<(double Own, double Reference), double?> figure) =>
            ClusterBootstrap.Of(sums.Length, draws => figure(Means(draws)), resamples) is { Success: true } bootstrap
                ? bootstrap.Value.Interval(BootstrapMethod.WidenedPercentile, confidence)
                : Estimate.WithoutRange(value, "it can't be resampled");

        (double Own, double Reference) Means(int[] draws)
        {
            var (own, other, points) = (0.0, 0.0, 0L);
            for (var m = 0; m < draws.Length; m++)
                (own, other, points) =
                    (own + draws[m] * sums[m].Own, other + draws[m] * sums[m].Reference, points + (long)draws[m] * sums[m].Points);
            return (own / points, other / points);
        }
    }
}
