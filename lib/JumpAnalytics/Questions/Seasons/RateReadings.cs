namespace JumpAnalytics;

/// <summary>The landing rate when the records are read in one way.</summary>
/// <param name="Name">How they are read.</param>
/// <param name="Missions">Missions it rests on.</param>
/// <param name="Landings">Landings it rests on, those supposed included.</param>
/// <param name="Rate">The rate with its between-mission interval.</param>
/// <param name="Verdict">How it compares with the benchmark.</param>
[TypeFormatterSource]
public sealed record RateReading(string Name, int Missions, int Landings, Estimate Rate, BenchmarkVerdict Verdict);

/// <summary>
/// The landing rate beside what the records leave open: distances that were rounded, hits exactly on the radius, and landings that are not
/// counted or not written down.
/// </summary>
/// <remarks>
/// Each row has the interval of the counted rate with its design effect (<see cref="ClusteredProportion"/>) at another rate. Landings that
/// may be missing are the refused rows, the undecided ones, the gaps in the exit order, and about as many behind the last recorded of a
/// stick; their rows put all of them out or all in, so the range from the lower limit of the one to the upper limit of the other allows for
/// chance as well. It holds the true rate as far as the number of missing ones is right.
/// </remarks>
public sealed class RateReadings : ShownResult
{
    private readonly AccuracyOptions _options;
    private readonly ClusteredProportion? _counted;
    private readonly string _of;

    private RateReadings(IReadOnlyList<RateReading> rows, ClusteredProportion? counted, AccuracyOptions options, string of) =>
        (Rows, _counted, _options, _of) = (rows, counted, options, of);

    /// <summary>As written first; none without a counted rate.</summary>
    public IReadOnlyList<RateReading> Rows { get; }

    /// <summary>The rate with distances spread over their rounding; null where none was rounded.</summary>
    public SpreadRate? Spread { get; private init; }

    /// <summary>Rows of landings that were refused.</summary>
    public int Refused { get; private init; }

    /// <summary>Refused rows that are hang-ups without a distance.</summary>
    public int HangUps { get; private init; }

    /// <summary>Landings known only as beyond a distance shorter than the target radius.</summary>
    public int Undecided { get; private init; }

    /// <summary>Landings that gaps in the exit order and drops without a landing show to be missing, at least.</summary>
    public int MissingAtLeast { get; private init; }

    /// <summary>The same with about as many as no gap can show.</summary>
    public int MissingAbout { get; private init; }

    /// <summary>Whether the exit order is recorded; without it no gap can be seen.</summary>
    public bool IsNumbered { get; private init; }

    /// <summary>Landings that are in no rate.</summary>
    public int Uncounted => Refused + Undecided + MissingAbout;

    /// <summary>Reads the records of some seasons in every way.</summary>
    internal static RateReadings Of(JumpLog log, IReadOnlyList<Landing> landings, IReadOnlyList<string> seasons, AccuracyOptions options)
    {
        var sample = MissionSample.Of(landings);
        var fit = sample.CountedRate(options.Confidence);
        var name = $"{log.Name}, {JumpLog.Words(seasons)}";
        if (log.Sharing is not null || fit.Value is not { } all) return new RateReadings([], null, options, name);
        var refused = log.Intake.RefusedLandings(seasons);
        var missing = MissingLandings.Of(log, seasons);
        var spread = SpreadRate.Of(landings, WrittenSteps.Of(landings), fit, options.Confidence);
        var undecided = sample.Count(LandingOutcome.Undecided);
        var open = refused.Count + undecided + missing.About;
        var rates = new[] { all.Rate.Value, spread?.Rate.Value ?? all.Rate.Value };
        var onIt = landings.Count(l => l.IsOnTheRadius);
        var (total, n) = (all.Landings + open, (double)all.Landings);
        var rows = new List<RateReading> { Row("as written", all.Rate.Value, all.Landings) };
        if (spread is not null) rows.Add(Row("distances spread over their rounding", spread.Rate.Value, all.Landings));
        if (onIt > 0) rows.Add(Row("hits exactly on the radius as misses", (all.Hits - onIt) / n, all.Landings));
        if (open > 0)
        {
            rows.Add(Row("all uncounted landings as misses", rates.Min() * n / total, total));
            rows.Add(Row("all uncounted landings as hits", (rates.Max() * n + open) / total, total));
        }
        return new RateReadings(rows, all, options, name)
        {
            Spread = spread, Refused = refused.Count, HangUps = refused.Count(r => r.IsHangUpWithoutDistance), Undecided = undecided,
            MissingAtLeast = missing.AtLeast, MissingAbout = missing.About, IsNumbered = missing.Numbered,
        };

        RateReading Row(string name, double rate, int of)
        {
            var range = all.IntervalAt(rate, of, options.Confidence);
            var estimate = range is { } r ? Estimate.Of(rate, r) : Estimate.WithoutRange(rate, all.Rate.WhyNoRange ?? "no interval");
            return new RateReading(name, all.Missions, of, estimate, CellRate.VerdictOn(range, options.Benchmark));
        }
    }

