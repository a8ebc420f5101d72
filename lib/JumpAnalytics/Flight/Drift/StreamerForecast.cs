namespace JumpAnalytics;

/// <summary>
/// The drift of a canopy as sets of streamers tell it, and what the plain forecast, the streamers' own vector, would have missed. Streamers fall at a rate of their own, often from a lower
/// height than the exit, and are not thrown; the four parts say how much each comes to, and add up to what is missing.
/// </summary>
/// <remarks>The rule of thumb scales by height and rate: drift ∝ height / rate in one wind for all heights (drift = wind × time).
/// Here the time aloft stands for the height, since the air thins.</remarks>
[TypeFormatterSource]
public sealed record StreamerForecast
{
    /// <summary>The plain forecast: what the highest sets drifted, their mean, metres.</summary>
    public required LocalVector Raw { get; init; }

    /// <summary>The rule of thumb: the plain forecast × height of the exit over that of the release × streamers' rate over the canopy's, metres.</summary>
    public required LocalVector Scaled { get; init; }

    /// <summary>The wind by height that the sets tell, with the account of what was filled in.</summary>
    public required WindProfile Wind { get; init; }

    /// <summary>The canopy's drift through that wind, with the throw.</summary>
    public required DriftPath Canopy { get; init; }

    /// <summary>What another descent rate than the streamers' adds to the plain forecast, metres.</summary>
    public required LocalVector ByRate { get; init; }

    /// <summary>What the time aloft from another height adds, had the wind the same mean up to there, metres.</summary>
    public required LocalVector ByHeight { get; init; }

    /// <summary>What another mean wind up to the exit adds, metres; it rests on the law above the highest level when the exit is above the release.</summary>
    public required LocalVector ByWindChange { get; init; }

    /// <summary>What the throw adds, metres.</summary>
    public required LocalVector ByThrow { get; init; }

    /// <summary>What the plain forecast misses: the canopy's drift less it, metres; the sum of the four parts.</summary>
    public LocalVector Missing => Canopy.Drift - Raw;

    /// <summary>Makes a forecast.</summary>
    /// <param name="sets">One or more sets.</param>
    /// <param name="shape">The law by which the wind changes where no set tells it.</param>
    /// <param name="canopy">How fast the canopy comes down.</param>
    /// <param name="exitHeight">Metres above the landing ground, above zero.</param>
    /// <param name="groundElevation">Metres above sea level of the landing ground; 0 unless said otherwise.</param>
    /// <param name="exitThrow">The throw along the run; none when left out.</param>
    /// <exception cref="ArgumentException">Sets that tell no wind (see <see cref="StreamerSet.Profile"/>), or an exit height that is not above zero.</exception>
    public static StreamerForecast Of(IReadOnlyList<StreamerSet> sets, WindFill shape, CanopyDescent canopy, double exitHeight, double groundElevation = 0, ExitThrow? exitThrow = null)
    {
        var wind = StreamerSet.Profile(sets, shape, groundElevation);
        var release = sets.Max(s => s.ReleaseHeight);
        var highest = sets.Where(s => s.ReleaseHeight == release).ToList();
        LocalVector Mean(Func<StreamerSet, LocalVector> of) => 1.0 / highest.Count * highest.Select(of).Aggregate((a, b) => a + b);
        // the density is the same for both, so that the ratio of the rates is that at any height
        var (raw, atRate) = (Mean(s => s.Drift), Mean(s => s.Descent.RateAt(0) / canopy.RateAt(0) * s.Drift));
        var (still, path) = (DriftModel.Drift(wind, canopy, exitHeight, groundElevation), DriftModel.Drift(wind, canopy, exitHeight, groundElevation, exitThrow));
        var forLonger = still.Seconds / canopy.Seconds(0, release, groundElevation) * atRate;
        return new StreamerForecast
        {
            Raw = raw, Scaled = exitHeight / release * atRate, Wind = wind, Canopy = path,
            ByRate = atRate - raw, ByHeight = forLonger - atRate, ByWindChange = still.Drift - forLonger, ByThrow = path.Drift - still.Drift,
        };
    }
}
