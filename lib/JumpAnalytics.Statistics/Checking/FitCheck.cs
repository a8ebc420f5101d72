namespace JumpAnalytics.Statistics;

/// <summary>
/// Whether a fitted distribution fits, judged by distances from the origin: a test that allows for points of one cluster
/// and for fitted parameters, and the shares of points near the origin and far off beside those of the model.
/// </summary>
[TypeFormatterSource]
public sealed record FitCheck
{
    /// <summary>Fewest clusters for a verdict; with fewer even a bad misfit is seldom found.</summary>
    public const int FewestClusters = 20;

    /// <summary>Clusters below which a far tail is often missed; the reading says so.</summary>
    public const int FewClusters = 100;

    /// <summary>Most clusters that are tested, drawn by chance from more; the test says so.</summary>
    public const int MostClusters = 5000;

    /// <summary>A p-value below this speaks against the fit.</summary>
    public const double Level = 0.05;

    private FitCheck()
    {
    }

    /// <summary>What the distribution is called.</summary>
    public required string ModelName { get; init; }

    /// <summary>What points and clusters are called in the reading.</summary>
    internal SampleNouns Nouns { get; init; } = SampleNouns.Default;

    /// <summary>Number of clusters.</summary>
    public required int Clusters { get; init; }

    /// <summary>Number of points.</summary>
    public required int Points { get; init; }

    /// <summary>Anderson and Darling's test of the distances, or why it can't be made.</summary>
    public required Fit<FitTest> Distances { get; init; }

    /// <summary>Points within the radius that holds half of them under the model; null when none can be placed.</summary>
    public required ModelledShare? Near { get; init; }

    /// <summary>Points beyond the radius that holds 95 % of them under the model; null when none can be placed.</summary>
    public required ModelledShare? Far { get; init; }

    /// <summary>Whether the test speaks against the fit at <see cref="Level"/>; null when there is no test.</summary>
    public bool? FitsBadly => Distances.Value is { } test ? test.PValue < Level : null;

    /// <summary>The verdict in words, with its direction and its n.</summary>
    public string Reading => FitReading.Of(this);

    /// <summary>Checks a fitted model.</summary>
    /// <param name="sample">The points that it was fitted to.</param>
    /// <param name="model">The fitted model.</param>
    /// <param name="refit">
    /// Fits the same kind of model to other points, in the same way; null when it can't be fitted. Called from several threads.
    /// </param>
    /// <param name="draws">How often a point of each cluster is drawn.</param>
    /// <param name="replicates">Samples of the parametric bootstrap.</param>
    /// <param name="seed">Seed of both.</param>
    /// <remarks>
    /// <para>Each draw of one point of each cluster is fitted and its shares held within each distance are measured by A²; the same is done
    /// to samples of as many independent points drawn from the model. Twice the median of the draws' p-values is the test's.</para>
    /// <para>Points known only as beyond a distance take part in the data's fits and measures
    /// (<see cref="HeldShares.Radial(PlaneSample, IPlaneModel, int)"/>); the bootstrap's samples have none, which is right as long as they
    /// are few. With one in eight the test was seen to reject less often than its level, not more.</para>
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">No draws or no replicates.</exception>
    public static FitCheck Of(PlaneSample sample, IPlaneModel model, Func<PlaneSample, IPlaneModel?> refit, int draws = 25,
        int replicates = 499, int seed = 1) =>
        Of(sample, ModelUnderTest.Of(model), s => refit(s) is { } m ? ModelUnderTest.Of(m) : null, draws, replicates, seed);

    internal static FitCheck Of(PlaneSample sample, ModelUnderTest model, Func<PlaneSample, ModelUnderTest?> refit,
        int draws, int replicates, int seed) => new()
        {
            ModelName = model.Name,
            Nouns = sample.Nouns,
            Clusters = sample.Clusters,
            Points = sample.Points,
            Distances = Test(sample, model, refit, draws, replicates, seed),
            Near = ModelledShare.Within(sample, model.RadiusHolding(0.5), 0.5),
            Far = ModelledShare.Within(sample, model.RadiusHolding(0.95), 0.95)?.Others(),
        };

    private static Fit<FitTest> Test(PlaneSample sample, ModelUnderTest model, Func<PlaneSample, ModelUnderTest?> refit,
        int draws, int replicates, int seed)
    {
        var nouns = sample.Nouns;
        var n = Math.Min(sample.Clusters, MostClusters);
        if (n < FewestClusters) return Fit<FitTest>.Refused($"too few {nouns.Clusters} ({n}); {FewestClusters} are needed");
        var tested = ClusterDraws.Some(sample, n, seed);
        var name = "Anderson-Darling, distances" + (n < sample.Clusters ? $", {n:#,0} of {sample.Clusters:#,0} {nouns.Clusters}" : "");
        var law = ParametricBootstrap.Of(replicates, seed, $"distances from the {nouns.Origin}",
            random => Measure(PlaneSample.Of(Enumerable.Range(0, n).Select(_ => model.Draw(random)).ToList(), nouns), random));
        return law.Value is not { } known
            ? Fit<FitTest>.Refused(law.Reason!)
            : ClusterDraws.Test(tested, (draw, d) => Measure(draw, SeedStream.For(seed, $"{nouns.Points} beyond {d}")) is { } statistic
                ? Fit<FitTest>.Made(known.Test(name, statistic, n))
                : Fit<FitTest>.Refused($"the model can't be fitted to one {nouns.Point} of each {nouns.Cluster}"), draws, seed);

        double? Measure(PlaneSample independent, Random random) =>
            refit(independent) is { } fitted ? HeldShares.AndersonDarling(HeldShares.Radial(independent, fitted, random)) : null;
    }
}
