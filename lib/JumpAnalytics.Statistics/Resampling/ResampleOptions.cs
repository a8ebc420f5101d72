namespace JumpAnalytics.Statistics;

/// <summary>Which resamples of the clusters are looked at.</summary>
public enum ResampleChoice
{
    /// <summary>
    /// Every resample, each with its exact probability, when there are no more different ones than <see cref="ResampleOptions.Replicates"/>
    /// (2,000: up to 7 clusters); otherwise random ones.
    /// </summary>
    AllIfFew,

    /// <summary>Random ones, however few clusters there are.</summary>
    Random,
}

/// <summary>How clusters are resampled. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record ResampleOptions
{
    private readonly int _replicates = 2000;
    private readonly string? _purpose;

    /// <summary>Number of random resamples, and the most different ones that are all looked at; 2,000 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 200: limits would depend on single resamples.</exception>
    public int Replicates
    {
        get => _replicates;
        init => _replicates = Guard.AtLeast(value, 200, nameof(Replicates));
    }

    /// <summary>Seed of the random resamples. The same figure, options and seed give the same numbers.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Names the stream of random numbers, so that two figures with one seed do not share their draws.</summary>
    public string Purpose
    {
        get => _purpose ?? $"{Nouns.Cluster} bootstrap";
        init => _purpose = value;
    }

    /// <summary>What points and clusters are called in a reason.</summary>
    public SampleNouns Nouns { get; init; } = SampleNouns.Default;

    /// <summary>Every resample when they are few, or random ones.</summary>
    public ResampleChoice Choice { get; init; } = ResampleChoice.AllIfFew;
}
