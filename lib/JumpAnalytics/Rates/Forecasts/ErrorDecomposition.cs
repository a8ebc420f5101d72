namespace JumpAnalytics;

/// <summary>
/// Which sources explain the misses of the record, and which to improve first: the variance of landing misses split over what jumpers of a
/// mission or pass share, what grows with drift, age, speed and wind, and what is a jumper's own.
/// </summary>
/// <remarks>
/// Likelihood by <see cref="VarianceFit"/>; intervals by resampling missions, one scoring step each. Sources are what a log can separate
/// (<see cref="SourceShapes"/>), not causes: steering has taken most of the forecast's error out of a landing, so that shares are of what
/// it left. Far landings, which no normal holds, are a source of their own: beyond <see cref="FarFrom"/> times the median distance lie 2 in
/// 10,000 of a round normal, and in records some in a hundred. The variances are those of the others, and the hit rate is that of the
/// others times their share.
/// </remarks>
public sealed class ErrorDecomposition : ShownResult
{
    /// <summary>Correlation of two estimates from which they are called hard to tell apart.</summary>
    private const double HardToTell = 0.7;

    /// <summary>Difference of hit rates from which one is the larger.</summary>
    private const double Tie = 1e-9;

    /// <summary>Times the median miss distance from which a landing counts as far.</summary>
    public const double FarFrom = 3.5;

    /// <summary>Resamples for which the hit rates of the improvements are computed.</summary>
    private const int RateResamples = 200;

    private ErrorDecomposition(AccuracyOptions options) => Options = options;

    /// <summary>Units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>One source.</summary>
    /// <param name="Name">The source.</param>
    /// <param name="SharedBy">Who shares it: mission, pass or jumper; several where the log cannot separate them.</param>
    /// <param name="GrowsWith">What its standard deviation grows with.</param>
    /// <param name="Sd">Standard deviation per axis where that quantity is at its mean, metres.</param>
    /// <param name="Share">Share of the variance of a landing.</param>
    /// <param name="Halved">Change of the hit rate if its variance were halved.</param>
    /// <param name="Removed">Change of the hit rate if it were none.</param>
    /// <param name="LeadsIn">Share of resamples in which halving it helps more than halving any other; nobody leads a tie.</param>
    [TypeFormatterSource]
    public sealed record ErrorSource(string Name, string SharedBy, string GrowsWith, Estimate Sd, Estimate Share,
        Estimate Halved, Estimate Removed, double LeadsIn);

    /// <summary>The sources; null with the reason when the records can't tell them.</summary>
    public required Fit<IReadOnlyList<ErrorSource>> Sources { get; init; }

    /// <summary>Hit rate of the fitted model.</summary>
    public double ModelRate { get; private init; }

    /// <summary>Hit rate counted over the same landings.</summary>
    public double CountedRate { get; private init; }

    /// <summary>Metres from which a landing counts as far.</summary>
    public double Cut { get; private init; }

    /// <summary>Far landings.</summary>
    public int Far { get; private init; }

    /// <summary>Missions.</summary>
    public int Missions { get; private init; }

    /// <summary>Landings with a known place.</summary>
    public int Landings { get; private init; }

    /// <summary>Pairs of sources that the records hardly separate.</summary>
    public IReadOnlyList<string> Alike { get; private init; } = [];

    /// <summary>Sources that the records cannot show, and why.</summary>
    public IReadOnlyList<string> NotSeen { get; private init; } = [];

    /// <summary>Landings with a known place whose error of measuring was not recorded.</summary>
    public int Unmeasured { get; private init; }

