namespace JumpAnalytics;

/// <summary>
/// The front door to the trainer's question: which way, by how much and how consistently forecasts miss, spotter by spotter, in conditions
/// held equal and over time, and which missions to look at next. Each part can also be computed alone. It rates no person.
/// </summary>
public sealed class SpotterReview : ShownResult
{
    private readonly Lazy<(SpotterPatterns Patterns, FairComparison Comparison, SpotterCharts Charts, LearningCurves Learning)> _parts;
    private readonly Lazy<SpotterInfluence> _influence;

    private SpotterReview(JumpLog log, IReadOnlyList<string> seasons, AccuracyOptions options,
        SpotterPatternOptions settings, ChartOptions charts)
    {
        (Log, Seasons, Options, Settings, ChartSettings) = (log, seasons, options, settings, charts);
        Landings = [.. log.Landings.Where(l => seasons.Contains(l.Drop.Season))];
        _influence = new(() => SpotterInfluence.Of(Landings, options, settings));
        _parts = new(() =>
        {
            var (patterns, comparison) = (SpotterPatterns.Of(Landings, options, settings),
                FairComparison.Of(Landings, options, new FairComparisonSettings { FewestMissions = settings.FewestMissions }));
            var (drawn, learning) = (SpotterCharts.Of(Landings, options, charts), LearningCurves.Of(Landings, options, charts));
            // One rule over everything: a review names somebody without a cause in at most so many of a hundred seasons.
            var looks = new Looks([.. patterns.LooksTaken, .. comparison.LooksTaken, .. drawn.LooksTaken, .. learning.LooksTaken]);
            return (patterns.HeldTogether(looks), comparison.HeldTogether(looks), drawn.HeldTogether(looks), learning.HeldTogether(looks));
        });
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The seasons asked for, in rising order.</summary>
    public IReadOnlyList<string> Seasons { get; }

    /// <summary>The landings looked at: those of <see cref="Seasons"/>.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>Bands, units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Fewest missions and the named distance.</summary>
    public SpotterPatternOptions Settings { get; }

    /// <summary>Run length, weight and restarts of the charts.</summary>
    public ChartOptions ChartSettings { get; }

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => ReviewBrief.Of(this);

    /// <inheritdoc/>
    public override string Reading => Brief.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Brief.Points, Cautions.InShort];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Patterns.Tables.Take(1)];

    /// <summary>Which way, by how much and how consistently each spotter's missions miss.</summary>
    public SpotterPatterns Patterns => _parts.Value.Patterns;

    /// <summary>Hits of each spotter beside what the others would have had in the same conditions.</summary>
    public FairComparison Comparison => _parts.Value.Comparison;

    /// <summary>The missions that drive each spotter's figures.</summary>
    public SpotterInfluence Influence => _influence.Value;

    /// <summary>Control charts of each spotter's missions in the order flown.</summary>
    public SpotterCharts Charts => _parts.Value.Charts;

    /// <summary>Whether misses changed with the missions flown.</summary>
    public LearningCurves Learning => _parts.Value.Learning;

    /// <summary>
    /// The charts worth a figure: all of one spotter, or of each spotter with a finding one of those beyond chance, the mean miss first.
    /// </summary>
    /// <param name="spotter">A code, or <c>all</c>.</param>
    /// <returns>Each chart with whose missions it is.</returns>
    /// <exception cref="ArgumentException">No such spotter; the message names those there are.</exception>
    public IReadOnlyList<(MissChart Chart, string Name)> ChartsToDraw(string spotter = JumpLog.All)
    {
        if (spotter == JumpLog.All)
            return [.. Charts.Spotters.Select(s => (Chart: s.Found.LastOrDefault(), s.Name))
                .Where(s => s.Chart is not null).Select(s => (s.Chart!, s.Name))];
        Patterns.Of(spotter); // says which there are
        return [.. Charts.Spotters.Where(s => s.Name == "spotter " + spotter).SelectMany(s => s.Made.Select(c => (c, s.Name)))];
    }

    /// <summary>The missions that drive a figure, landing by landing.</summary>
    public TableView DrivingMissions => MissionSheet.Of(Landings,
        [.. Influence.Figures.SelectMany(f => f.Top.Value ?? []).Select(p => p.Mission).Distinct()], Options);

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log, Landings);

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView AskedFor => Log.SettingsTable("review-settings", Seasons,
    [
        .. Options.Settings(withBenchmark: false),
        new("fewest missions of a spotter", Rounding.Count(Settings.FewestMissions), "below that the page says what can't be said"),
        new("named distance", $"{Rounding.Short(Options.Units.Distance.FromSi(Settings.NamedDistance))} {Options.Units.Distance.Suffix}",
            "to within which a mean miss shall be known; yours"),
        new("missions between false signals", Rounding.Count((long)ChartSettings.InControlRunLength),
            "in the mean, of a chart on which nothing changes; yours"),
    ]);

    /// <summary>Analyses a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="settings">Fewest missions and the named distance; the defaults when left out.</param>
    /// <param name="charts">Run length, weight and restarts of the charts; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or the seasons looked at, separated by commas.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static SpotterReview Of(
        JumpLog log, AccuracyOptions? options = null, SpotterPatternOptions? settings = null, ChartOptions? charts = null,
        string seasons = JumpLog.All) =>
        new(log, log.SeasonsOf(seasons), options ?? new AccuracyOptions(), settings ?? new SpotterPatternOptions(),
            charts ?? new ChartOptions());
}
