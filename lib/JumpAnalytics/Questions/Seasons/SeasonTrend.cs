namespace JumpAnalytics;

/// <summary>One season against the one before, as flown and with the mix of cells held fixed.</summary>
/// <param name="From">The earlier season.</param>
/// <param name="To">The later season.</param>
/// <param name="AsFlown">Change of the plain rate; null when one of the two has no interval.</param>
/// <param name="MissionsFrom">Missions of the earlier season in the cells compared.</param>
/// <param name="LandingsFrom">Landings of the earlier season in the cells compared.</param>
/// <param name="MissionsTo">Missions of the later season in the cells compared.</param>
/// <param name="LandingsTo">Landings of the later season in the cells compared.</param>
/// <param name="SameMix">Change of the rate standardised to one mix of cells, or why there is none.</param>
/// <param name="Covered">Share of the reference mix that the cells compared hold.</param>
[TypeFormatterSource]
public sealed record TrendStep(
    string From, string To, Estimate? AsFlown, int MissionsFrom, int LandingsFrom, int MissionsTo, int LandingsTo,
    Fit<Estimate> SameMix, double Covered);

/// <summary>Whether the landing rate moved from season to season when winds and terrains flown are held fixed.</summary>
/// <remarks>
/// Direct standardisation (Fleiss, Levin and Paik 2003, chapter 19): the rate of each cell of wind band and terrain weighted by that cell's
/// share of all landings of the log. Only cells with two or more missions in both seasons are compared, since a single mission says nothing
/// of chance. Variance: linearised, between missions within each cell, m/(m − 1) for the m missions of a cell, because a rate is taken from
/// each; a mission with landings in two cells counts as one. Seasons share no mission and their variances add; t with Satterthwaite's
/// degrees of freedom, m − 1 from each cell of each season. How often it errs is in tests/EVIDENCE.md.
/// </remarks>
public sealed class SeasonTrend : ShownResult
{
    private const int FewestMissions = 2;

    private SeasonTrend(IReadOnlyList<TrendStep> steps, Fit<SeasonDrift> drift, AccuracyOptions options) =>
        (Steps, Drift, Options) = (steps, drift, options);

    /// <summary>Each season against the one before it.</summary>
    public IReadOnlyList<TrendStep> Steps { get; }

