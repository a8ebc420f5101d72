namespace JumpAnalytics;

/// <summary>
/// The drift of a canopy as streamers tell it, and what the plain forecast, the streamers' own vector, would have missed. Streamers fall
/// at a rate of their own, often from a lower height than the exit, and are not thrown; the four parts say how much each comes to, and
/// add up to what is missing.
/// </summary>
/// <remarks>
/// The rule of thumb scales by height and rate: drift ∝ height / rate in one wind for all heights (common practice, no source). Here the
/// time aloft is taken for the height, since the air thins.
/// </remarks>
[TypeFormatterSource]
public sealed record StreamerForecast
{
    /// <summary>The plain forecast: what the streamers drifted, metres.</summary>
    public required LocalVector Raw { get; init; }

    /// <summary>
    /// The rule of thumb: the plain forecast × height of the exit over that of the release × streamers' rate over the canopy's, metres.
    /// </summary>
    public required LocalVector Scaled { get; init; }

    /// <summary>The canopy's drift through that wind, with the throw.</summary>
    public required DriftPath Canopy { get; init; }

    /// <summary>What another descent rate than the streamers' adds to the plain forecast, metres.</summary>
    public required LocalVector ByRate { get; init; }

    /// <summary>What the time aloft from another height adds, had the wind the same mean up to there, metres.</summary>
    public required LocalVector ByHeight { get; init; }

    /// <summary>
    /// What another mean wind up to the exit adds, metres; it rests on the law above the release when the exit is above it.
    /// </summary>
    public required LocalVector ByWindChange { get; init; }

    /// <summary>What the throw adds, metres.</summary>
    public required LocalVector ByThrow { get; init; }

    /// <summary>What the plain forecast misses: the canopy's drift less it, metres; the sum of the four parts.</summary>
    public LocalVector Missing => Canopy.Drift - Raw;

    /// <summary>Makes a forecast.</summary>
    /// <param name="streamers">The streamers.</param>
    /// <param name="shape">The law by which the wind changes with height.</param>
    /// <param name="canopy">How fast the canopy comes down.</param>
    /// <param name="exitHeight">Metres above the landing ground, above zero.</param>
    /// <param name="groundElevation">Metres above sea level of the landing ground; 0 unless said otherwise.</param>
    /// <param name="exitThrow">The throw along the run; none when left out.</param>
    /// <exception cref="ArgumentException">
    /// Streamers that tell no wind (see <see cref="StreamerSet.Profile"/>), or an exit height that is not above zero.
    /// </exception>
    public static StreamerForecast Of(
        StreamerSet streamers, WindFill shape, CanopyDescent canopy, double exitHeight, double groundElevation = 0,
        ExitThrow? exitThrow = null)
    {
        var wind = streamers.Profile(shape, groundElevation);
        // the density is the same for both, so that the ratio of the rates is that at any height
        var atRate = streamers.Descent.RateAt(0) / canopy.RateAt(0) * streamers.Drift;
        var still = DriftModel.Drift(wind, canopy, exitHeight, groundElevation);
        var path = DriftModel.Drift(wind, canopy, exitHeight, groundElevation, exitThrow);
        var forLonger = still.Seconds / canopy.Seconds(0, streamers.ReleaseHeight, groundElevation) * atRate;
        return new StreamerForecast
        {
            Raw = streamers.Drift, Scaled = exitHeight / streamers.ReleaseHeight * atRate, Canopy = path,
            ByRate = atRate - streamers.Drift, ByHeight = forLonger - atRate, ByWindChange = still.Drift - forLonger,
            ByThrow = path.Drift - still.Drift,
        };
    }
}
