namespace JumpAnalytics;

/// <summary>How spotters are compared. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record FairComparisonSettings
{
    private readonly int _fewestMissions = 10;
    private readonly double? _namedDifference;

    /// <summary>
    /// Missions of a spotter below which no difference is given; 10 unless said otherwise. With 12 missions of four landings the 95 %
    /// interval of a difference is 13 points to either side (mean of 1,000 simulated bases of eight spotters; 7 points with 40 missions),
    /// so that of fewer than 10 even a difference of ten points mostly goes unseen.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 3.</exception>
    public int FewestMissions
    {
        get => _fewestMissions;
        init => _fewestMissions = Guard.AtLeast(value, 3, nameof(FewestMissions),
            "the fewest that show how a spotter's missions differ");
    }

    /// <summary>
    /// Whether the target radius counts among the conditions, beside wind band and terrain; yes unless said otherwise, since a
    /// larger circle is easier to hit.
    /// </summary>
    public bool UseTargetRadius { get; init; } = true;

    /// <summary>
    /// A difference of rates (0.05 is five points) for which the probability of a larger one, either way, is wanted; none unless said
    /// otherwise. It is the reader's own, no rule.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double? NamedDifference
    {
        get => _namedDifference;
        init => _namedDifference = value is { } difference
            ? Guard.Share(difference, nameof(NamedDifference), "for instance 0.05 for five points, or null") : null;
    }
}
