namespace JumpAnalytics;

/// <summary>
/// Which sources explain the misses of the record, and which to improve first: the variance of landing misses split over what jumpers of a mission or pass share, what grows with drift, age, speed and
/// wind, and what is a jumper's own.
/// </summary>
/// <remarks>
/// Likelihood by <see cref="VarianceFit"/>; intervals by resampling missions, one scoring step each. Sources are what a log can tell apart, not causes: steering has taken most of the forecast's error
/// out of a landing, so that shares are of what it left. Far landings, which no normal holds, count to the jumpers.
/// </remarks>
public sealed class ErrorDecomposition : ShownResult
{
    /// <summary>Correlation of two estimates from which they are called hard to tell apart.</summary>
    private const double HardToTell = 0.7;

    /// <summary>Resamples for which the hit rates of the improvements are computed.</summary>
    private const int RateResamples = 200;

    private ErrorDecomposition(AccuracyOptions options) => Options = options;

    /// <summary>Units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>One source.</summary>
    /// <param name="Name">The source.</param>
    /// <param name="SharedBy">Who shares it: mission, pass or jumper.</param>
    /// <param name="GrowsWith">What its standard deviation grows with.</param>
    /// <param name="Sd">Standard deviation per axis where that quantity is at its mean, metres.</param>
    /// <param name="Share">Share of the variance of a landing.</param>
    /// <param name="Halved">Change of the hit rate if its variance were halved.</param>
    /// <param name="Removed">Change of the hit rate if it were none.</param>
    /// <param name="LeadsIn">Share of resamples in which halving it helps most.</param>
    public sealed record ErrorSource(string Name, string SharedBy, string GrowsWith, Estimate Sd, Estimate Share, Estimate Halved, Estimate Removed, double LeadsIn);

    /// <summary>The sources; null with the reason when the records can't tell them.</summary>
    public required Fit<IReadOnlyList<ErrorSource>> Sources { get; init; }

    /// <summary>Hit rate of the fitted model.</summary>
    public double ModelRate { get; private init; }

    /// <summary>Hit rate counted over the same landings.</summary>
    public double CountedRate { get; private init; }

    /// <summary>Missions.</summary>
    public int Missions { get; private init; }

    /// <summary>Landings with a known place.</summary>
    public int Landings { get; private init; }

    /// <summary>Pairs of sources that the records hardly tell apart.</summary>
    public IReadOnlyList<string> Alike { get; private init; } = [];

