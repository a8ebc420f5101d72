using NodaTime;

namespace JumpAnalytics;

/// <summary>The four charts of a spotter's missions.</summary>
public enum ChartKind
{
    /// <summary>Moving average of the miss distance: small lasting changes.</summary>
    DistanceAverage,

    /// <summary>Cumulative sums of the miss distance, up and down: when a change began.</summary>
    DistanceSums,

    /// <summary>Cumulative sums of hits, fewer and more than expected in the cells flown.</summary>
    HitSums,

    /// <summary>Moving average of the mean miss, long or short and left or right.</summary>
    MeanMissAverage,
}

/// <summary>One mission on a chart.</summary>
/// <param name="Number">Place in the order flown, from 1; missions without a usable landing have none.</param>
/// <param name="Mission">Id of the mission.</param>
/// <param name="Time">Its first drop, wall-clock.</param>
/// <param name="Landings">Landings behind the point.</param>
/// <param name="Upper">Statistic held against the upper limit.</param>
/// <param name="Lower">Statistic held against the lower limit, zero or below for sums; null for a chart with one limit.</param>
/// <param name="Direction">Which way the chart signals at this mission; null when it does not.</param>
[TypeFormatterSource]
public sealed record ChartPoint(int Number, string Mission, LocalDateTime Time, int Landings,
    double Upper, double? Lower, string? Direction);

/// <summary>A signal of a chart.</summary>
[TypeFormatterSource]
public sealed record ChartSignal
{
    /// <summary>The mission at which the chart signals.</summary>
    public required ChartPoint At { get; init; }

    /// <summary>Which way: long, short, left, right and pairs of them; wider or tighter; fewer hits or more hits.</summary>
    public required string Direction { get; init; }

    /// <summary>The mission with which the change most probably began.</summary>
    public required string ProbableStart { get; init; }

    /// <summary>Missions from the probable start to the signal, both counted.</summary>
    public required int MissionsSinceStart { get; init; }

    /// <summary>Landings of those missions.</summary>
    public required int LandingsSinceStart { get; init; }

    /// <summary>
    /// How large the change looks in these missions, in words with its interval. The missions were picked by the chart because they stand
    /// out, so that it looks larger than it is.
    /// </summary>
    public required string Size { get; init; }
}

/// <summary>One control chart of missions in the order flown.</summary>
[TypeFormatterSource]
public sealed record MissChart
{
    /// <summary>What is charted.</summary>
    public required ChartKind Kind { get; init; }

    /// <summary>What is charted, in words.</summary>
    public string Name => NameOf(Kind);

    /// <summary>The missions.</summary>
    public required IReadOnlyList<ChartPoint> Points { get; init; }

    /// <summary>
    /// Upper limit, in the unit of the points: scores of mission distances; log-likelihood ratio for hits; squared
    /// length for the mean miss.
    /// </summary>
    public required double UpperLimit { get; init; }

    /// <summary>Lower limit; null for a chart with one limit.</summary>
    public required double? LowerLimit { get; init; }

    /// <summary>Signals; after one the statistic starts anew.</summary>
    public required IReadOnlyList<ChartSignal> Signals { get; init; }

    /// <summary>Where the chart starts anew for a reason outside of it.</summary>
    public required IReadOnlyList<ChartRestart> Restarts { get; init; }

    /// <summary>
    /// Average run length of the chart without change against a reference that is known exactly, missions: that asked for, or for hits the
    /// least above it that whole steps allow.
    /// </summary>
    public required double InControlRunLength { get; init; }

    /// <summary>
    /// Probability that the chart would have signalled at least once in these missions although nothing had changed. Restarts are counted,
    /// and so is the error of the reference, whose mean and spread are estimates.
    /// </summary>
    public double ChanceOfFalseSignal => Chances.Value.Signal;

    /// <summary>
    /// Chance that the chart would have come as near its limits or as far beyond them in these missions although nothing had changed,
    /// the error of the reference counted.
    /// </summary>
    public double PValue => Chances.Value.Reached;

    /// <summary>The two chances, worked out when asked for.</summary>
    internal Lazy<(double Signal, double Reached)> Chances { get; init; } = null!;

    /// <summary>Missions charted.</summary>
    public int Missions => Points.Count;

    /// <summary>Landings behind the points.</summary>
    public int Landings => Points.Sum(p => p.Landings);

    /// <summary>Missions of the reference.</summary>
    public required int ReferenceMissions { get; init; }

    /// <summary>Landings of the reference.</summary>
    public required int ReferenceLandings { get; init; }

    /// <summary>A chart's name in words.</summary>
    /// <param name="kind">Which chart.</param>
    internal static string NameOf(ChartKind kind) => kind switch
    {
        ChartKind.DistanceAverage => "miss distance, moving average",
        ChartKind.DistanceSums => "miss distance, cumulative sums",
        ChartKind.HitSums => "hits, cumulative sums",
        _ => "mean miss, moving average",
    };
}
