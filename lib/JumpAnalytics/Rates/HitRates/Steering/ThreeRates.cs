namespace JumpAnalytics;

/// <summary>One of the three questions, with the least and the greatest rate that the records allow.</summary>
/// <param name="Question">Which rate.</param>
/// <param name="AtLeast">The rate if everything undetermined had gone wrong.</param>
/// <param name="AtMost">The rate if everything undetermined had gone right.</param>
[TypeFormatterSource]
public sealed record BoundedRate(string Question, ClusteredProportion AtLeast, ClusteredProportion AtMost)
{
    /// <summary>How far apart the two are, as a share.</summary>
    public double Width => AtMost.Rate.Value - AtLeast.Rate.Value;
}

/// <summary>
/// Three questions that are never mixed: how often landings came down inside the target radius (steering included), how often an
/// unsteered canopy would have, and how often the forecast error could still have been flown off.
/// </summary>
/// <remarks>
/// <para>Without descent tracks the last two can only be bounded: the forecast error of a drop lies within the reach of its canopies
/// about each landing less its exit placement. Forecast rate: drops whose forecast error is no longer than the target radius. Recoverable
/// rate: drops whose forecast error is no longer than target radius plus reach. The bounds are sharp: each end is reached by steering
/// that the reach allows.</para>
/// <para>A descent track of one jumper tells what was flown, and so the forecast error of the drop, give or take the track's error.</para>
/// <para>Each bound has its own between-mission interval; from the lower limit of the least rate to the upper limit of the greatest one
/// the true rate is covered with at least the stated confidence (Imbens and Manski 2004, Econometrica 72:1845-1857, who show it could
/// be a little narrower).</para>
/// </remarks>
public sealed class ThreeRates : ShownResult
{
    private static readonly double[] _sharesOfReach = [0, 0.05, 0.1, 0.25, 0.5, 1];

    private ThreeRates(AccuracyOptions options, bool tracked) => (Options, IsTracked) = (options, tracked);

    /// <summary>Whether descent tracks were asked what jumpers flew.</summary>
    public bool IsTracked { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Landing rate, over landings.</summary>
    public required Fit<BoundedRate> Landing { get; init; }

    /// <summary>Forecast rate, over drops.</summary>
    public required Fit<BoundedRate> Forecast { get; init; }

    /// <summary>Recoverable rate, over drops.</summary>
    public required Fit<BoundedRate> Recoverable { get; init; }

    /// <summary>
    /// Forecast rate had nobody steered farther than a share of the reach, and the drops that contradict this: their landings lie too far
    /// apart for one drift and so little steering.
    /// </summary>
    public required IReadOnlyList<(double ShareOfReach, Fit<BoundedRate> Forecast, int Contradicting)> ByShareOfReach { get; init; }

    /// <summary>How many drops lack what, and so could not be bounded more tightly.</summary>
    public required IReadOnlyList<(string Why, int Drops)> Missing { get; init; }

    /// <summary>Answers the three questions.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Canopies, confidence and units.</param>
    /// <param name="steering">
    /// What a jumper flew where a descent track tells it, and null elsewhere; left out when there are no tracks.
    /// </param>
    public static ThreeRates Of(IReadOnlyList<Landing> landings, AccuracyOptions options, Func<Landing, KnownSteering?>? steering = null)
    {
        var flown = steering ?? (_ => null);
        var drops = Drops(landings, options, 1, flown);
        return new ThreeRates(options, steering is not null)
        {
            Landing = Bound("landing rate", landings, l => l.Drop.Mission,
                l => l.Outcome switch { LandingOutcome.Hit => true, LandingOutcome.Miss => false, _ => null }, options),
            Forecast = ForecastRate(drops, options),
            Recoverable = Bound("recoverable rate", drops, d => d.Drop.Mission,
                d => d.Reach is { } reach ? Within(d, d.Drop.TargetRadius + reach) : null, options),
            ByShareOfReach = [.. _sharesOfReach.Select(s => (Share: s, Drops: Drops(landings, options, s, flown)))
                .Select(s => (s.Share, ForecastRate(s.Drops, options), s.Drops.Count(d => d.IsContradictory)))],
            Missing = [.. drops.Where(d => d.Why is not null).GroupBy(d => d.Why!).OrderByDescending(g => g.Count())
                .ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => (g.Key, g.Count()))],
        };
    }

    private static List<DropSteering> Drops(IReadOnlyList<Landing> landings, AccuracyOptions options, double share,
        Func<Landing, KnownSteering?> steering) =>
        [.. landings.GroupBy(l => l.Drop.Id).Select(g => DropSteering.Of(g.First().Drop, g, options, share, steering))];

    private static Fit<BoundedRate> ForecastRate(List<DropSteering> drops, AccuracyOptions options) =>
        Bound("forecast rate", drops, d => d.Drop.Mission, d => Within(d, d.Drop.TargetRadius), options);

