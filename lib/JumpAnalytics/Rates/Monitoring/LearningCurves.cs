namespace JumpAnalytics;

/// <summary>The learning curves of every spotter: did misses change with the missions flown?</summary>
/// <remarks>Spotters are ordered by code. Usual distances are those of all landings, the spotter's own among them.</remarks>
public sealed class LearningCurves : ShownResult
{
    private LearningCurves(IReadOnlyList<LearningCurve> spotters, AccuracyOptions options, Looks? looks = null)
    {
        (Spotters, Options) = (spotters, options);
        Looks = looks ?? new Looks([.. LooksTaken]);
    }

    /// <summary>The looks that the curves are held together with: those of all spotters unless they are part of a review.</summary>
    internal Looks Looks { get; }

    /// <summary>The looks of these curves.</summary>
    internal IEnumerable<Look> LooksTaken =>
        Spotters.Where(s => s.PValue is not null).Select(s => new Look(s.Name, Learning, s.PValue!.Value));

    /// <summary>The same curves held together with other looks.</summary>
    internal LearningCurves HeldTogether(Looks looks) => new(Spotters, Options, looks);

    private const string Learning = "learning";

    /// <summary>One for each spotter, by code.</summary>
    public IReadOnlyList<LearningCurve> Spotters { get; }

    /// <summary>Confidence of the intervals.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Fits a curve for each spotter.</summary>
    /// <param name="landings">Landings of the base; those without a spotter's code only say how far misses usually are.</param>
    /// <param name="options">Bands, units and confidence.</param>
    /// <param name="charts">What counts as a restart; the defaults when left out.</param>
    public static LearningCurves Of(IReadOnlyList<Landing> landings, AccuracyOptions options, ChartOptions? charts = null) =>
        new([.. landings.Where(l => l.Drop.Spotter is not null).GroupBy(l => l.Drop.Spotter!).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => LearningCurve.Of([.. g], landings, options, charts, g.Key))], options);

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var told = Spotters.Where(s => s.Fits.Success).ToList();
            if (told.Count == 0) return "Whether misses changed with the missions flown can't be told: "
                + $"no spotter has {LearningCurve.FewestMissions} missions with a distance since the last restart.";
            return $"Of {Rounding.Count(told.Count, "spotter")} with {LearningCurve.FewestMissions} "
                + $"missions or more since the last restart ({Rounding.Count(told.Sum(s => s.Missions), "mission")}, "
                + $"{Rounding.Count(told.Sum(s => s.Landings), "landing")}) misses became "
                + $"shorter with the missions flown for {Named(told.Where(s => Found(s) && PowerLaw(s).Factor.Range?.High < 1))} "
                + $"and longer for {Named(told.Where(s => Found(s) && PowerLaw(s).Factor.Range?.Low > 1))} beyond chance after "
                + $"{Rounding.Count(Looks.Count, "look")} (Holm, {Rounding.Percent(1 - Options.Confidence)} level); "
                + "for the others no change is clear. "
                + "The curve tells of records and not of why: other missions, canopies or streamers change it as well.";

            bool Found(LearningCurve curve) => Looks.Found(curve.Name, Learning, Options.Confidence);

            static string Named(IEnumerable<LearningCurve> spotters) =>
                string.Join(", ", spotters.Select(s => s.Name)) is { Length: > 0 } names ? names : "none";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<LearningCurve>("spotter-learning", "Miss distance along the missions of each spotter", Spotters,
            "Typical miss distance at the last mission over that at the first, by a power law, winds and terrains allowed for; intervals "
            + $"at {Rounding.Percent(Options.Confidence)}, between missions, by profile likelihood. Shape: the one Akaike's criterion "
            + "prefers, often by little. "
            + "Missions to tell: missions in all that would tell distances a fifth shorter from no change, half of the time.")
        {
            { Columns.SpotterCode, s => s.Name }, { Columns.Missions, s => s.Missions }, { Columns.Landings, s => s.Landings },
            { Columns.LastOverFirst, s => s.Fits.Success ? PowerLaw(s).Factor : null },
            { Columns.CurveShape, s => s.Fits.Value is { } fits ? LearningCurve.Words(fits.MinBy(f => f.Aicc)!.Shape) : null },
            { Columns.MissionsToTellCurve, s => s.MissionsToTell },
            { Columns.Note, s => s.Fits.Reason ?? (s.CountedSince is { } since ? $"counted since {since}" : null) },
        },
    ];

    private static LearningFit PowerLaw(LearningCurve curve) => curve.Fits.Value![(int)LearningShape.PowerLaw];
}