    /// <summary>Splits the variance.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    public static ErrorDecomposition Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var placed = landings.Where(l => l.MissDownwind is not null).ToList();
        var missions = placed.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g]).ToList();
        if (missions.Count < 20) return new ErrorDecomposition(options) { Sources = Fit<IReadOnlyList<ErrorSource>>.Refused($"{Rounding.Count(missions.Count, "mission")} are too few to tell sources apart; 20 or more are needed"), Missions = missions.Count, Landings = placed.Count };
        var shapes = SourceShape.Of(placed);
        var fit = VarianceFit.Of(missions, shapes);
        var rates = new SourceRates(placed, shapes, fit.Mean);
        var (sds, shares, halved, removed, leads) = (Lists(), Lists(), Lists(), Lists(), new int[shapes.Count]);
        var draws = new int[missions.Count];
        var taken = 0;
        var resampled = new List<double[]>();
        MissionResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, "sources of error"), _ =>
        {
            var variances = fit.Resampled(draws);
            for (var k = 0; k < shapes.Count; k++) sds[k].Add(Math.Sqrt(variances[k]));
            var of = rates.Shares(variances);
            for (var k = 0; k < shapes.Count; k++) shares[k].Add(of[k]);
            if (taken++ < RateResamples) resampled.Add(variances);
        });
        var changes = resampled.AsParallel().AsOrdered().Select(rates.Changes).ToList();
        foreach (var (half, gone) in changes)
        {
            for (var k = 0; k < shapes.Count; k++)
            {
                halved[k].Add(half[k]);
                removed[k].Add(gone[k]);
            }
            leads[Array.IndexOf(half, half.Max())]++;
        }
        var (now, share, here) = (fit.Variances, rates.Shares(fit.Variances), rates.Changes(fit.Variances));
        return new ErrorDecomposition(options)
        {
            Sources = Fit<IReadOnlyList<ErrorSource>>.Made([.. shapes.Select((s, k) => new ErrorSource(s.Name, s.Level.ToString().ToLowerInvariant(), s.GrowsWith,
                Around(Math.Sqrt(now[k]), sds[k]), Around(share[k], shares[k]), Around(here.Halved[k], halved[k]), Around(here.Removed[k], removed[k]), (double)leads[k] / changes.Count))]),
            ModelRate = rates.Rate(fit.Variances), CountedRate = placed.Average(l => l.Outcome == LandingOutcome.Hit ? 1.0 : 0), Missions = missions.Count, Landings = placed.Count, Alike = Pairs(fit, shapes),
        };

        List<double>[] Lists() => [.. shapes.Select(_ => new List<double>())];

        Estimate Around(double value, List<double> drawn)
        {
            double[] sorted = [.. drawn.Order()];
            double At(double p) => MathNet.Numerics.Statistics.SortedArrayStatistics.QuantileCustom(sorted, p, MathNet.Numerics.Statistics.QuantileDefinition.R8);
            return Estimate.Of(value, new Interval(At((1 - options.Confidence) / 2), At((1 + options.Confidence) / 2)));
        }
    }

    private static List<string> Pairs(VarianceFit fit, IReadOnlyList<SourceShape> shapes)
    {
        var covariance = fit.Information.PseudoInverse();
        return [.. from k in Enumerable.Range(0, shapes.Count)
                   from l in Enumerable.Range(0, k)
                   let r = covariance[k, l] / Math.Sqrt(covariance[k, k] * covariance[l, l])
                   where Math.Abs(r) > HardToTell
                   select $"{shapes[l].Name} and {shapes[k].Name} are hard to tell apart (correlation of the estimates {Rounding.Fixed(r, 2)}): take them together."];
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Sources.Success) return $"The misses can't be split over sources: {Sources.Reason}.";
            var (largest, first) = (Sources.Value.MaxBy(s => s.Share.Value)!, Sources.Value.MaxBy(s => s.Halved.Value)!);
            var second = Sources.Value.Where(s => s != first).MaxBy(s => s.Halved.Value)!;
            return $"Of the variance of landing misses ({Rounding.Count(Missions, "mission")}, {Rounding.Count(Landings, "landing")}), {Rounding.Percent(largest.Share)} goes with the {largest.Name}. "
                + $"Halving the variance of the {first.Name} would help most: {Rounding.Points(first.Halved)} points of hit rate; it leads in {Rounding.Percent(first.LeadsIn)} of resamples, "
                + (first.LeadsIn >= Options.Confidence ? "so it is told apart from the others." : $"so it is not told apart from the {second.Name} ({Rounding.Points(second.Halved)}).");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => !Sources.Success ? [] :
    [
        .. Alike.Select(Rounding.Capital),
        $"The fitted model gives a hit rate of {Rounding.Percent(ModelRate)} where {Rounding.Percent(CountedRate)} were counted: far landings, which no normal holds, make it low. Read the changes, not the level.",
        "These are sources of the miss that steering left, not of the forecast's own error, most of which a jumper flies off; only descent tracks tell that.",
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => !Sources.Success ? [] :
    [
        new("error-sources", "Where the variance of landing misses comes from",
            [Columns.SourceName, Columns.SharedBy, Columns.GrowsWith, Columns.DistanceRange("source_sd", "sd per axis", Options.Units.Distance, "Standard deviation per axis where that quantity is at its mean."), Columns.ShareOfVariance],
            [.. Sources.Value.Select(s => new object?[] { s.Name, s.SharedBy, s.GrowsWith, s.Sd.Select(Options.Units.Distance.FromSi), s.Share })],
            $"{Rounding.Count(Missions, "mission")}, {Rounding.Count(Landings, "landing")}; {Rounding.Percent(Options.Confidence)} intervals by resampling missions. Known errors of measuring are taken out first."),
        new("source-improvements", "What to improve first", [Columns.SourceName, Columns.RateIfHalved, Columns.RateIfRemoved, Columns.LeadsIn],
            [.. Sources.Value.OrderByDescending(s => s.Halved.Value).Select(s => new object?[] { s.Name, s.Halved, s.Removed, s.LeadsIn })],
            $"Changes of the hit rate by the fitted model, {Rounding.Percent(Options.Confidence)} intervals over {RateResamples} resamples of missions; leads: share of them in which halving this one helps most."),
    ];
}
