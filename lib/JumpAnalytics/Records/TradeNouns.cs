namespace JumpAnalytics;

/// <summary>The words of the trade in the texts of the statistics.</summary>
internal static class TradeNouns
{
    /// <summary>
    /// A point is a landing, its place as seen from the spot a miss; landings of one mission belong together, missions of one spotter
    /// too.
    /// </summary>
    public static SampleNouns Value { get; } = new()
    {
        Point = "landing",
        Place = "miss",
        Cluster = "mission",
        Rater = "spotter",
        Own = "jumper",
        Origin = "spot",
        Sample = "season",
        Along = "downwind",
        Across = "right",
    };
}
