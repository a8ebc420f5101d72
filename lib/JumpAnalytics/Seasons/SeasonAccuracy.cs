namespace JumpAnalytics;

/// <summary>
/// The front door to the season question: from a log to how often landings came down inside the target radius, by wind band, terrain and
/// season. Each part can also be computed alone.
/// </summary>
public sealed class SeasonAccuracy
{
    private SeasonAccuracy(JumpLog log, IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        (Log, Landings, Options) = (log, landings, options);
        Glance = SeasonGlance.Of(log.Landings, options);
        Rates = RateTable.Of(landings, options);
        Changes = SeasonChanges.Of(log.Landings, options);
        Conclusions = Conclusions.Of(Rates, log.Intake);
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The landings that <see cref="Rates"/> rest on: those of the seasons asked for.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => Brief.Of(this);

    /// <summary>Every season of the log at a glance.</summary>
    public SeasonGlance Glance { get; }

    /// <summary>Rates by wind band and terrain.</summary>
    public RateTable Rates { get; }

    /// <summary>Every season of the log against the one before.</summary>
    public SeasonChanges Changes { get; }

    /// <summary>What the records allow to be said.</summary>
    public Conclusions Conclusions { get; }

    /// <summary>The landings of the rate table one by one.</summary>
    public TableView LandingsTable => LandingTable.Of(Landings, Options);

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log);

    /// <summary>Analyses a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, benchmark, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or the seasons that the rate table rests on, parted by commas.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static SeasonAccuracy Of(JumpLog log, AccuracyOptions? options = null, string seasons = CellRate.All)
    {
        if (seasons == CellRate.All) return new SeasonAccuracy(log, log.Landings, options ?? new AccuracyOptions());
        var wanted = seasons.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (wanted.Length == 0 || wanted.FirstOrDefault(s => !log.Seasons.Contains(s)) is { })
            throw new ArgumentException($"'{seasons}' names a season that is not in the log; there are {string.Join(", ", log.Seasons)}, and all.", nameof(seasons));
        return new SeasonAccuracy(log, [.. log.Landings.Where(l => wanted.Contains(l.Drop.Season))], options ?? new AccuracyOptions());
    }
}