    /// <summary>Whether the rate drifts over all seasons, or why it can't be said.</summary>
    public Fit<SeasonDrift> Drift { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Compares seasons.</summary>
    /// <param name="landings">Landings of two or more seasons.</param>
    /// <param name="options">Bands and confidence.</param>
    public static SeasonTrend Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var decided = landings.Where(l => l.Outcome != LandingOutcome.Undecided)
            .Select(l => new Case(l.Drop.Season, l.Drop.Mission, Cell.Of(l.Drop, options.Bands), l.Outcome == LandingOutcome.Hit)).ToList();
        var mix = decided.GroupBy(c => c.Cell).ToDictionary(g => g.Key, g => (double)g.Count() / decided.Count);
        var seasons = decided.GroupBy(c => c.Season).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => (Season: g.Key, Cases: g.ToList())).ToList();
        return new SeasonTrend([.. seasons.Zip(seasons.Skip(1), (from, to) => Step(from.Cases, to.Cases, mix, landings, options))],
            SeasonDrift.Of([.. seasons.Select(s => (s.Season, MissionSample.Of(landings.Where(l => l.Drop.Season == s.Season))))],
                options.Confidence), options);
    }

    private sealed record Case(string Season, string Mission, Cell Cell, bool Hit);

    private static TrendStep Step(
        List<Case> from, List<Case> to, Dictionary<Cell, double> mix, IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var cells = Told(from).Intersect(Told(to)).ToHashSet();
        var covered = cells.Sum(c => mix[c]);
        var weights = cells.ToDictionary(c => c, c => mix[c] / covered);
        var (before, after) = (Standardised(from, weights), Standardised(to, weights));
        var change = cells.Count == 0
            ? Fit<Estimate>.Refused($"no cell has {FewestMissions} missions in both seasons")
            : Fit<Estimate>.Made(Difference(before, after, options.Confidence));
        var (plainFrom, plainTo) = (Plain(from[0].Season), Plain(to[0].Season));
        var asFlown = plainFrom.Range is not null && plainTo.Range is not null ? RateDifference.Between(plainFrom, plainTo) : null;
        return new TrendStep(from[0].Season, to[0].Season, asFlown, before.Missions, before.Landings,
            after.Missions, after.Landings, change, covered);

        Estimate Plain(string season) =>
            MissionSample.Of(landings.Where(l => l.Drop.Season == season)).CountedRate(options.Confidence).Value!.Rate;
    }

    private static IEnumerable<Cell> Told(List<Case> cases) =>
        cases.GroupBy(c => c.Cell).Where(g => g.Select(c => c.Mission).Distinct().Count() >= FewestMissions).Select(g => g.Key);

    private sealed record Standard(double Rate, double Variance, IReadOnlyList<(double Variance, int Missions)> Cells, int Missions,
        int Landings);

    /// <summary>The rate at the reference mix and its variance between missions, as a whole and by cell.</summary>
    private static Standard Standardised(List<Case> cases, Dictionary<Cell, double> weights)
    {
        var used = cases.Where(c => weights.ContainsKey(c.Cell)).ToList();
        var (rate, moves, parts) = (0.0, new Dictionary<string, double>(StringComparer.Ordinal), new List<(double, int)>());
        foreach (var cell in used.GroupBy(c => c.Cell))
        {
            var (weight, landings, mean) = (weights[cell.Key], cell.Count(), cell.Average(c => c.Hit ? 1.0 : 0));
            var own = cell.GroupBy(c => c.Mission).ToDictionary(m => m.Key, m => weight * m.Sum(c => (c.Hit ? 1 : 0) - mean) / landings);
            var widened = Math.Sqrt(own.Count / (own.Count - 1.0));
            foreach (var (mission, move) in own) moves[mission] = moves.GetValueOrDefault(mission) + widened * move;
            rate += weight * mean;
            parts.Add((widened * widened * own.Values.Sum(m => m * m), own.Count));
        }
        return new Standard(rate, moves.Values.Sum(m => m * m), parts, moves.Count, used.Count);
    }

    private static Estimate Difference(Standard before, Standard after, double confidence)
    {
        var (change, variance) = (after.Rate - before.Rate, before.Variance + after.Variance);
        if (!(variance > 1e-20)) return Estimate.WithoutRange(change, "every mission of both seasons had the same rate in its cell");
        List<(double Variance, int Missions)> cells = [.. before.Cells, .. after.Cells];
        var all = cells.Sum(c => c.Variance);
        var freedom = all * all / cells.Sum(c => c.Variance * c.Variance / (c.Missions - 1));
        var half = QuantileOf.T(freedom, TailShare.Middle(confidence)) * Math.Sqrt(variance);
        return Estimate.Of(change, new Interval(change - half, change + half));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Steps.LastOrDefault() is not { } last) return "There is no pair of seasons to compare.";
            return StepWords(last) + (Drift.Value is { } drift ? $" {drift.Sentence}" : "");
        }
    }

    private string StepWords(TrendStep last)
    {
        if (!last.SameMix.Success)
            return $"From {last.From} to {last.To} the mix of winds and terrains can't be held fixed: {last.SameMix.Reason}.";
        var change = last.SameMix.Value;
        return "With the mix of wind bands and terrains held fixed, "
            + $"the landing rate changed by {Rounding.Points(change)} points from {last.From} to {last.To} "
            + $"({last.MissionsFrom} against {last.MissionsTo} missions, {Rounding.Count(last.LandingsFrom)} against "
            + $"{Rounding.Count(last.LandingsTo, "landing")}; the cells compared hold {Rounding.Percent(last.Covered)} of all landings)"
            + (last.AsFlown is { } flown ? $"; as flown, by {Rounding.Points(flown)}" : "") + $". {Meaning(change)}";
    }

    private static string Meaning(Estimate change) => change.Range switch
    {
        null => "It has no interval.",
        { Low: > 0 } => "That is a rise beyond chance, and not one of easier winds or ground.",
        { High: < 0 } => "That is a fall beyond chance, and not one of harder winds or ground.",
        _ => "That is not clearly different from no change.",
    };

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<TrendStep>("season-trend", "Season against season, winds and terrains held fixed", Steps,
            $"Intervals at {Rounding.Percent(Options.Confidence)}. "
            + "Same mix: the rate of each cell of wind band and terrain weighted by its share "
            + $"of all landings of the log; only cells with {FewestMissions} or more missions in both seasons.")
        {
            { Columns.SeasonFrom, s => s.From },
            { Columns.SeasonTo, s => s.To },
            { Columns.MissionsFrom, s => s.MissionsFrom },
            { Columns.LandingsFrom, s => s.LandingsFrom },
            { Columns.MissionsTo, s => s.MissionsTo },
            { Columns.LandingsTo, s => s.LandingsTo },
            { Columns.Change, s => s.AsFlown },
            { Columns.ChangeSameMix, s => s.SameMix.Value },
            { Columns.MixCovered, s => s.Covered },
            { Columns.Note, s => s.SameMix.Reason ?? s.SameMix.Value!.WhyNoRange },
        },
        .. Drift.Value is { } drift ? (IReadOnlyList<TableView>)[drift.Table(Options)] : [],
    ];
}
