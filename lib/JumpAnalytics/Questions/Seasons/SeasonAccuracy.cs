namespace JumpAnalytics;

/// <summary>
/// The front door to the season question: from a log to how often landings came down inside the target radius, by wind band,
/// terrain and season. Each part can also be computed alone. Of a log for sharing, rates, cautions and settings are given, and
/// every other part is withheld.
/// </summary>
public sealed class SeasonAccuracy : ShownResult
{
    private readonly IReadOnlyList<Landing> _all;
    private readonly Lazy<MissDistribution> _misses;
    private readonly Lazy<Backtest> _backtest;

    private SeasonAccuracy(JumpLog log, IReadOnlyList<string> seasons, AccuracyOptions options)
    {
        (Log, Seasons, Options) = (log, seasons, options);
        List<Landing> counted = [.. log.LandingsToCount.Where(l => seasons.Contains(l.Drop.Season))];
        (Landings, _all) = log.Sharing is null ? (counted, log.Landings) : ([], []); // but for rates and cautions, sharing rests on nothing
        Glance = Shown(SeasonGlance.Of(_all, options));
        Rates = RateTable.Of(counted, options, log.Sharing);
        Changes = Shown(SeasonChanges.Of(_all, options));
        Readings = Shown(RateReadings.Of(log, Landings, seasons, options));
        Cautions = Cautions.For(log, counted);
        _misses = new(() => Shown(MissDistribution.Of(Landings, options)));
        _backtest = new(() => Shown(Backtest.Of(_all, options)));
    }

    /// <summary>A result that is withheld where the log is for sharing.</summary>
    private T Shown<T>(T result) where T : ShownResult
    {
        if (Log.Sharing is not null) result.Withheld = LogSharing.Withheld;
        return result;
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The seasons asked for, in rising order.</summary>
    public IReadOnlyList<string> Seasons { get; }

    /// <summary>The landings that <see cref="Rates"/> rest on: those of <see cref="Seasons"/>; none where the log is for sharing.</summary>
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

    /// <summary>The landing rate as written, with rounded distances spread, and with all uncounted landings out or in.</summary>
    public RateReadings Readings { get; }

    /// <summary>Every season of the log against the one before.</summary>
    public SeasonChanges Changes { get; }

    /// <summary>Winds and terrains held fixed: every season of the log against the one before.</summary>
    public SeasonTrend Trend => Shown(SeasonTrend.Of(_all, Options));

    /// <summary>Landing rate, forecast rate and recoverable rate.</summary>
    public ThreeRates ThreeRates => Shown(ThreeRates.Of(Landings, Options));

    /// <summary>Whether the benchmark holds, and how many missions would tell.</summary>
    public BenchmarkClaim Claim => Shown(BenchmarkClaim.Of(Landings, Options));

    /// <summary>How the landings miss: fitted distributions, their fit, and whose part the spread is.</summary>
    public MissDistribution Misses => _misses.Value;

    /// <summary>Forecasts of every season of the log from the ones before, scored.</summary>
    public Backtest Backtest => _backtest.Value;

    /// <summary>What the intervals are worth for records like these, in simulated seasons.</summary>
    public CoverageTable Coverage => Shown(CoverageTable.Of(Landings, Options));

    /// <summary>What the records allow to be said.</summary>
    public Conclusions Conclusions => Shown(Conclusions.Of(this));

    /// <summary>The landings of the rate table in groups of one's own, for instance <c>By("month", l => l.Drop.Time.Month)</c>.</summary>
    /// <param name="by">What they are grouped by, in a word or two.</param>
    /// <param name="key">The group of a landing; null where it has none.</param>
    public LandingGroups By<TKey>(string by, Func<Landing, TKey> key) => Shown(LandingGroups.Of(Landings, by, key, Options));

    /// <summary>The landings of the rate table one by one.</summary>
    public TableView LandingsTable => Shown(LandingTable.Of(Landings, Options));

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions { get; }

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView Settings => Log.SettingsTable("settings", Seasons, Options.Settings(withBenchmark: true));

    /// <summary>Analyses a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, benchmark, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or the seasons that the rate table rests on, comma-separated.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static SeasonAccuracy Of(JumpLog log, AccuracyOptions? options = null, string seasons = JumpLog.All) =>
        new(log, log.SeasonsOf(seasons), options ?? new AccuracyOptions());
}