    /// <summary>Splits the variance.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    public static ErrorDecomposition Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var placed = landings.Where(l => l.MissDownwind is not null).ToList();
        var missions = placed.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g]).ToList();
        if (missions.Count < 20)
            return Refused($"{Rounding.Count(missions.Count, "mission")} are too few to tell sources apart; 20 or more are needed");
        var cut = FarFrom * MathNet.Numerics.Statistics.Statistics.Median(placed.Select(l => l.Miss!.Value.Length));
        if (!(cut > 0)) return Refused("half of the landings or more are recorded on the spot itself");
        List<IReadOnlyList<Landing>> near =
            [.. missions.Select(m => (IReadOnlyList<Landing>)[.. m.Where(l => l.Miss!.Value.Length <= cut)])];
        var seen = new SourceShapes(placed);
        var shapes = seen.Shapes;
        var fitted = VarianceFit.Of(near, shapes);
        if (!fitted.Success) return Refused(fitted.Reason);
        var fit = fitted.Value;
        var rates = new SourceRates([.. near.SelectMany(m => m)], shapes, fit.Mean);
        var count = shapes.Count + 1; // far landings stand last
        var (sds, shares, halved, removed, leads) = (Lists(count), Lists(count), Lists(count), Lists(count), new int[count]);
        var draws = new int[missions.Count];
        var taken = 0;
        var resampled = new List<(double[] Variances, FarLandings Far)>();
        ClusterResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, "sources of error"), _ =>
        {
            var (variances, far) = (fit.Resampled(draws), FarLandings.Of(missions, draws, cut));
            for (var k = 0; k < shapes.Count; k++) sds[k].Add(Math.Sqrt(variances[k]));
            sds[^1].Add(far.Sd);
            var of = far.Shares(rates.Traces(variances));
            for (var k = 0; k < count; k++) shares[k].Add(of[k]);
            if (taken++ < RateResamples) resampled.Add((variances, far));
        });
        var changes = resampled.AsParallel().AsOrdered()
            .Select(r => r.Far.Changes(rates.Rate(r.Variances), rates.Changes(r.Variances))).ToList();
        foreach (var (half, gone) in changes)
        {
            for (var k = 0; k < count; k++)
            {
                halved[k].Add(half[k]);
                removed[k].Add(gone[k]);
            }
            if (Leader(half) is { } leader) leads[leader]++;
        }
        var beyond = FarLandings.Of(missions, Enumerable.Repeat(1, missions.Count).ToArray(), cut);
        var (rate, share) = (rates.Rate(fit.Variances), beyond.Shares(rates.Traces(fit.Variances)));
        var here = beyond.Changes(rate, rates.Changes(fit.Variances));
        double[] sd = [.. fit.Variances.Select(Math.Sqrt), beyond.Sd];
        IEnumerable<(string Name, string SharedBy, string GrowsWith)> names =
            [.. shapes.Select(s => (s.Name, s.SharedBy, s.GrowsWith)), ("far landings", "jumper", "not known")];
        List<ErrorSource> all = [.. names.Take(beyond.Count > 0 ? count : count - 1).Select((s, k) => new ErrorSource(s.Name, s.SharedBy,
            s.GrowsWith, Around(sd[k], sds[k]), Around(share[k], shares[k]), Around(here.Halved[k], halved[k]),
            Around(here.Removed[k], removed[k]), (double)leads[k] / changes.Count))];
        var found = all.Where(s => s.Share.Range!.Value.High > 0).ToList(); // no record shows nothing to nothing
        if (found.Count == 0) return Refused("the landings hardly differ");
        return new ErrorDecomposition(options)
        {
            Sources = Fit<IReadOnlyList<ErrorSource>>.Made(found),
            Cut = cut, Far = beyond.Count, ModelRate = (1 - beyond.Share) * rate,
            CountedRate = placed.Average(l => l.Outcome == LandingOutcome.Hit ? 1.0 : 0), Missions = missions.Count,
            Landings = placed.Count, Alike = Pairs(fit, shapes), Unmeasured = placed.Count(l => l.MeasuredSd is null),
            NotSeen = [.. seen.Notes, .. all.Except(found).Select(s => $"No {s.Name} was found; that does not prove that there is none.")],
        };

        ErrorDecomposition Refused(string why) => new(options)
        {
            Sources = Fit<IReadOnlyList<ErrorSource>>.Refused(why), Missions = missions.Count, Landings = placed.Count,
        };

        static List<double>[] Lists(int count) => [.. Enumerable.Range(0, count).Select(_ => new List<double>())];

        Estimate Around(double value, List<double> drawn)
        {
            double[] sorted = [.. drawn.Order()];
            double At(double p) => HyndmanFan.OfSorted(sorted, p);
            return Estimate.Of(value, new Interval(At((1 - options.Confidence) / 2), At((1 + options.Confidence) / 2)));
        }
    }

    /// <summary>The place of the largest; null when another is as large.</summary>
    private static int? Leader(double[] changes)
    {
        var (best, second) = (0, -1);
        for (var k = 1; k < changes.Length; k++)
        {
            if (changes[k] > changes[best]) (best, second) = (k, best);
            else if (second < 0 || changes[k] > changes[second]) second = k;
        }
        return second < 0 || changes[best] - changes[second] > Tie ? best : null;
    }

    private static List<string> Pairs(VarianceFit fit, IReadOnlyList<SourceShape> shapes)
    {
        var covariance = fit.Information.PseudoInverse();
        return [.. from k in Enumerable.Range(0, shapes.Count)
                   from l in Enumerable.Range(0, k)
                   let r = covariance[k, l] / Math.Sqrt(covariance[k, k] * covariance[l, l])
                   where Math.Abs(r) > HardToTell
                   select $"{shapes[l].Name} and {shapes[k].Name} are hard to separate (correlation of the estimates "
                       + $"{Rounding.Fixed(r, 2)}): take them together."];
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Sources.Success) return $"The misses can't be split over sources: {Sources.Reason}.";
            var (largest, first) = (Sources.Value.MaxBy(s => s.Share.Value)!, Sources.Value.MaxBy(s => s.Halved.Value)!);
            var second = Sources.Value.Where(s => s != first).MaxBy(s => s.Halved.Value);
            var head = $"Of the variance of landing misses ({Rounding.Count(Missions, "mission")}, {Rounding.Count(Landings, "landing")}), "
                + $"{Rounding.Percent(largest.Share)} goes with {Article(largest.Name)}. ";
            if (first.Halved.Value - (second?.Halved.Value ?? 0) <= Tie)
                return head + "No source would help more than the others if halved.";
            return head + $"Halving {Whose(first.Name)} would help most: {Rounding.Points(first.Halved)} points of hit rate"
                + (second is null ? "."
                    : $"; it leads in {Rounding.Percent(first.LeadsIn)} of resamples" + (first.LeadsIn >= Options.Confidence ? "."
                        : $", so its order with {Article(second.Name)} ({Rounding.Points(second.Halved)}) is open."));
        }
    }

    private static string Article(string name) => name == "far landings" ? name : $"the {name}";

    private static string Whose(string name) => name == "far landings" ? "the number of far landings" : $"the variance of the {name}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => !Sources.Success ? [] :
    [
        .. Alike.Select(Rounding.Capital),
        .. NotSeen,
        .. Unmeasured == 0 ? [] : (IReadOnlyList<string>)[$"No error of measuring was recorded for {Rounding.Count(Unmeasured)} of "
            + $"{Rounding.Count(Landings, "landing")}. It is in the jumper's own part, so that part is too large by it, and no training "
            + "of jumpers halves all of it."],
        $"{Rounding.Count(Far)} of the landings lie beyond {Rounding.Fixed(Options.Units.Distance.FromSi(Cut), 0)} "
            + $"{Options.Units.Distance.Suffix}, {Rounding.Short(FarFrom)} times the median, where next to none of a normal would"
            + (Far > 0 ? ": they are a source of their own." : "."),
        $"The fitted model gives a hit rate of {Rounding.Percent(ModelRate)}; {Rounding.Percent(CountedRate)} were "
            + $"counted.{(Math.Abs(ModelRate - CountedRate) > 0.03 ? " They differ, so read the changes below as rough." : "")}",
        "In seasons made with known sources, intervals meant to hold 90 % held the true spread in 79 to 85 of 100: "
            + "take them for a little too narrow.",
        "These are sources of the miss that steering left, not of the forecast's own error, most of which a jumper flies off; "
            + "only descent tracks tell that.",
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
        Sources.Value is { } sources ? [SourceTable(sources), ImprovementTable(sources)] : [];

    private TableView SourceTable(IReadOnlyList<ErrorSource> sources) =>
        new TableOf<ErrorSource>("error-sources", "Where the variance of landing misses comes from", sources,
            $"{Rounding.Count(Missions, "mission")}, {Rounding.Count(Landings, "landing")}; "
                + $"{Rounding.Percent(Options.Confidence)} intervals by resampling missions. "
                + "Known errors of measuring are taken out first.")
        {
            { Columns.SourceName, s => s.Name },
            { Columns.SharedBy, s => s.SharedBy },
            { Columns.GrowsWith, s => s.GrowsWith },
            {
                Columns.DistanceRange(
                    "source_sd", "sd per axis", Options.Units.Distance, "Standard deviation per axis where that quantity is at its mean."),
                s => s.Sd.Select(Options.Units.Distance.FromSi)
            },
            { Columns.ShareOfVariance, s => s.Share },
        };

    private TableView ImprovementTable(IReadOnlyList<ErrorSource> sources) =>
        new TableOf<ErrorSource>("source-improvements", "What to improve first", sources.OrderByDescending(s => s.Halved.Value),
            $"Changes of the hit rate by the fitted model, {Rounding.Percent(Options.Confidence)} intervals over {RateResamples} resamples "
                + "of missions; leads: share of them in which halving this one helps most. "
                + "Of far landings their number is halved, or none is left.")
        {
            { Columns.SourceName, s => s.Name },
            { Columns.RateIfHalved, s => s.Halved },
            { Columns.RateIfRemoved, s => s.Removed },
            { Columns.LeadsIn, s => s.LeadsIn },
        };
}
