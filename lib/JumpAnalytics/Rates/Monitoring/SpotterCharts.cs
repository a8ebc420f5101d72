namespace JumpAnalytics;

/// <summary>
/// Control charts of every spotter with enough missions, each against the other spotters' missions or against the spotter's own first ones.
/// </summary>
/// <remarks>
/// A spotter who differs from the rest is part of everyone else's reference, which shifts and widens it a little; against their own first
/// missions spotters are charted without that, but only for change.
/// </remarks>
public sealed class SpotterCharts : ShownResult
{
    /// <summary>Missions below which a spotter is not charted.</summary>
    public const int FewestMissions = 5;

    private SpotterCharts(IReadOnlyList<MissCharts> spotters, IReadOnlyList<string> few, ChartOptions settings, Looks looks) =>
        (Spotters, TooFew, Settings, Looks) = ([.. spotters.Select(s => s.HeldTogether(looks))], few, settings, looks);

    /// <summary>The looks that the charts are held together with: those of all spotters unless they are part of a review.</summary>
    internal Looks Looks { get; }

    /// <summary>The looks of these charts.</summary>
    internal IEnumerable<Look> LooksTaken => Spotters.SelectMany(s => s.LooksTaken);

    /// <summary>The same charts held together with other looks.</summary>
    internal SpotterCharts HeldTogether(Looks looks) => new(Spotters, TooFew, Settings, looks);

    /// <summary>The charts, in the order of the spotters' codes.</summary>
    public IReadOnlyList<MissCharts> Spotters { get; }

    /// <summary>Spotters with fewer than <see cref="FewestMissions"/> missions, who are not charted.</summary>
    public IReadOnlyList<string> TooFew { get; }

    /// <summary>Run length, weight and the rest.</summary>
    public ChartOptions Settings { get; }

    /// <summary>
    /// How many of all charts would be expected to signal at least once if nothing had changed: the sum of their chances, which holds
    /// although charts of the same missions go together. The error of the references is in it.
    /// </summary>
    public double ExpectedFalse => Spotters.SelectMany(s => s.Made).Sum(c => c.ChanceOfFalseSignal);

    /// <summary>Charts every spotter.</summary>
    /// <param name="landings">Landings of the base; those without a spotter's code are part of no chart and of no reference.</param>
    /// <param name="options">Bands, units, confidence and seed.</param>
    /// <param name="charts">Run length, weight and the rest; the defaults when left out.</param>
    public static SpotterCharts Of(IReadOnlyList<Landing> landings, AccuracyOptions options, ChartOptions? charts = null)
    {
        charts ??= new ChartOptions();
        var limits = new ChartLimits(charts);
        var known = landings.Where(l => l.Drop.Spotter is not null).ToList();
        var groups = known.GroupBy(l => l.Drop.Spotter!).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => (Spotter: g.Key, Landings: g.ToList(), Missions: g.Select(l => l.Drop.Mission).Distinct().Count())).ToList();
        var spotters = groups.Where(g => g.Missions >= FewestMissions).AsParallel().AsOrdered().Select(g =>
        {
            var made = MissCharts.Of(g.Landings, [.. known.Where(l => l.Drop.Spotter != g.Spotter)], options, charts, limits,
                "spotter " + g.Spotter);
            return (Made: made, Looks: made.LooksTaken.ToList());
        }).ToList();
        return new SpotterCharts([.. spotters.Select(s => s.Made)],
            [.. groups.Where(g => g.Missions < FewestMissions).Select(g => g.Spotter)], charts,
            new Looks([.. spotters.SelectMany(s => s.Looks)]));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var charts = Spotters.SelectMany(s => s.Made).ToList();
            if (charts.Count == 0) return Spotters.Count == 0
                ? $"No spotter has {FewestMissions} missions to chart." : $"No chart can be made: {Spotters[0].All[0].Reason}.";
            var signalled = charts.Count(c => c.Signals.Count > 0);
            var who = Spotters.Where(s => s.Found.Count > 0).ToList();
            return $"{Rounding.Count(charts.Count, "chart")} of {Rounding.Count(Spotters.Count, "spotter")}, "
                + $"{Rounding.Count(Spotters.Sum(s => s.Missions), "mission")} in all: "
                + $"{signalled} {(signalled == 1 ? "passes" : "pass")} a limit; if nothing differed and nothing had changed, about "
                + $"{Rounding.Fixed(ExpectedFalse, 1)} would by chance. After {Rounding.Count(Looks.Count, "look")} (Holm, "
                + $"{Rounding.Percent(1 - Spotters[0].Options.Confidence)} level) "
                + (who.Count == 0 ? "none is beyond chance. " : $"beyond chance: {string.Join("; ", who.Select(Words))}. ")
                + "That is a reason to look at the missions, and no verdict over anyone.";

            static string Words(MissCharts s) =>
                $"{s.Name} ({string.Join(", ", s.Found.SelectMany(c => c.Signals).Select(x => x.Direction).Distinct())})";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
        TooFew.Count == 0 ? [] : [$"Not charted, with fewer than {FewestMissions} missions: {string.Join(", ", TooFew)}."];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
        [ChartTables.Charts(Spotters, true), ChartTables.Signals(Spotters, true), ChartTables.Points(Spotters, true)];
}