    /// <summary>
    /// From the lower limit with all uncounted landings out to the upper limit with all of them in; the range of both rates where every
    /// landing is counted. Null without intervals.
    /// </summary>
    public Interval? Range => Rows.Count == 0 || Rows.Any(r => r.Rate.Range is null) ? null
        : new Interval(Rows.Min(r => r.Rate.Range!.Value.Low), Rows.Max(r => r.Rate.Range!.Value.High));

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (_counted is not { } all) return "No rate can be given.";
            var (percent, size) = (Rounding.Percent(_options.Confidence),
                $"{Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")}; {_of}");
            return Spread is not { } spread
                ? $"{Rounding.Percent(all.Rate)} of landings came down inside the target radius ({percent} interval; {size})."
                : $"As written, {Rounding.Percent(all.Rate)} of landings came down inside the target radius; with rounded distances spread "
                    + $"over their rounding, {Rounding.Percent(spread.Rate)} did ({percent} intervals; {size}).";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => Rows.Count == 0 ? [] : [.. new[] { VerdictSentence, RoundingSentence,
        UncountedSentence, TippingSentence }.OfType<string>()];

    /// <summary>The verdict on the benchmark as written and spread, and whether the two agree.</summary>
    public string VerdictSentence
    {
        get
        {
            var name = _options.Benchmark == AccuracyOptions.RuleOfThumb
                ? $"the trade's rule of thumb of {_options.BenchmarkText} (common practice, no source)"
                : $"the benchmark of {_options.BenchmarkText}";
            if (_counted?.Rate.Range is null) return $"It can't be compared with {name}: there is no interval.";
            var written = Rows[0].Verdict;
            if (Spread is null) return $"That is {Words(written)} {name}{Limit(Rows[0])}.";
            var other = Rows[1].Verdict;
            return written == other
                ? $"Both are {Words(written)} {name}: the two readings agree."
                : $"As written that is {Words(written)} {name}{Limit(Rows[0])}; spread, it is {Words(other)} it{Limit(Rows[1])}. "
                    + "The two readings differ, so the rounding of distances decides: quote both or neither.";
        }
    }

    /// <summary>How many distances were rounded and how many hits lie on the radius itself; null where nothing was.</summary>
    public string? RoundingSentence
    {
        get
        {
            var onIt = Rows.FirstOrDefault(r => r.Name.Contains("exactly", StringComparison.Ordinal));
            if (_counted is not { } all || (Spread is null && onIt is null)) return null;
            var count = onIt is null ? 0 : (int)Math.Round(all.Hits - onIt.Rate.Value * all.Landings);
            return (Spread is { } spread
                    ? $"{Rounding.Count(spread.Rounded)} of {Rounding.Count(all.Landings, "landing")} have a rounded distance. " : "")
                + (onIt is null ? "No hit lies exactly on the target radius."
                    : $"{Rounding.Count(count, "hit")} lie{(count == 1 ? "s" : "")} exactly on the target radius; were they misses, "
                        + $"the rate would be {Rounding.Percent(onIt.Rate)}.");
        }
    }

    /// <summary>What is not counted, and the rate with all of it out or in; null where nothing is known to be missing.</summary>
    public string? UncountedSentence
    {
        get
        {
            if (Uncounted == 0 || _counted is not { } all) return null;
            var (out_, in_) = (Rows[^2].Rate, Rows[^1].Rate);
            var hangUps = HangUps == 0 ? "" : $", {Rounding.Count(HangUps)} of them {(HangUps == 1 ? "a hang-up" : "hang-ups")} "
                + "without a distance";
            return $"About {Rounding.Count(Uncounted, "landing")} {(Uncounted == 1 ? "is" : "are")} in no count: "
                + $"{Rounding.Count(Refused, "row")} could not be used{hangUps}; {Rounding.Count(Undecided)} undecided; "
                + (MissingAbout == 0 ? "none seen to be missing"
                    : $"at least {Rounding.Count(MissingAtLeast)} never written down, about {Rounding.Count(MissingAbout)} with those "
                        + "that leave no gap")
                + $". Were all misses the rate would be {Rounding.Percent(out_.Value, 1)}, were all hits "
                + $"{Rounding.Percent(in_.Value, 1)}, against {Rounding.Percent(all.Rate.Value, 1)} as counted."
                + (Range is { } range ? " Allowing for chance and for these together: "
                    + $"{Rounding.Fixed(100 * range.Low, 1)} to {Rounding.Percent(range.High, 1)}." : "");
        }
    }

    /// <summary>How many of the uncounted landings would have to be misses for another verdict; null where none are uncounted.</summary>
    public string? TippingSentence
    {
        get
        {
            if (Uncounted == 0 || _counted is not { EffectiveLandings: not null } all) return null;
            var rate = Spread?.Rate.Value ?? all.Rate.Value;
            var total = all.Landings + Uncounted;
            var verdicts = Enumerable.Range(0, Uncounted + 1)
                .Select(misses => all.IntervalAt((rate * all.Landings + Uncounted - misses) / total, total, _options.Confidence))
                .Select(range => CellRate.VerdictOn(range, _options.Benchmark)).ToList();
            var name = $"{(Spread is null ? "The rate" : "The spread rate")} would be ";
            if (verdicts.Distinct().Count() == 1)
                return $"{name}{Words(verdicts[0])} {_options.BenchmarkText} however many of these "
                    + $"{Rounding.Count(Uncounted)} were misses.";
            var stretches = verdicts.Distinct().Select(v => $"{Words(v)} {_options.BenchmarkText} with "
                + Numbers(verdicts.IndexOf(v), verdicts.LastIndexOf(v)));
            return $"{name}{string.Join(", and ", stretches)} of these {Rounding.Count(Uncounted)} as misses.";
        }
    }

    private static string Numbers(int from, int to) =>
        from == to ? Rounding.Count(from) : $"{Rounding.Count(from)} to {Rounding.Count(to)}";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<RateReading>("rate-readings", "The landing rate, read in several ways", Rows,
            $"Intervals at {Rounding.Percent(_options.Confidence)} between missions, with the design effect of the counted rate. "
            + $"Benchmark {_options.BenchmarkText}. Spread: a distance written to a step of 5 or more of its unit is laid over what rounds "
            + "to it. "
            + "Uncounted: refused rows, undecided landings, gaps in the exit order and about as many as leave no gap.")
        {
            { Columns.RateReadAs, r => r.Name },
            { Columns.Missions, r => r.Missions },
            { Columns.Landings, r => r.Landings },
            { Columns.Rate, r => r.Rate },
            { Columns.Verdict, r => r.Rate.Range is null ? null : Words(r.Verdict) },
        },
    ];

    private string Limit(RateReading row) => (row.Verdict, row.Rate.Range) switch
    {
        (BenchmarkVerdict.Above, { } range) => $" (the interval begins at {Rounding.Percent(range.Low, 1)})",
        (BenchmarkVerdict.Below, { } range) => $" (the interval ends at {Rounding.Percent(range.High, 1)})",
        _ => "",
    };

    private static string Words(BenchmarkVerdict verdict) => verdict switch
    {
        BenchmarkVerdict.Above => "above",
        BenchmarkVerdict.Below => "below",
        _ => "not clearly different from",
    };
}
