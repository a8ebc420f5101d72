namespace JumpAnalytics;

/// <summary>
/// The front door to the debrief of one mission: map, parts of each miss, wind found against forecast, plan against outcome, the base's
/// history, and questions for the review. Works without a descent track, with less to say.
/// </summary>
public sealed class MissionDebrief : ShownResult
{
    private readonly Lazy<HistoryComparison> _history;
    private readonly Lazy<PlanAndOutcome> _plan;
    private readonly Lazy<WindsFound> _winds;

    private MissionDebrief(LogDescents descents, string mission, AccuracyOptions options)
    {
        (Descents, Mission, Options) = (descents, mission, options);
        Landings = [.. Log.Landings.Where(l => l.Drop.Mission == mission)];
        Passes = DebriefedPass.Of([.. Log.Drops.Where(d => d.Mission == mission)], Landings, descents);
        _history =
            new(() => HistoryComparison.Of(Passes, MissionHistory.Before([.. Passes.Select(p => p.Drop)], descents, options), options));
        _plan = new(() => PlanAndOutcome.Of(Passes, History, options));
        _winds = new(() => WindsFound.Of(Passes, options));
    }

    /// <summary>The records.</summary>
    public JumpLog Log => Descents.Log;

    /// <summary>The descent tracks of the records.</summary>
    public LogDescents Descents { get; }

    /// <summary>Id of the mission.</summary>
    public string Mission { get; }

    /// <summary>Bands, units and confidence.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The passes in order of time.</summary>
    public IReadOnlyList<DebriefedPass> Passes { get; }

    /// <summary>The landings of the mission.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>The answer on one screen.</summary>
    public Brief Brief => DebriefBrief.Of(this);

    /// <inheritdoc/>
    public override string Reading => Brief.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Brief.Points, Cautions.InShort];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Budgets.Tables.Take(1), .. Plan.Tables.Take(1)];

    /// <summary>The parts of each miss.</summary>
    public BudgetSheet Budgets => BudgetSheet.Of(Passes, Options);

    /// <summary>The wind found by height.</summary>
    public WindsFound Winds => _winds.Value;

    /// <summary>What each canopy could have reached.</summary>
    public ReachSheet Reach => ReachSheet.Of(Passes, Winds, Options);

    /// <summary>What went as planned.</summary>
    public PlanAndOutcome Plan => _plan.Value;

    /// <summary>This mission against the base's earlier ones.</summary>
    public HistoryComparison History => _history.Value;

    /// <summary>Questions for the review.</summary>
    public ReviewQuestions Questions => ReviewQuestions.Of(Passes, Plan, History, Options);

    /// <summary>The descent tracks of the mission.</summary>
    public TrackSheet Tracks => TrackSheet.Of(Passes, Options);

    /// <summary>The cautions every report carries.</summary>
    public Cautions Cautions => Cautions.For(Log, Landings);

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    public TableView Settings => Log.SettingsTable("debrief-settings",
        [.. Passes.Select(p => p.Drop.Season).Distinct()], [new("mission", Mission), .. Options.Settings(withBenchmark: false)]);

    /// <summary>Refused rows that name the mission or one of its passes.</summary>
    internal int Refused =>
        Log.Intake.Quarantine.Count(q => q.Fields.Any(f => f.Trim() == Mission || Passes.Any(p => p.Drop.Id == f.Trim())));

    /// <summary>Debriefs a mission.</summary>
    /// <param name="log">The records.</param>
    /// <param name="mission">Id of the mission; empty for the last one with a descent track that could be used, or the last one.</param>
    /// <param name="options">Bands, units and confidence; the defaults when left out.</param>
    /// <exception cref="ArgumentException">The log has no drop, or no such mission; the message names some that there are.</exception>
    public static MissionDebrief Of(JumpLog log, string mission = "", AccuracyOptions? options = null) =>
        Of(LogDescents.Of(log, new FlownDescentOptions { Seed = (options ?? new AccuracyOptions()).Seed }), mission, options);

    /// <summary>Debriefs a mission of a log whose tracks were read before.</summary>
    /// <param name="descents">The records with their descent tracks.</param>
    /// <param name="mission">Id of the mission; empty for the last one with a descent track that could be used, or the last one.</param>
    /// <param name="options">Bands, units and confidence; the defaults when left out.</param>
    /// <exception cref="ArgumentException">The log has no drop, or no such mission; the message names some that there are.</exception>
    public static MissionDebrief Of(LogDescents descents, string mission = "", AccuracyOptions? options = null)
    {
        var drops = descents.Log.Drops.InTime().ThenBy(d => d.Id, StringComparer.Ordinal).ToList();
        if (drops.Count == 0) throw new ArgumentException("The log has no drop, so there is no mission to debrief.");
        if (mission.Length == 0)
        {
            mission = descents.Log.Landings.Where(l => descents.FlightOf(l).Success).Select(l => l.Drop).MaxBy(d => d.Time)?.Mission
                ?? drops[^1].Mission;
        }
        else if (drops.All(d => d.Mission != mission))
        {
            var ids = drops.Select(d => d.Mission).Distinct().ToList();
            throw new ArgumentException($"'{mission}' is not a mission of the log. The last of its {Rounding.Count(ids.Count, "mission")} "
                + $"are {string.Join(", ", ids.TakeLast(5))}.");
        }
        return new MissionDebrief(descents, mission, options ?? new AccuracyOptions());
    }
}
