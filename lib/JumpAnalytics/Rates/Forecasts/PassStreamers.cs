namespace JumpAnalytics;

/// <summary>
/// What the streamers of one pass tell: the wind that their drift implies, and where it would have carried a canopy. The record holds their
/// drift and the exit height; the rest is assumed (<see cref="StreamerFigures"/>), and they are taken to have been dropped from the exit
/// height.
/// </summary>
[TypeFormatterSource]
public sealed record PassStreamers
{
    private PassStreamers()
    {
    }

    /// <summary>The pass.</summary>
    internal Drop Drop { get; private init; } = null!;

    /// <summary>The streamers: dropped from the exit height, with the recorded forecast drift and the error of its reading.</summary>
    public required StreamerSet Set { get; init; }

    /// <summary>Mean wind over their fall.</summary>
    public required WindVector Wind { get; init; }

    /// <summary>Covariance of its error by the reading and by the spread of their rate, m²/s²; first axis east.</summary>
    public required PlaneCovariance WindError { get; init; }

    /// <summary>How the wind is taken to change with height.</summary>
    public required WindFill Shape { get; init; }

    /// <summary>
    /// Whether that meets the wind recorded near the ground; false where no power law does, null where none was recorded.
    /// </summary>
    public required bool? MeetsSurface { get; init; }

    /// <summary>What was assumed.</summary>
    public required StreamerFigures Figures { get; init; }

    /// <summary>How large the errors of reading, of rates and of a wind that changes are taken to be.</summary>
    public required ForecastErrorSources Sources { get; init; }

    /// <summary>Where a canopy should have drifted by the streamers.</summary>
    /// <param name="Canopy">The class.</param>
    /// <param name="Forecast">The drift, and what the streamers' own vector would have missed.</param>
    /// <param name="Error">
    /// Covariance of the drift's error by reading, rates and a wind that changed since the streamers, m²; first axis east.
    /// </param>
    [TypeFormatterSource]
    public sealed record CanopyDrift(CanopyFlight Canopy, StreamerForecast Forecast, PlaneCovariance Error)
    {
        /// <summary>Metres east and north from exit to landing, unsteered.</summary>
        public LocalVector Drift => Forecast.Canopy.Drift;
    }

    /// <summary>What the streamers of a pass tell.</summary>
    /// <param name="drop">The pass.</param>
    /// <param name="figures">What is assumed; the defaults when left out.</param>
    /// <param name="sources">How large errors are taken to be; the defaults when left out.</param>
    /// <returns>What they tell, or what is missing.</returns>
    public static Fit<PassStreamers> Of(Drop drop, StreamerFigures? figures = null, ForecastErrorSources? sources = null)
    {
        if (drop.ExitHeight is not { } exit) return Refused("the exit height was not recorded, so that the fall has no length");
        if (drop.Frame is not { } frame) return Refused("the forecast drift has no length, so that it tells no direction");
        if (!StandardAtmosphere.Holds(ElevationOf(drop)) || !StandardAtmosphere.Holds(ElevationOf(drop) + exit))
            return Refused("the recorded heights lie outside the standard atmosphere");
        var (given, errors) = (figures ?? new StreamerFigures(), sources ?? new ForecastErrorSources());
        var reading = frame.ErrorEastNorth(SourceVariances.ReadingOf(drop.ForecastDrift.Length, errors));
        var set = new StreamerSet(exit, new CanopyDescent(given.DescentRate, logSd: errors.DescentRate), drop.ForecastDrift, reading);
        var (wind, error) = set.MeanWind(ElevationOf(drop));
        var (shape, meets) = DropWind.ShapeOf(drop, exit, given.Shape);
        return Fit<PassStreamers>.Made(new PassStreamers
        {
            Drop = drop, Set = set, Wind = wind, WindError = error, Shape = shape, MeetsSurface = meets, Figures = given, Sources = errors,
        });

        static Fit<PassStreamers> Refused(string why) => Fit<PassStreamers>.Refused(why);
    }

    /// <summary>Where a canopy should have drifted by them.</summary>
    /// <param name="canopy">The class of canopy.</param>
    public CanopyDrift DriftOf(CanopyFlight canopy)
    {
        var descent = new CanopyDescent(canopy.DescentRate, logSd: Sources.DescentRate);
        var forecast = StreamerForecast.Of(Set, Shape, descent, Set.ReleaseHeight, ElevationOf(Drop), Figures.ThrowOf(Drop));
        var age = Drop.StreamerAge ?? ForecastSetting.UsualAge;
        var setting = new ForecastSetting(forecast.Canopy.Layers, age, Drop.RunHeading, Drop.GroundSpeed ?? 0, Drop.TargetRadius);
        var changed = PlaneCovariance.OfVariance(SourceVariances.Blown(setting, Sources));
        return new CanopyDrift(canopy, forecast, forecast.Canopy.Error! + changed);
    }

    /// <summary>Metres above sea level of the spot; 0 where it was not recorded.</summary>
    internal static double ElevationOf(Drop drop) => drop.SpotElevation ?? 0;
}
