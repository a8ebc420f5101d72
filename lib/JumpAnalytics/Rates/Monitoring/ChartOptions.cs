namespace JumpAnalytics;

/// <summary>What the control charts compare a spotter's missions with.</summary>
public enum ChartReference
{
    /// <summary>
    /// The missions of all other spotters: a chart then also signals a difference that was there from the first mission on.
    /// </summary>
    OtherSpotters,

    /// <summary>The spotter's own first missions: only what came after them is charted, and only a change signals.</summary>
    OwnFirstMissions,
}

/// <summary>How control charts are made. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record ChartOptions
{
    private readonly double _run = 370;
    private readonly double _weight = 0.1;
    private readonly double _reference = 0.5;
    private readonly double _odds = 2;
    private readonly int _own = 20, _fewest = 20, _changeover = 6;

    /// <summary>Missions between two false signals of one chart in the mean, when nothing has changed; 370 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 10 and 100,000.</exception>
    public double InControlRunLength
    {
        get => _run;
        init => _run = Guard.Within(value, 10, 100_000, nameof(InControlRunLength), "for instance 370 missions");
    }

    /// <summary>
    /// Weight of the newest mission in moving averages, 0.02 to 1; 0.1 unless said otherwise, which is good at shifts of one
    /// standard deviation of a mission or less.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 0.02 to 1.</exception>
    public double Weight
    {
        get => _weight;
        init => _weight = Guard.Within(value, 0.02, 1, nameof(Weight), "for instance 0.1");
    }

    /// <summary>
    /// Reference value of the cumulative sums, in standard deviations of a mission: half of the shift to be found
    /// soonest; 0.5 unless said otherwise.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 0.1 to 3.</exception>
    public double ReferenceValue
    {
        get => _reference;
        init => _reference = Guard.Within(value, 0.1, 3, nameof(ReferenceValue), "for instance 0.5 standard deviations");
    }

    /// <summary>
    /// Why there is no chart of cumulative sums with this run length and reference value: with a limit of nothing, where each mission
    /// further than the reference value from the mean signals, the chart already runs longer. Null when there is one.
    /// </summary>
    internal string? WhyNoSums => ShewhartRunLength.TwoSided(_reference).Average is var least && least < _run ? null
        : $"with a reference value of {Rounding.Short(_reference)} such a chart runs at least {Rounding.Count((long)Math.Ceiling(least))} "
            + $"missions between false signals, and {Rounding.Short(_run)} were asked for; take a smaller reference value";

    /// <summary>
    /// By how much the odds of a hit change in the alternative that the chart of hits is tuned to; 2 unless said
    /// otherwise: halved or doubled odds.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 1.1 to 20.</exception>
    public double OddsRatio
    {
        get => _odds;
        init => _odds = Guard.Within(value, 1.1, 20, nameof(OddsRatio), "for instance 2");
    }

    /// <summary>What missions are compared with; the other spotters' unless said otherwise.</summary>
    public ChartReference Against { get; init; } = ChartReference.OtherSpotters;

    /// <summary>How many of the spotter's own first missions are the reference, when they are; 20 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 10.</exception>
    public int OwnMissions
    {
        get => _own;
        init => _own = Guard.AtLeast(value, 10, nameof(OwnMissions), "for instance 20");
    }

    /// <summary>
    /// Fewest missions of a reference; 20 unless said otherwise. A short reference makes false signals more frequent than the limits say.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 10.</exception>
    public int FewestReferenceMissions
    {
        get => _fewest;
        init => _fewest = Guard.AtLeast(value, 10, nameof(FewestReferenceMissions), "for instance 20");
    }

    /// <summary>Whether charts start anew with each season; no unless said otherwise.</summary>
    public bool RestartEachSeason { get; init; }

    /// <summary>
    /// So many missions with one class of canopy before, and so many with another after, make a changeover at which charts start anew; 6
    /// unless said otherwise, so that bases with mixed canopies are charted through.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 2.</exception>
    public int ChangeoverMissions
    {
        get => _changeover;
        init => _changeover = Guard.AtLeast(value, 2, nameof(ChangeoverMissions), "for instance 6");
    }
}
