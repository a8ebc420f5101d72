namespace JumpAnalytics;

/// <summary>
/// The front door to the season question: from a log to how often landings came down inside the target radius, by wind band, terrain and
/// season. Each part can also be computed alone.
/// </summary>
public sealed class SeasonAccuracy : ShownResult
{
    private readonly Lazy<MissDistribution> _misses;
    private readonly Lazy<Backtest> _backtest;

    private SeasonAccuracy(JumpLog log, IReadOnlyList<string> seasons, AccuracyOptions options)
    {
        (Log, Seasons, Options) = (log, seasons, options);
        Landings = [.. log.Landings.Where(l => seasons.Contains(l.Drop.Season))];
        Glance = SeasonGlance.Of(log.Landings, options);
        Rates = RateTable.Of(Landings, options);
        Changes = SeasonChanges.Of(log.Landings, options);
        _misses = new(() => MissDistribution.Of(Landings, options));
        _backtest = new(() => Backtest.Of(log.Landings, options));
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The seasons asked for, in rising order.</summary>
    public IReadOnlyList<string> Seasons { get; }

    /// <summary>The landings that <see cref="Rates"/> rest on: those of <see cref="Seasons"/>.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => SeasonBrief.Of(this);

    /// <inheritdoc/>
    public override string Reading => Brief.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Brief.Points, Cautions.InShort];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => Rates.Tables;

    /// <summary>Every season of the log at a glance.</summary>
    public SeasonGlance Glance { get; }

    /// <summary>Rates by wind band and terrain.</summary>
    public RateTable Rates { get; }

    /// <summary>Every season of the log against the one before.</summary>
    public SeasonChanges Changes { get; }

    /// <summary>Winds and terrains held fixed: every season of the log against the one before.</summary>
    public SeasonTrend Trend => SeasonTrend.Of(Log.Landings, Options);

    /// <summary>Landing rate, forecast rate and recoverable rate.</summary>
    public ThreeRates ThreeRates => ThreeRates.Of(Landings, Options);

    /// <summary>Whether the benchmark holds, and how many missions would tell.</summary>
    public BenchmarkClaim Claim => BenchmarkClaim.Of(Landings, Options);

    /// <summary>How the landings miss: fitted distributions, their fit, and whose part the spread is.</summary>
    public MissDistribution Misses => _misses.Value;

    /// <summary>Forecasts of every season of the log from the ones before, scored.</summary>
    public Backtest Backtest => _backtest.Value;

    /// <summary>What the records allow to be said.</summary>
    public Conclusions Conclusions => Conclusions.Of(this);

    /// <summary>The landings of the rate table in groups of one's own, for instance <c>By("month", l => l.Drop.Time.Month)</c>.</summary>
    /// <param name="by">What they are grouped by, in a word or two.</param>
    /// <param name="key">The group of a landing; null where it has none.</param>
    public LandingGroups By<TKey>(string by, Func<Landing, TKey> key) => LandingGroups.Of(Landings, by, key, Options);

    /// <summary>The landings of the rate table one by one.</summary>
    public TableView LandingsTable => LandingTable.Of(Landings, Options);

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log, Landings);

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView Settings => Log.SettingsTable("settings", Seasons, Options.Settings(withBenchmark: true));

    /// <summary>Analyses a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, benchmark, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or the seasons that the rate table rests on, parted by commas.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static SeasonAccuracy Of(JumpLog log, AccuracyOptions? options = null, string seasons = JumpLog.All) =>
        new(log, log.SeasonsOf(seasons), options ?? new AccuracyOptions());
}
