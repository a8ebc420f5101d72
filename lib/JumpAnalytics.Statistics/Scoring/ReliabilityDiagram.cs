namespace JumpAnalytics.Statistics;

/// <summary>A stretch of forecasts after which successes came at one rate.</summary>
/// <param name="From">Least forecast of it.</param>
/// <param name="To">Greatest forecast of it.</param>
/// <param name="Forecasts">How many.</param>
/// <param name="Successes">Successes after them.</param>
[TypeFormatterSource]
public sealed record ReliabilityStep(double From, double To, int Forecasts, int Successes)
{
    /// <summary>Successes over forecasts: what the forecasts of this stretch should have been.</summary>
    public double Rate => (double)Successes / Forecasts;
}

/// <summary>
/// The reliability diagram of probability forecasts: the rate of successes that followed each forecast, rising with the forecast, by
/// isotonic regression (CORP: Dimitriadis, Gneiting and Jordan 2021, PNAS 118, e2016191118). No bins are chosen. Where the rate lies on the
/// diagonal, forecasts were right.
/// </summary>
[TypeFormatterSource]
public sealed class ReliabilityDiagram
{
    private readonly ForecastTally[] _tallies;
    private readonly double[] _probabilities;
    private readonly bool[] _successes;

    private ReliabilityDiagram(ForecastTally[] tallies, double[] probabilities, bool[] successes)
    {
        (_tallies, _probabilities, _successes) = (tallies, probabilities, successes);
        var blocks = ForecastTally.Rising(tallies);
        Brier = BrierDecomposition.OfRising(tallies, blocks);
        var (steps, at) = (new List<ReliabilityStep>(), 0);
        foreach (var block in blocks)
        {
            var (first, left) = (at, block.Count);
            while (left > 0) left -= tallies[at++].Count;
            steps.Add(new ReliabilityStep(tallies[first].Forecast, tallies[at - 1].Forecast, (int)block.Count, (int)block.Successes));
        }
        Steps = steps;
    }

    /// <summary>The stretches of equal rate, in rising order of forecast and of rate.</summary>
    public IReadOnlyList<ReliabilityStep> Steps { get; }

    /// <summary>The mean Brier score in its parts by the same regression.</summary>
    public BrierDecomposition Brier { get; }

    /// <summary>Draws the diagram of forecasts and their outcomes.</summary>
    /// <param name="probabilities">Forecast probabilities of a success.</param>
    /// <param name="successes">Whether each was one.</param>
    /// <returns>The diagram, or the reason why there is none: no forecast.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, or a probability not from 0 to 1.</exception>
    public static Fit<ReliabilityDiagram> Of(IReadOnlyList<double> probabilities, IReadOnlyList<bool> successes) =>
        ForecastTally.Of(probabilities, successes) is { Length: > 0 } tallies
            ? Fit<ReliabilityDiagram>.Made(new ReliabilityDiagram(tallies, [.. probabilities], [.. successes]))
            : Fit<ReliabilityDiagram>.Refused("no forecast");

    /// <summary>How far from the diagonal forecasts that are right may stray by chance, when outcomes of one cluster go together.</summary>
    /// <param name="clusters">Cluster of each forecast, any numbers, in the order of the forecasts.</param>
    /// <param name="confidence">Share of right forecasts' diagrams within the band at each forecast, for instance 0.9.</param>
    /// <param name="likeness">Correlation of the latent normals of one cluster, from 0 up to 0.99; null to estimate it.</param>
    /// <param name="replicates">Drawn diagrams, at least 200.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="nouns">What clusters are called in a reason; so when left out.</param>
    /// <returns>The band, or the reason why there is none: a single cluster.</returns>
    /// <exception cref="ArgumentException">A number of clusters other than of forecasts.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Confidence, likeness or replicates out of range.</exception>
    public Fit<ReliabilityBand> Band(
        IReadOnlyList<int> clusters, double confidence = 0.9, double? likeness = null, int replicates = 1000, int seed = 1,
        SampleNouns? nouns = null) => Band(clusters, null, confidence, likeness, replicates, seed, nouns);

    /// <summary>The same for forecasts that were estimated, each with its standard errors.</summary>
    internal Fit<ReliabilityBand> Band(IReadOnlyList<int> clusters, IReadOnlyList<ForecastError>? errors, double confidence,
        double? likeness, int replicates, int seed, SampleNouns? nouns)
    {
        nouns ??= SampleNouns.Default;
        if (clusters.Count != _probabilities.Length)
            throw new ArgumentException($"Each forecast needs its {nouns.Cluster}; found {_probabilities.Length} forecasts and "
                + $"{nouns.CountedClusters(clusters.Count)}.", nameof(clusters));
        Guard.Confidence(confidence);
        if (likeness is { } given) Guard.Within(given, 0, CalibratedOutcomes.MostLikeness, nameof(likeness));
        Guard.AtLeast(replicates, 200);
        var outcomes = new CalibratedOutcomes(_probabilities, clusters, errors);
        return outcomes.Clusters < 2
            ? Fit<ReliabilityBand>.Refused($"a single {nouns.Cluster}")
            : Fit<ReliabilityBand>.Made(ReliabilityBand.Of(_tallies, outcomes, _probabilities,
                likeness ?? outcomes.Likeness(_successes), Brier.Miscalibration, confidence, replicates, seed));
    }
}
