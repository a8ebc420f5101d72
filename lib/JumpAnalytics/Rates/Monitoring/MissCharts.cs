namespace JumpAnalytics;

/// <summary>
/// Control charts of missions in the order flown, against a reference: whether misses have changed, or differ, by more than chance, when it
/// began, and which way. For debrief and training; a signal is a reason to look at the missions and no verdict over anyone.
/// </summary>
/// <remarks>
/// <para>One point a mission. Miss distance: moving average (Roberts 1959) and cumulative sums (Page 1954) of scores that are standard
/// normal for missions like the reference's. Hits: cumulative sums of likelihood ratios by cell. Mean miss in the downwind frame:
/// multivariate moving average (Lowry, Woodall, Champ and Rigdon 1992). How scores are made: method note of the table.</para>
/// <para>Limits give the run length asked for by integral equations or exact chains, not by simulation (<see cref="EwmaRunLength"/>,
/// <see cref="CusumRunLength"/>, <see cref="MewmaRunLength"/>, <see cref="BernoulliCusumRunLength"/>). The charts look at the same
/// missions, so that their signals are not independent.</para>
/// <para>Measured without change on simulated missions of 2 to 8 landings, 0 to 20 % of them in a heavy tail, little or much shared by
/// a mission: against 3,000 missions of reference, run lengths of 91 to 107 where 100 was set (50,000 missions each, standard
/// deviation 4.5 %); against 300 missions 83 to 100 in the mean over references, whose error is in
/// <see cref="MissChart.ChanceOfFalseSignal"/>.</para>
/// </remarks>
public sealed class MissCharts : ShownResult
{
    private readonly Charted _charted;
    private readonly Lazy<Looks> _looks;

    private MissCharts(string name, IReadOnlyList<Fit<MissChart>> all, Charted charted, Looks? looks = null)
    {
        (_charted, Name, All, Restarts, Options, Settings, Missions) =
            (charted, name, all, charted.Restarts, charted.Options, charted.Charts, charted.Missions.Count);
        _looks = new(() => looks ?? new Looks([.. LooksTaken]));
    }

    /// <summary>The looks that these charts are held together with: their own unless they are part of a review.</summary>
    internal Looks Looks => _looks.Value;

    /// <summary>The looks of these charts.</summary>
    internal IEnumerable<Look> LooksTaken => Made.Select(c => new Look(Name, c.Name, c.PValue));

    /// <summary>The same charts held together with other looks.</summary>
    internal MissCharts HeldTogether(Looks looks) => new(Name, All, _charted, looks);

    /// <summary>P of a chart after all looks; null where there is none.</summary>
    internal double? Adjusted(ChartKind kind) => Looks.Of(Name, MissChart.NameOf(kind));

    /// <summary>The charts that signal and are beyond chance after all looks.</summary>
    internal IReadOnlyList<MissChart> Found =>
        [.. Made.Where(c => c.Signals.Count > 0 && Looks.Found(Name, c.Name, Options.Confidence))];

    /// <summary>Whose missions they are.</summary>
    public string Name { get; }

    /// <summary>Every chart in the order of <see cref="ChartKind"/>, or the reason why there is none.</summary>
    public IReadOnlyList<Fit<MissChart>> All { get; }

    /// <summary>The charts that could be made.</summary>
    public IReadOnlyList<MissChart> Made => [.. All.Where(c => c.Success).Select(c => c.Value!)];

    /// <summary>Where charts start anew.</summary>
    public IReadOnlyList<ChartRestart> Restarts { get; }

    /// <summary>Bands, units, confidence and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Run length, weight, reference value and odds ratio.</summary>
    public ChartOptions Settings { get; }

    /// <summary>Missions looked at.</summary>
    public int Missions { get; }

    /// <summary>A chart.</summary>
    /// <param name="kind">Which one.</param>
    public Fit<MissChart> Chart(ChartKind kind) => All[(int)kind];

    /// <summary>Charts missions against a reference.</summary>
    /// <param name="landings">Landings of the missions to chart.</param>
    /// <param name="reference">
    /// Landings of the missions to compare with; none of them should be among those charted. With
    /// <see cref="ChartReference.OwnFirstMissions"/> it is not used.
    /// </param>
    /// <param name="options">Bands, units, confidence and seed.</param>
    /// <param name="charts">Run length, weight and the rest; the defaults when left out.</param>
    /// <param name="name">Whose missions they are, for the reading.</param>
    public static MissCharts Of(IReadOnlyList<Landing> landings, IReadOnlyList<Landing> reference, AccuracyOptions options,
        ChartOptions? charts = null, string name = "these missions") =>
        Of(landings, reference, options, charts ??= new ChartOptions(), new ChartLimits(charts), name);