    /// <summary>Whether the forecast error surely lies, or surely does not lie, within a radius; null when it may.</summary>
    private static bool? Within(DropSteering drop, double radius) => drop.ForecastError is not { } range ? null
        : JumpAnalytics.Landing.IsWithin(range.High, radius) ? true
        : JumpAnalytics.Landing.IsWithin(range.Low, radius) ? null : false;

    private static Fit<BoundedRate> Bound<T>(string question, IReadOnlyList<T> cases, Func<T, string> mission,
        Func<T, bool?> success, AccuracyOptions options)
    {
        if (cases.Count == 0) return Fit<BoundedRate>.Refused("no landing");
        var missions = cases.GroupBy(mission).Select(g => g.Select(success).ToList()).ToList();
        int[] sizes = [.. missions.Select(m => m.Count)];
        return Fit<BoundedRate>.Made(new BoundedRate(question,
            ClusteredProportion.Of([.. missions.Select(m => m.Count(s => s == true))], sizes, options.Confidence),
            ClusteredProportion.Of([.. missions.Select(m => m.Count(s => s != false))], sizes, options.Confidence)));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Landing.Success || !Forecast.Success || !Recoverable.Success)
                return $"None of the three rates can be given: {Landing.Reason}.";
            var drops = Forecast.Value.AtLeast.Landings;
            return $"Landing rate: {Words(Landing.Value)} of {Rounding.Count(Landing.Value.AtLeast.Landings, "landing")}. "
                + $"Forecast rate, had nobody steered: {Words(Forecast.Value)} of {Rounding.Count(drops, "drop")}. "
                + $"Recoverable rate: {Words(Recoverable.Value)} of the drops. "
                + (Forecast.Value.Width > 0.005
                    ? IsTracked ? $"What the tracks' own errors leave open is {Rounding.Fixed(100 * Forecast.Value.Width, 0)} points."
                        : "Descent tracks are not asked here (the forecast review asks those there are), so the forecast rate is known no "
                            + $"better than to {Rounding.Fixed(100 * Forecast.Value.Width, 0)} points; "
                            + "a track of one jumper of each drop would close most of the gap."
                    : "");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Missing.Select(m => $"{Rounding.Count(m.Drops, "drop")}: {m.Why}."),
        "Reach is forward speed × exit height / descent rate, taken at full glide all the way down: the widest bounds. Inputs: "
            + string.Join("; ", Options.Canopies.Select(c => $"{c.Canopy}: {c.Source}")) + ".",
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        Table(IsTracked ? "three-rates-tracked" : "three-rates", "Landing rate, forecast rate, recoverable rate",
            new[] { (Rate: Landing, Over: "landings"), (Rate: Forecast, Over: "drops"), (Rate: Recoverable, Over: "drops") }
                .Where(r => r.Rate.Success).Select(r => new Line(r.Rate.Value!.Question, r.Rate.Value, r.Over)),
            $"Intervals at {Rounding.Percent(Options.Confidence)} between missions. "
            + "At least: everything undetermined went wrong; at most: it went right. "
            + "Where the exit was not recorded its error is counted to the forecast.", (Columns.Question, r => r.What)),
        .. IsTracked ? [] : (IReadOnlyList<TableView>)[BySteering],
    ];

    private TableView BySteering
    {
        get
        {
            var table = Table("forecast-rate-by-steering", "Forecast rate had nobody steered farther than a share of the reach",
                ByShareOfReach.Where(r => r.Forecast.Success)
                    .Select(r => new Line(r.ShareOfReach, r.Forecast.Value!, "drops", r.Contradicting)),
                "Contradicting: the landings of these drops lie too far apart for one drift and so little steering; "
                + "they can't be told and count both ways.", (Columns.ShareOfReach, r => r.What));
            table.Add(Columns.Contradicting, r => r.Contradicting);
            return table;
        }
    }

    private static TableOf<Line> Table(
        string name, string title, IEnumerable<Line> lines, string note, (TableColumn Column, Func<Line, object?> Value) first) =>
        new(name, title, lines, note)
        {
            { first.Column, first.Value },
            { Columns.Missions, r => r.Rate.AtLeast.Missions },
            { Columns.RateOver, r => r.Over },
            { Columns.Cases, r => r.Rate.AtLeast.Landings },
            { Columns.AtLeast, r => r.Rate.AtLeast.Rate },
            { Columns.AtMost, r => r.Rate.AtMost.Rate },
            { Columns.BoundWidth, r => r.Rate.Width },
        };

    /// <summary>A line of a table: what the rate is of, and over what.</summary>
    private sealed record Line(object What, BoundedRate Rate, string Over, int Contradicting = 0);

    private static string Words(BoundedRate r) => r.Width < 0.0005 ? Rounding.Percent(r.AtLeast.Rate)
        : $"between {Rounding.Percent(r.AtLeast.Rate)} and {Rounding.Percent(r.AtMost.Rate)}";
}
