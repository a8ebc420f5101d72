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
/// A descent as a recorder saw it: points relative to the spot, cleaned of what can't be (what was done stands in <see cref="Notes"/>),
/// and the moments found in it.
/// </summary>
[TypeFormatterSource]
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

    /// <summary>
    /// When the steady fall begins in the points: where the track does not show the opening, the canopy's part is taken from there.
    /// </summary>
    internal double FirstFall { get; init; } = double.NegativeInfinity;

    /// <summary>
    /// The points between opening and touchdown; where one of them is not known, from where the steady fall begins or to the last point.
    /// </summary>
    public IReadOnlyList<TrackPoint> UnderCanopy =>
        [.. Points.Where(p => p.Seconds >= (Opening?.Seconds ?? FirstFall)
            && p.Seconds <= (Touchdown?.Seconds ?? double.PositiveInfinity))];

    /// <summary>
    /// Where it came down: the mean place of the ten seconds after the touchdown, or the last point. Metres east and north of the spot.
    /// </summary>
    internal LocalVector End
    {
        get
        {
            var after = Touchdown is { } down
                ? Points.Where(p => p.Seconds >= down.Seconds && p.Seconds <= down.Seconds + 10).ToList() : [];
            return after.Count == 0 ? Points[^1].Place : 1.0 / after.Count * after.Select(p => p.Place).Aggregate((a, b) => a + b);
        }
    }

    /// <summary>
    /// Where the jumper left, metres east and north of the spot: between the points before and after the exit. Null
    /// when the track does not show it.
    /// </summary>
    public LocalVector? ExitPlace
    {
        get
        {
            if (Exit is not { } exit) return null;
            var (after, before) = (Points[exit.Point], Points[Math.Max(0, exit.Point - 1)]);
            var share = after.Seconds > before.Seconds
                ? Math.Clamp((exit.Seconds - before.Seconds) / (after.Seconds - before.Seconds), 0, 1) : 1;
            return (1 - share) * before.Place + share * after.Place;
        }
    }

    /// <summary>
    /// UTC of the exit, or of the first fall where the exit is not in the track; null when the file tells no time of day.
    /// </summary>
    internal Instant? ExitTime => Start is { } start ? start + Duration.FromSeconds(Exit?.Seconds ?? Math.Max(FirstFall, 0)) : null;

    /// <summary>Cleans the fixes of a file and finds exit, opening and touchdown in them.</summary>
    /// <param name="recorded">The fixes.</param>
    /// <param name="spot">The spot, which places are told from.</param>
    /// <param name="spotElevation">Metres; null when not known.</param>
    /// <param name="options">What is possible; the defaults when left out.</param>
    /// <returns>The track, or why the fixes are no descent.</returns>
    public static Fit<DescentTrack> From(RecordedTrack recorded, GeoPosition spot,
        double? spotElevation = null, TrackOptions? options = null) =>
        TrackMaking.Of(recorded, spot, spotElevation, options ?? new TrackOptions());
}
