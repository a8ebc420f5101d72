using System.Globalization;

namespace JumpAnalytics;

/// <summary>What a mission does to a figure of its spotter.</summary>
/// <param name="Mission">Id of the mission: the key to its debrief.</param>
/// <param name="Date">Date of its first drop.</param>
/// <param name="Influence">The figure without it, in metres or as a share.</param>
[TypeFormatterSource]
public sealed record MissionPull(string Mission, NodaTime.LocalDate Date, ClusterInfluence Influence);

/// <summary>A figure of one spotter, or of the base, and the missions that drive it.</summary>
/// <param name="Spotter">Code, or <see cref="JumpLog.All"/>.</param>
/// <param name="Figure">What is looked at: <c>mean miss downwind</c>, <c>mean miss right</c>, <c>landing rate</c> or <c>R90</c>.</param>
/// <param name="IsRate">Whether it is a share; else metres.</param>
/// <param name="Missions">Missions behind it.</param>
/// <param name="Top">The missions with the greatest influence, greatest first; or why there are none.</param>
/// <param name="All">The figure of all missions; null when it can't be computed.</param>
/// <param name="WithoutTop">
/// The figure without all of <paramref name="Top"/>; null when it can't be computed. A check of how much depends on
/// them, not a better figure.
/// </param>
[TypeFormatterSource]
public sealed record FigureInfluence(string Spotter, string Figure, bool IsRate, int Missions, Fit<IReadOnlyList<MissionPull>> Top,
    double? All, double? WithoutTop);

/// <summary>Which missions drive a spotter's bias, landing rate and R90: each left out in turn.</summary>
public sealed class SpotterInfluence : ShownResult
{
    private SpotterInfluence(IReadOnlyList<FigureInfluence> figures, AccuracyOptions options, SpotterPatternOptions settings) =>
        (Figures, Options, Settings) = (figures, options, settings);

    /// <summary>The figures: four for each spotter, by code.</summary>
    public IReadOnlyList<FigureInfluence> Figures { get; }

    /// <summary>Units.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>How many missions are listed.</summary>
    public SpotterPatternOptions Settings { get; }

    /// <summary>Looks for the missions that drive the figures.</summary>
    /// <param name="landings">Landings of any seasons.</param>
    /// <param name="options">Units.</param>
    /// <param name="settings">How many missions are listed, and fewest missions; the defaults when left out.</param>
    public static SpotterInfluence Of(IReadOnlyList<Landing> landings, AccuracyOptions options, SpotterPatternOptions? settings = null)
    {
        var asked = settings ?? new SpotterPatternOptions();
        return new SpotterInfluence([.. SpotterPatterns.BySpotter(landings).SelectMany(g => Of(g.Spotter, g.Landings, asked))],
            options, asked);
    }

