namespace JumpAnalytics;

/// <summary>The learning curves of every spotter: did misses change with the missions flown?</summary>
/// <remarks>Spotters are ordered by code. Usual distances are those of all landings, the spotter's own among them.</remarks>
public sealed class LearningCurves : ShownResult
{
    private LearningCurves(IReadOnlyList<LearningCurve> spotters, AccuracyOptions options) => (Spotters, Options) = (spotters, options);

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
                + $"shorter with the missions flown for {Named(told.Where(s => PowerLaw(s).Factor.Range?.High < 1))} "
                + $"and longer for {Named(told.Where(s => PowerLaw(s).Factor.Range?.Low > 1))}; for the others it can't be told. "
                + $"If none had changed, about {Rounding.Fixed((1 - Options.Confidence) * told.Count, 1)} would show a change by chance. "
                + "The curve tells of records and not of why: other missions, canopies or streamers change it as well.";

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
