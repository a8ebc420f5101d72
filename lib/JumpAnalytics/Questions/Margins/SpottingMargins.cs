namespace JumpAnalytics;

/// <summary>
/// The front door to the base manager's question: for a wind band and terrain, how big a clearing past landings would have needed, how far
/// the exit could be moved, how sticks and the age of the forecast tell, and what became of earlier margins. Each part can also be
/// computed alone; none is a rule.
/// </summary>
public sealed partial class SpottingMargins : ShownResult
{
    private readonly Lazy<RadiusMargins> _radii;
    private readonly Lazy<ExitShifts> _shifts;
    private readonly Lazy<StickMargins> _sticks;
    private readonly Lazy<ForecastAgeing> _ageing;
    private readonly Lazy<MarginBacktest> _backtest;
    private readonly Lazy<WhatIf> _whatIf;

    private SpottingMargins(JumpLog log, IReadOnlyList<Landing> all, IReadOnlyList<string> seasons,
        AccuracyOptions options, MarginOptions asked)
    {
        (Log, Seasons, Options, Asked) = (log, seasons, options, asked);
        Landings = [.. all.Where(l => seasons.Contains(l.Drop.Season))];
        _radii = new(() => RadiusMargins.Of(Landings, options, asked.Shares, asked.UpperConfidence));
        _shifts = new(() => ExitShifts.Of(Landings, options));
        _sticks = new(() => StickMargins.Of(Landings, options, asked.Sticks));
        _ageing = new(() => ForecastAgeing.Of(Landings, options, asked.Ageing));
        _backtest = new(() => MarginBacktest.Of(all, options, asked.Shares, asked.UpperConfidence));
        _whatIf = new(() => WhatIf.Of(Landings, options, asked.Scenarios, Models));
    }

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>The seasons asked for, in rising order.</summary>
    public IReadOnlyList<string> Seasons { get; }

    /// <summary>The landings that all but the backtest rest on: those of <see cref="Seasons"/>.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>Bands, units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>What was asked for beside them.</summary>
    public MarginOptions Asked { get; }

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => MarginsBrief.Of(this);

    /// <inheritdoc/>
    public override string Reading => Brief.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Brief.Points, Cautions.InShort];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Radii.Tables.Take(1)];

    /// <summary>Radius that holds a share of landings, by wind band and terrain.</summary>
    public RadiusMargins Radii => _radii.Value;

    /// <summary>How far the exit could be moved, by wind band and terrain, and what that would have done.</summary>
    public ExitShifts Shifts => _shifts.Value;

    /// <summary>Whole sticks inside, by size and run.</summary>
    public StickMargins Sticks => _sticks.Value;

    /// <summary>What the age of the forecast does.</summary>
    public ForecastAgeing Ageing => _ageing.Value;

    /// <summary>What other settings would have done.</summary>
    public WhatIf WhatIf => _whatIf.Value;

    /// <summary>Margins of earlier seasons against the landings of the next, over all seasons of the log.</summary>
    public MarginBacktest EarlierMargins => _backtest.Value;

    /// <summary>How often past landings came down in a clearing.</summary>
    /// <param name="clearing">The clearing, in the frame of the forecast drift.</param>
    public ClearingChance InClearing(Clearing clearing) => ClearingChance.Of(Landings, Options, clearing);

    /// <summary>The shift of least cost over all landings.</summary>
    /// <param name="cost">What landings cost.</param>
    public CostShift LeastCost(LandingCost cost) => CostShift.Of(Landings, Options, cost);

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log, Landings);

    /// <summary>What modelled scenarios rest on.</summary>
    public WhatIfModels Models => new()
    {
        SpreadRatio = Ageing.Growth.Value is { IsShown: true } growth ? growth.SpreadRatio : null,
        PassThrough = Sticks.PassThrough.Value,
    };

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView Settings => Log.SettingsTable("margin-settings", Seasons,
        [.. Options.Settings(withBenchmark: false), new("upper limits of radii", Rounding.Percent(Asked.UpperConfidence, 1), "one-sided")]);

    /// <summary>The same questions for one base.</summary>
    internal SpottingMargins OfBase(string? place) => new(Log, [.. Log.Landings.Where(l => l.Drop.Base == place)], Seasons, Options, Asked);

    /// <summary>Analyses a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Bands, units, confidence, resamples and seed; the defaults when left out.</param>
    /// <param name="asked">Shares, sticks, ages and scenarios; the defaults when left out.</param>
    /// <param name="seasons"><c>all</c>, or the seasons that the margins rest on, parted by commas.</param>
    /// <exception cref="ArgumentException">A season is not in the log; the message lists those there are.</exception>
    public static SpottingMargins Of(
        JumpLog log, AccuracyOptions? options = null, MarginOptions? asked = null, string seasons = JumpLog.All) =>
        new(log, log.Landings, log.SeasonsOf(seasons), options ?? new AccuracyOptions(), asked ?? new MarginOptions());
}