    private static IEnumerable<FigureInfluence> Of(string spotter, IReadOnlyList<Landing> landings, SpotterPatternOptions settings)
    {
        var missions = landings.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g]).ToList();
        var sums = new MissionSums([.. missions.Select(m => (IReadOnlyList<(double, double)>)[.. m.Where(l => l.MissDownwind is not null)
            .Select(l => (l.MissDownwind!.Value.Along, l.MissDownwind.Value.Across))])]);
        var hits = new MissionSums([.. missions.Select(m => (IReadOnlyList<(double, double)>)[
            .. m.Where(l => l.Outcome != LandingOutcome.Undecided).Select(l => (l.Outcome == LandingOutcome.Hit ? 1.0 : 0, 0.0))])]);
        var sorted = MissSpread.Sorted(missions);
        (string Name, bool IsRate, Func<int[], double?> Figure)[] figures =
        [
            ("mean miss downwind", false, sums.MeanX), ("mean miss right", false, sums.MeanY), ("landing rate", true, hits.MeanX),
            ("R90", false, draws => DrawnQuantile.Of(sorted, draws, 0.9)),
        ];
        foreach (var (name, isRate, figure) in figures)
        {
            var everything = Enumerable.Repeat(1, missions.Count).ToArray();
            if (missions.Count < settings.FewestMissions)
            {
                yield return new FigureInfluence(spotter, name, isRate, missions.Count,
                    Fit<IReadOnlyList<MissionPull>>.Refused($"{Rounding.Count(missions.Count, "mission")}: each weighs much, "
                        + $"whichever it is; given from {settings.FewestMissions} on"), Known(figure(everything)), null);
                continue;
            }
            var jackknife = ClusterJackknife.Of(missions.Count, figure, [.. missions.Select(m => m[0].Drop.Mission)], TradeNouns.Value);
            var top = jackknife.Value?.Ranked.Take(settings.InfluentialMissions)
                .Select(i => new MissionPull(i.Label, missions[i.Cluster].Min(l => l.Drop.Time).Date, i)).ToList();
            foreach (var pull in top ?? []) everything[pull.Influence.Cluster] = 0;
            yield return new FigureInfluence(spotter, name, isRate, missions.Count,
                top is null ? Fit<IReadOnlyList<MissionPull>>.Refused(jackknife.Reason!) : Fit<IReadOnlyList<MissionPull>>.Made(top),
                jackknife.Value?.Value ?? Known(figure([.. everything.Select(_ => 1)])), top is null ? null : Known(figure(everything)));
        }

        static double? Known(double? value) => value is { } v && double.IsFinite(v) ? v : null;
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Figures.Count == 0) return "No landing has a spotter recorded, so there is no spotter's figure to look at.";
            var far = Figures.Where(f => f.Top.Success).Select(f => (f, f.Top.Value![0]))
                .Where(p => Math.Abs(p.Item2.Influence.Standardised) > Far).ToList();
            return "Each mission was left out in turn, "
                + $"for {Rounding.Count(Figures.Select(f => f.Spotter).Distinct().Count(), "spotter")}. "
                + (far.Count == 0 ? $"No mission moves a figure by more than {Rounding.Short(Far)} times what missions usually do. "
                    : $"In {Rounding.Count(far.Count, "figure")} a mission moves it by more than {Rounding.Short(Far)} "
                        + "times what missions usually do: " + string.Join("; ", far.Take(5).Select(p => $"mission {p.Item2.Mission} "
                            + $"of {Day(p.Item2)} ({p.f.Figure})")) + $"{(far.Count > 5 ? "; and more in the table" : "")}. ")
                + "Look at these in the debrief: a record in error, an odd wind, or simply a far miss. What is left out stays true; "
                + "a figure without a mission is a check, not a better figure.";
        }
    }

    private const double Far = 4;

    private static string Day(MissionPull pull) => pull.Date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<InfluenceRow>("spotter-influence", "Missions that drive a spotter's figures", Figures.SelectMany(Rows),
            $"The {Settings.InfluentialMissions} missions of greatest influence for each figure, and the figure without all of them. "
            + "Standardised: in units of the root mean square over all missions; Efron (1992) looks twice beyond ±2. "
            + "R90 is no smooth figure: a mission may move it by a jump.")
        {
            { Columns.SpotterCode, r => r.Of.Spotter }, { Columns.InfluenceFigure, r => r.Of.Figure },
            { Columns.ParameterUnit, r => r.Of.IsRate ? "%" : Options.Units.Distance.Suffix }, { Columns.Missions, r => r.Of.Missions },
            { Columns.Mission, r => r.Pull?.Mission }, { Columns.FlownOn, r => r.Pull is { } pull ? Day(pull) : null },
            { Columns.WithAll, r => Shown(r.Of, r.Of.All) }, { Columns.WithoutMission, r => Shown(r.Of, r.Without) },
            { Columns.ChangeWithout, r => Shown(r.Of, r.Change) }, { Columns.StandardisedChange, r => r.Pull?.Influence.Standardised },
            { Columns.Note, r => r.Note },
        },
    ];

    /// <summary>A mission and a figure without it; without a mission, all of the top together, or why there are none.</summary>
    private sealed record InfluenceRow(FigureInfluence Of, MissionPull? Pull, double? Without, double? Change, string? Note);

    private static IEnumerable<InfluenceRow> Rows(FigureInfluence f) => f.Top.Value is not { } top
        ? [new(f, null, null, null, f.Top.Reason)]
        : top.Select(p => new InfluenceRow(f, p, p.Influence.ValueWithout, p.Influence.Change, null))
            .Append(new(f, null, f.WithoutTop, f.WithoutTop - f.All, $"without these {top.Count} together"));

    private double? Shown(FigureInfluence of, double? value) => of.IsRate ? 100 * value : Options.Units.Distance.FromSi(value);
}
