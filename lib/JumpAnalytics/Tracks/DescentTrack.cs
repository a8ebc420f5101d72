using NodaTime;

namespace JumpAnalytics;

/// <summary>What the heights of a track were measured with.</summary>
public enum TrackHeightSource
{
    /// <summary>Satellite positions.</summary>
    Gps,

    /// <summary>Air pressure.</summary>
    Barometer,
}

/// <summary>
/// A descent as a recorder saw it: points relative to the spot, cleaned of what can't be (what was done stands in <see cref="Notes"/>), and the
/// moments found in it.
/// </summary>
public sealed record DescentTrack
{
    /// <summary>Name of the file it was read from, without the folders above the log's.</summary>
    public required string Name { get; init; }

    /// <summary>Points in order of time, no time twice. Gaps stay gaps.</summary>
    public required IReadOnlyList<TrackPoint> Points { get; init; }

    /// <summary>UTC of zero seconds; null when the file tells only how much time passed.</summary>
    public Instant? Start { get; init; }

    /// <summary>When the jumper left the aircraft; null when the track does not show it (a late start).</summary>
    public TrackMoment? Exit { get; init; }

    /// <summary>When the canopy was open and flying; null when the track does not show it.</summary>
    public TrackMoment? Opening { get; init; }

    /// <summary>When the jumper came down; null when the track ends in the air.</summary>
    public TrackMoment? Touchdown { get; init; }

    /// <summary>What the heights were measured with.</summary>
    public TrackHeightSource HeightSource { get; init; }

    /// <summary>Metres per axis; standard deviation of the noise of a place, estimated from the track.</summary>
    public required double PlaceSd { get; init; }

    /// <summary>Metres; standard deviation of the noise of a height, estimated from the track.</summary>
    public required double HeightSd { get; init; }

    /// <summary>What was found wrong or odd, and what was done about it.</summary>
    public IReadOnlyList<TrackNote> Notes { get; init; } = [];

    /// <summary>The points between opening and touchdown; where one of them is not known, from the first or to the last point.</summary>
    public IReadOnlyList<TrackPoint> UnderCanopy =>
        [.. Points.Where(p => p.Seconds >= (Opening?.Seconds ?? double.NegativeInfinity) && p.Seconds <= (Touchdown?.Seconds ?? double.PositiveInfinity))];
}
