namespace JumpAnalytics;

/// <summary>
/// What a descent track tells: the wind on the way down, the forward speed, and so how much of the way the wind made
/// and how much the jumper flew.
/// </summary>
/// <remarks>
/// <para>Ground velocity = wind + forward speed × heading. As the canopy turns, its ground velocities lie on a circle whose centre is the
/// wind and whose radius is the forward speed (<see cref="VelocityCircle"/>: algebraic start, geometric fit, wind in proportion to height).
/// From there the whole descent is smoothed at once: heading, turn rate, wind and forward speed wander from moment to moment, and the
/// places are what they are but for their noise. So every turn informs the layers above and below it, a straight leg tells what it can, and
/// errors grow where nothing turns. The size of the noise, and how fast the wind changes, are taken from the track itself, by the
/// innovations and the likelihood.</para>
/// <para>What was flown through the air is a state of the smoother, so that steering has its own error, and drift is the rest of the way.
/// Between exit and opening nobody steers: that way counts as drift. What a late or short track has not seen adds drift by the nearest
/// wind, and the whole forward speed in an unknown direction to the error.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record FlownDescent
{
    /// <summary>
    /// Metres east and north from exit (or the first point, where the track does not show it) to touchdown, with what was not seen.
    /// </summary>
    public required LocalVector Displacement { get; init; }

    /// <summary>Where the canopy would have gone unsteered, metres.</summary>
    public required LocalVector UnsteeredDrift { get; init; }

    /// <summary>Covariance of its error, m².</summary>
    public required PlaneCovariance UnsteeredDriftError { get; init; }

    /// <summary>What the jumper flew, metres.</summary>
    public required LocalVector Steering { get; init; }

    /// <summary>Covariance of its error, m².</summary>
    public required PlaneCovariance SteeringError { get; init; }

    /// <summary>Layers from the ground up.</summary>
    public required IReadOnlyList<WindLayer> Layers { get; init; }

    /// <summary>The wind at the middle of each layer that tells one, from the ground up.</summary>
    public IReadOnlyList<WindLevel> Profile => [.. Layers.Select(l => l.Wind.Value).OfType<WindLevel>()];

    /// <summary>Forward speed through the air, m/s, with a 95 % interval.</summary>
    public required Estimate ForwardSpeed { get; init; }

    /// <summary>Descent rate under canopy, m/s, with a 95 % interval.</summary>
    public required Estimate DescentRate { get; init; }

    /// <summary>Degrees turned in all, to either side.</summary>
    public required double Turned { get; init; }

    /// <summary>
    /// Seconds of a full turn at the rate at which most was turned; null when it never turned at more than 20 degrees a second.
    /// </summary>
    public double? FullTurnSeconds { get; init; }

    /// <summary>Standard deviation of a place per axis as the smoother found it, metres.</summary>
    public required double PlaceSd { get; init; }

    /// <summary>Seconds under canopy seen.</summary>
    public required double Seconds { get; init; }

    /// <summary>Seconds of the descent that the track has not seen, above its first point or below its last.</summary>
    public double UnseenSeconds { get; init; }

    /// <summary>
    /// Where the canopy would have been without steering, from the opening down: the same heights, carried by the wind alone.
    /// </summary>
    public required IReadOnlyList<TrackPoint> UnsteeredPath { get; init; }

    /// <summary>Reduces a track.</summary>
    /// <param name="track">The track.</param>
    /// <param name="options">How; the defaults when left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">An option makes no sense, a layer without depth for instance.</exception>
    public static Fit<FlownDescent> Of(DescentTrack track, FlownDescentOptions? options = null)
    {
        var how = options ?? new FlownDescentOptions();
        how.Check();
        return DescentReduction.Of(track, how);
    }
}
