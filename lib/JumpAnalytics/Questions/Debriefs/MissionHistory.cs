namespace JumpAnalytics;

/// <summary>
/// What the same base flew before a mission, in the same wind band on the same terrain. Where that is fewer than
/// <see cref="FewestMissions"/> missions the terrain is left open, then the band too, and the words say so.
/// </summary>
internal sealed class MissionHistory
{
    /// <summary>Fewest earlier missions for a comparison: below five no interval between missions is worth the name.</summary>
    public const int FewestMissions = 5;

    private readonly IReadOnlyList<Landing> _earlier;
    private readonly LogDescents _descents;
    private readonly AccuracyOptions _options;

    private MissionHistory(IReadOnlyList<Landing> earlier, LogDescents descents, AccuracyOptions options) =>
        (_earlier, _descents, _options) = (earlier, descents, options);

    public static MissionHistory Before(IReadOnlyList<Drop> mission, LogDescents descents, AccuracyOptions options)
    {
        var first = mission.InTime().First();
        var place = mission[0].Base;
        return new MissionHistory([.. descents.Log.Landings.Where(l =>
            l.Drop.Base == place && l.Drop.Mission != mission[0].Mission && l.Drop.IsBefore(first))], descents, options);
    }

    /// <summary>Miss distances, metres.</summary>
    public HistoryRank Miss(Drop drop, double value) => Rank(drop, value, l => l.MissDistance);

    /// <summary>Lengths of the exit placements of whole sticks: of their middle, metres.</summary>
    public HistoryRank ExitPlacement(Drop drop, double value) =>
        RankOfPasses(drop, value, l => l.Miss is null ? null : _descents.BudgetOf(l).ExitPlacement.Vector);

    /// <summary>Lengths of forecast errors that tracks parted from the steering, mean of each pass, metres.</summary>
    public HistoryRank ForecastError(Drop drop, double value) =>
        RankOfPasses(drop, value, l => l.Miss is null ? null : _descents.BudgetOf(l).ForecastError.Vector);

    /// <summary>Ages of forecasts at exit, seconds; one for each pass.</summary>
    public HistoryRank StreamerAge(Drop drop, double value) => Rank(drop, value, l => l.Drop.StreamerAge, eachPass: true);

    /// <summary>
    /// Landings inside the target radius in the same conditions, and those conditions in words; null with too few missions.
    /// </summary>
    public (ClusteredProportion? Rate, string ComparedWith) Hits(Drop drop)
    {
        var (landings, words) = Like(drop, l => l.Outcome != LandingOutcome.Undecided);
        var missions = landings.GroupBy(l => l.Drop.Mission).ToList();
        return missions.Count < FewestMissions ? (null, words)
            : (ClusteredProportion.Of([.. missions.Select(m => m.Count(l => l.Outcome == LandingOutcome.Hit))],
                [.. missions.Select(m => m.Count())], _options.Confidence), words);
    }

    private HistoryRank Rank(Drop drop, double value, Func<Landing, double?> of, bool eachPass = false)
    {
        var (landings, words) = Like(drop, l => of(l) is not null);
        var cases = eachPass ? landings.DistinctBy(l => l.Drop.Id) : landings;
        return HistoryRank.Of(value, [.. cases.Select(l => new PastValue(l.Drop.Mission, of(l)!.Value))], words, _options.Confidence);
    }

    /// <summary>Lengths of the mean vectors of earlier passes.</summary>
    private HistoryRank RankOfPasses(Drop drop, double value, Func<Landing, LocalVector?> of)
    {
        var vectors = new Dictionary<Landing, LocalVector?>(ReferenceEqualityComparer.Instance);
        LocalVector? Once(Landing landing) => vectors.TryGetValue(landing, out var known) ? known : vectors[landing] = of(landing);
        var (landings, words) = Like(drop, l => Once(l) is not null);
        return HistoryRank.Of(value, [.. landings.GroupBy(l => l.Drop.Id).Select(g => new PastValue(g.First().Drop.Mission,
            (1.0 / g.Count() * g.Select(l => Once(l)!.Value).Aggregate((a, b) => a + b)).Length))], words, _options.Confidence);
    }

    private (IReadOnlyList<Landing> Landings, string Words) Like(Drop drop, Func<Landing, bool> known)
    {
        var cell = Cell.Of(drop, _options.Bands);
        var band = new Cell(cell.WindBand, Cell.Any);
        var all = _earlier.Where(known).ToList();
        foreach (var (same, words) in new[] { (cell, cell.Words(_options.Bands)), (band, $"{band.Words(_options.Bands)}, any ground") })
        {
            var like = all.Where(l => same.Holds(l.Drop, _options.Bands)).ToList();
            if (like.Select(l => l.Drop.Mission).Distinct().Take(FewestMissions).Count() == FewestMissions) return (like, words);
        }
        return (all, "any wind, any ground");
    }
}
