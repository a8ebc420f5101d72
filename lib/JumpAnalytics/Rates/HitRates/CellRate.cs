namespace JumpAnalytics;

/// <summary>How a rate stands to the benchmark, by its confidence interval.</summary>
public enum BenchmarkVerdict
{
    /// <summary>No interval, or the benchmark lies inside it.</summary>
    CannotTell,

    /// <summary>The whole interval lies above the benchmark.</summary>
    Above,

    /// <summary>The whole interval lies below the benchmark.</summary>
    Below,
}

/// <summary>The hit rate of one cell of wind band and terrain, or of a margin of the table.</summary>
[TypeFormatterSource]
public sealed record CellRate
{
    /// <summary>Missions below which a rate is marked as resting on few.</summary>
    public const int FewMissions = 5;

    private const double LeastConfidence = 0.1;

    /// <summary>The cell or margin.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
    public string WindBand => Cell.WindBand;

    /// <summary>Terrain class, or <see cref="Cell.Any"/>.</summary>
    public string Terrain => Cell.Terrain;

    /// <summary>Missions with a landing told a hit or a miss.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings told a hit or a miss.</summary>
    public required int Landings { get; init; }

    /// <summary>Hits among them.</summary>
    public required int Hits { get; init; }

    /// <summary>Landings among <see cref="Landings"/> whose place is unknown but beyond the target radius: misses.</summary>
    public required int BeyondMisses { get; init; }

    /// <summary>Landings left out because they are known only as beyond a distance shorter than the target radius.</summary>
    public required int Undecided { get; init; }

    /// <summary>Least and greatest target radius of those landings, metres; null without landings.</summary>
    public required Interval? TargetRadii { get; init; }

    /// <summary>The counted rate with an interval that respects missions.</summary>
    public required Fit<ClusteredProportion> Counted { get; init; }

    /// <summary>The bivariate normal fitted to the cell's misses.</summary>
    public required Fit<BivariateNormal> Model { get; init; }

    /// <summary>The rate the normal implies, with an interval from the mission bootstrap.</summary>
    public required Fit<Estimate> ModelRate { get; init; }

    /// <summary>
    /// The cell in a logistic mixed model of all cells: its partially pooled rate and how strongly it was pulled; null for a margin of the
    /// table and for a cell without landings.
    /// </summary>
    public PooledCell? Pooled { get; init; }

    /// <summary>Whether the cell or margin is withheld because of few people: it then holds no number.</summary>
    public bool IsWithheld { get; private init; }

    /// <summary>How the counted rate stands to the benchmark.</summary>
    public required BenchmarkVerdict Verdict { get; init; }

    /// <summary>Whether the rate that the fitted normal implies lies outside the interval of the counted rate.</summary>
    public bool NormalFitsBadly => Counted.Value?.Rate.Range is { } range && ModelRate.Value is { } model && !range.Contains(model.Value);

    /// <summary>
    /// Whether the cell is worse than its band and its terrain say, in a cell of enough missions: its landings give their rate a
    /// confidence below 10 %, and the pooled rate, which is drawn towards it, reads too high. The counted rate is the one to quote. How
    /// often this comes up, rightly and wrongly, is in tests/EVIDENCE.md.
    /// </summary>
    public bool PooledContradicted => Counted.Value is { } counted && Pooled is { } pooled && Contradicts(counted, pooled);

    /// <summary>Whether the landings of a cell lie below what its band and its terrain say.</summary>
    internal static bool Contradicts(ClusteredProportion counted, PooledCell pooled) =>
        counted.Missions >= FewMissions && pooled is { ModelRate.Value: { } model, Rate.Value: { } drawn }
        && drawn.Value > counted.Rate.Value && counted.AtLeast(model.Value) < LeastConfidence;

    /// <summary>Whether this is a margin of the table and not a cell.</summary>
    public bool IsMargin => Cell.IsMargin;

    /// <summary>What a reader must know beside the numbers; empty when there is nothing.</summary>
    public string Note
    {
        get
        {
            if (!Counted.Success) return Undecided > 0 ? $"{Counted.Reason} ({Undecided} undecided)" : Counted.Reason;
            var notes = new List<string>();
            if (Counted.Value.Rate.WhyNoRange is { } why) notes.Add("no interval: " + why);
            else if (Missions < FewMissions) notes.Add($"only {Missions} missions");
            if (BeyondMisses > 0) notes.Add($"{BeyondMisses} beyond");
            if (Undecided > 0) notes.Add($"{Undecided} undecided");
            if (PooledContradicted) notes.Add("worse than band and terrain say: the pooled rate would read too high and is left out");
            if (NormalFitsBadly) notes.Add("normal fits badly");
            if (Missions >= FewMissions && Counted.Value.Caution is { } caution) notes.Add(caution);
            if (!ModelRate.Success) notes.Add("no model rate: " + ModelRate.Reason);
            return string.Join("; ", notes);
        }
    }

    /// <summary>A cell or margin of which nothing is told.</summary>
    internal static CellRate Withheld(Cell cell)
    {
        const string why = "withheld: few people";
        return new CellRate
        {
            Cell = cell, IsWithheld = true, Missions = 0, Landings = 0, Hits = 0, BeyondMisses = 0, Undecided = 0, TargetRadii = null,
            Counted = Fit<ClusteredProportion>.Refused(why), Model = Fit<BivariateNormal>.Refused(why),
            ModelRate = Fit<Estimate>.Refused(why),
            Verdict = BenchmarkVerdict.CannotTell,
        };
    }

    internal static CellRate Of(Cell cell, IEnumerable<Landing> landings, AccuracyOptions options)
    {
        var sample = MissionSample.Of(landings);
        var counted = sample.CountedRate(options.Confidence);
        var (model, modelRate) = NormalRate.Of(sample, options, $"model rate of {cell.WindBand} / {cell.Terrain}");
        return new CellRate
        {
            Cell = cell,
            Missions = counted.Value?.Missions ?? 0,
            Landings = counted.Value?.Landings ?? 0,
            Hits = counted.Value?.Hits ?? 0,
            BeyondMisses = sample.BeyondMisses,
            Undecided = sample.Count(LandingOutcome.Undecided),
            TargetRadii = sample.Landings.Count == 0 ? null
                : new Interval(sample.Landings.Min(l => l.Drop.TargetRadius), sample.Landings.Max(l => l.Drop.TargetRadius)),
            Counted = counted, Model = model, ModelRate = modelRate,
            Verdict = VerdictOn(counted.Value?.Rate.Range, options.Benchmark),
        };
    }

    internal static BenchmarkVerdict VerdictOn(Interval? range, double benchmark) =>
        range is not { } r ? BenchmarkVerdict.CannotTell
        : r.Low > benchmark ? BenchmarkVerdict.Above
        : r.High < benchmark ? BenchmarkVerdict.Below
        : BenchmarkVerdict.CannotTell;
}
