namespace JumpAnalytics;

/// <summary>
/// The front door to the forecasts of seasons: which sources of error explain the misses, what labelled sources predict against what came,
/// and, where descent tracks part the steering, how often the forecast alone would have done.
/// </summary>
public sealed class ForecastReview : ShownResult
{
    private readonly Lazy<LogDescents> _descents;
    private readonly Lazy<ErrorDecomposition> _sources;
    private readonly Lazy<ForecastCheck> _check;
    private readonly Lazy<ThreeRates> _rates;
    private readonly Lazy<StreamerReview> _streamers;
    private readonly Lazy<ForecastAgeing> _ageing;

    private ForecastReview(JumpLog log, IReadOnlyList<string> seasons, AccuracyOptions options, ForecastErrorSources labelled)
    {
        (Log, Seasons, Options, Labelled) = (log, seasons, options, labelled);
        Landings = [.. log.Landings.Where(l => seasons.Contains(l.Drop.Season))];
        _descents = new(() => LogDescents.Of(log, new FlownDescentOptions { Seed = options.Seed }));
        _sources = new(() => ErrorDecomposition.Of(Landings, options));
        _check = new(() => ForecastCheck.Of(Landings, options, labelled,
            [.. Landings.Where(l => l.Miss is not null).Select(l => (Landing: l, Error: Descents.BudgetOf(l).ForecastError.Vector))
                .Where(e => e.Error is not null).Select(e => (e.Landing, e.Error!.Value, Descents.SteeringOf(e.Landing)!.Value.Error))]));
        _streamers = new(() => StreamerReview.Of(Landings, options));
        _ageing = new(() => ForecastAgeing.Of(Landings, options));
        _rates = new(() => ThreeRates.Of([.. Tracked], options, Descents.SteeringOf));
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The seasons asked for, in rising order.</summary>
    public IReadOnlyList<string> Seasons { get; }

    /// <summary>Their landings.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>Bands, units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Sources of error as labelled inputs.</summary>
    public ForecastErrorSources Labelled { get; }

    /// <summary>The descent tracks of the log.</summary>
    public LogDescents Descents => _descents.Value;

    /// <summary>Landings of the seasons whose track tells wind and steering apart.</summary>
    public IEnumerable<Landing> Tracked => Landings.Where(l => Descents.FlightOf(l).Success);

    /// <summary>Which sources explain the misses, and which to improve first.</summary>
    public ErrorDecomposition Sources => _sources.Value;

    /// <summary>Predicted and observed misses.</summary>
    public ForecastCheck Check => _check.Value;

    /// <summary>What the streamers' own vector would have missed.</summary>
    public StreamerReview Streamers => _streamers.Value;

    /// <summary>Whether misses grow with the age of the streamers: the same computation as that of the margins.</summary>
    public ForecastAgeing Ageing => _ageing.Value;

    /// <summary>The three rates of the passes with a track.</summary>
    public ThreeRates TrackedRates => _rates.Value;

    /// <summary>The tracks there are.</summary>
    public TrackInventory Tracks => TrackInventory.Of(Descents, Landings);

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => new(Sources.Reading,
    [
        .. Log.Notice is { } notice ? [notice] : Array.Empty<string>(),
        Ageing.Reading, Check.Reading, Streamers.Reading, Tracks.Reading,
        .. Tracked.Any() ? [$"Of the passes with a track. {TrackedRates.Reading}"] : Array.Empty<string>(),
    ]);

    /// <inheritdoc/>
    public override string Reading => Brief.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Brief.Points, Cautions.InShort];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Sources.Tables.Take(1)];

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log, Landings);

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView Settings => Log.SettingsTable("forecast-review-settings", Seasons, Options.Settings(withBenchmark: false));

    /// <summary>Reviews the forecasts of a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="labelled">Sources of error as labelled inputs; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or seasons parted by commas.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static ForecastReview Of(
        JumpLog log, AccuracyOptions? options = null, ForecastErrorSources? labelled = null, string seasons = JumpLog.All) =>
        new(log, log.SeasonsOf(seasons), options ?? new AccuracyOptions(), labelled ?? new ForecastErrorSources());
}