    internal static MissCharts Of(IReadOnlyList<Landing> landings, IReadOnlyList<Landing> reference, AccuracyOptions options,
        ChartOptions charts, ChartLimits limits, string name)
    {
        var missions = MissionInTime.Of(landings);
        if (charts.Against == ChartReference.OwnFirstMissions)
        {
            reference = [.. missions.Take(charts.OwnMissions).SelectMany(m => m.Landings)];
            missions = [.. missions.Skip(charts.OwnMissions)];
        }
        var charted = new Charted(missions, options, charts, limits);
        var fewest = charts.Against == ChartReference.OwnFirstMissions ? charts.OwnMissions : charts.FewestReferenceMissions;
        var misses = MissReference.Of(reference, options.Bands, fewest);
        var hits = HitReference.Of(reference, options, fewest);
        Fit<MissChart> Miss(ChartKind kind) => missions.Count == 0 ? Fit<MissChart>.Refused("no mission to chart")
            : misses.Success ? DistanceCharts.Of(kind, charted, misses.Value) : Fit<MissChart>.Refused(misses.Reason);
        return new MissCharts(name,
        [
            Miss(ChartKind.DistanceAverage), Miss(ChartKind.DistanceSums),
            missions.Count == 0 ? Fit<MissChart>.Refused("no mission to chart") : hits.Success ? HitCharts.Of(charted, hits.Value)
                : Fit<MissChart>.Refused(hits.Reason),
            Miss(ChartKind.MeanMissAverage),
        ], charted);
    }

    private string ReferenceWords => Settings.Against == ChartReference.OwnFirstMissions
        ? $"the {Rounding.Count(Made[0].ReferenceMissions)} own missions before"
        : $"{Rounding.Count(Made[0].ReferenceMissions, "mission")} of the reference "
            + $"({Rounding.Count(Made[0].ReferenceLandings, "landing")})";

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Made.Count == 0) return $"No chart of {Name} can be made: {All[0].Reason}.";
            var signalled = Made.Where(c => c.Signals.Count > 0).ToList();
            var first = $"{Rounding.Count(Missions, "mission")} of {Name} ({Rounding.Count(Made.Max(c => c.Landings), "landing")}) "
                + $"held against {ReferenceWords}: ";
            var told = signalled.Count == 0
                ? $"no signal on {Rounding.Count(Made.Count, "chart")}."
                : string.Join("; ", signalled.Select(c => $"{c.Name}: " + string.Join(", ",
                    c.Signals.GroupBy(s => s.Direction).Select(g => g.Count() == 1 ? g.Key : $"{g.Key} ({g.Count()} times)")))) + ".";
            var chances = Made.Select(c => c.ChanceOfFalseSignal).ToList();
            return first + told + " If nothing had changed, each chart would still have signalled by now with a chance of "
                + $"{Rounding.Chance(chances.Min())} to {Rounding.Chance(chances.Max())}. "
                + $"After {Rounding.Count(Looks.Count, "look")} (Holm, {Rounding.Percent(1 - Options.Confidence)} level) "
                + (Found.Count == 0 ? "no chart is beyond chance." : $"beyond chance: {string.Join("; ", Found.Select(c => c.Name))}.")
                + (signalled.Count > 0
                    ? " A signal says that these missions and the reference differ by more than chance usually brings; "
                        + "it doesn't say why, and it is no verdict."
                    : " That is no proof that nothing has changed: small changes take many missions to show.");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Made.SelectMany(c => c.Signals.Select(s =>
            $"{c.Name}: {s.Direction} at mission {s.At.Mission} ({ChartTables.Date(s.At.Time)}). "
            + $"It most probably began with mission {s.ProbableStart}; since then {Rounding.Count(s.MissionsSinceStart, "mission")}, "
            + $"{Rounding.Count(s.LandingsSinceStart, "landing")}: {s.Size}. Picked by the chart, so it looks larger than it is.")),
        .. Restarts.Select(r => $"All charts start anew with mission {r.Mission}: {r.Reason}."),
        .. All.Select((c, i) => (Chart: c, Kind: (ChartKind)i)).Where(c => !c.Chart.Success)
            .Select(c => $"No chart of {MissChart.NameOf(c.Kind)}: {c.Chart.Reason}."),
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
        [ChartTables.Charts([this], false), ChartTables.Signals([this], false), ChartTables.Points([this], false)];
}
