namespace JumpAnalytics;

/// <summary>What the pattern of misses is asked for beside <see cref="AccuracyOptions"/>. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record SpotterPatternOptions
{
    private readonly int _fewest = 10;
    private readonly double _named = MeasureUnit.Distance("yd").ToSi(10);
    private readonly double _without = 1;
    private readonly int _influential = 3;

    /// <summary>
    /// Fewest missions for a pattern of its own; 10 unless said otherwise. In simulated records of 10 missions with heavy tails the
    /// 95 % ellipse of the bias still held it in 95 % and is 1.3 times as long as with all spreads known; with 5 it is twice as long,
    /// and depends on the distribution.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than <see cref="MeanMiss.FewestMissions"/>.</exception>
    public int FewestMissions
    {
        get => _fewest;
        init => _fewest = Guard.AtLeast(value, MeanMiss.FewestMissions, nameof(FewestMissions),
            "the fewest with which a mean miss has an uncertainty");
    }

    /// <summary>
    /// A distance of your own, metres: to within which a bias shall be known. 10 yards unless said otherwise; no limit of anyone's.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double NamedDistance
    {
        get => _named;
        init => _named = Guard.Positive(value, nameof(NamedDistance), "metres");
    }

    /// <summary>
    /// Metres: a mission whose mean miss is shorter has no direction and is left out of the directions, and counted. 1 m unless said
    /// otherwise, about a pace: what is nearer was written down with the direction of the tape.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double NoDirectionWithin
    {
        get => _without;
        init => _without = Guard.NotNegative(value, nameof(NoDirectionWithin), "metres");
    }

    /// <summary>How many of the missions that drive a figure are listed; 3 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below 1.</exception>
    public int InfluentialMissions
    {
        get => _influential;
        init => _influential = Guard.AtLeast(value, 1, nameof(InfluentialMissions));
    }
}
