namespace JumpAnalytics;

/// <summary>How a value of the mission stands among earlier ones.</summary>
public enum HistoryStanding
{
    /// <summary>Too few earlier missions to tell.</summary>
    Unknown,

    /// <summary>At least a tenth of the earlier ones were as large.</summary>
    Usual,

    /// <summary>Fewer than a tenth of the earlier ones were as large, though so few missions could have it so by chance.</summary>
    PerhapsLarge,

    /// <summary>Fewer than a tenth of the earlier ones were as large, and so says the interval.</summary>
    Large,
}

/// <summary>A value of the mission held against the same quantity in earlier missions.</summary>
[TypeFormatterSource]
public sealed record HistoryRank
{
    /// <summary>Share of earlier values from which one counts as usual; a number of this report, common practice, no source.</summary>
    public const double Rare = 0.1;

    private HistoryRank(double value, int missions, int cases, string comparedWith) =>
        (Value, Missions, Cases, ComparedWith) = (value, missions, cases, comparedWith);

    /// <summary>The mission's own value, SI.</summary>
    public double Value { get; }

    /// <summary>Earlier missions.</summary>
    public int Missions { get; }

    /// <summary>Earlier values.</summary>
    public int Cases { get; }

    /// <summary>Which earlier ones, in words: <c>5-10 mph, meadow</c>.</summary>
    public string ComparedWith { get; }

    /// <summary>The value that half of the earlier ones do not pass; null with none.</summary>
    public double? Median { get; private init; }

    /// <summary>The value that nine in ten of the earlier ones do not pass; null with fewer than 10.</summary>
    public double? NineInTen { get; private init; }

    /// <summary>
    /// Share of the earlier values that were as large or larger, with a between-mission interval; null with fewer than 5 missions.
    /// </summary>
    public Estimate? AsLarge { get; private init; }

    /// <summary>What that comes to.</summary>
    public HistoryStanding Standing => AsLarge switch
    {
        null => HistoryStanding.Unknown,
        { Value: >= Rare } => HistoryStanding.Usual,
        { Range.High: < Rare } => HistoryStanding.Large,
        _ => HistoryStanding.PerhapsLarge,
    };

    /// <summary>The standing in words.</summary>
    public string Words => Standing switch
    {
        HistoryStanding.Usual => "usual",
        HistoryStanding.Large => "larger than nine in ten before",
        HistoryStanding.PerhapsLarge => "larger than nine in ten before, but few missions say so",
        _ => "too few missions before to tell",
    };

    internal static HistoryRank Of(double value, IReadOnlyList<PastValue> past, string comparedWith, double confidence)
    {
        var missions = past.GroupBy(p => p.Mission).ToList();
        var sorted = past.Select(p => p.Value).Order().ToArray();
        return new HistoryRank(value, missions.Count, past.Count, comparedWith)
        {
            Median = sorted.Length > 0 ? Quantile(sorted, 0.5) : null,
            NineInTen = sorted.Length >= 10 ? Quantile(sorted, 0.9) : null,
            AsLarge = missions.Count < MissionHistory.FewestMissions ? null
                : ClusteredProportion.Of([.. missions.Select(m => m.Count(p => p.Value >= value))],
                    [.. missions.Select(m => m.Count())], confidence).Rate,
        };
    }

    private static double Quantile(double[] sorted, double share) =>
        HyndmanFan.OfSorted(sorted, share);
}
