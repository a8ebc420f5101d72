using System.Runtime.CompilerServices;

namespace JumpAnalytics;

/// <summary>
/// The landing rate of one group of landings against that of another, both of one's own choice:
/// <c>RateDifference.Of(log.Where("streamer_minutes&lt;=10"), log.Where("streamer_minutes&gt;10"))</c>. A mission
/// may have landings in both.
/// </summary>
/// <remarks>
/// <para>The interval is made from those of the two rates by squaring and adding the distances to their limits: method 10 of Newcombe
/// (1998, Statistics in Medicine 17:873-890) for rates that share no mission. What two rates of shared missions have in common comes in by
/// their correlation, as in his method 10 for pairs (17:2635-2650); this is the general form of Zou and Donner (2008, Statistics in
/// Medicine 27:1693-1702). These two are cited from memory.</para>
/// <para>The correlation is that of the linearised rates: mission m moves a rate by its hits less rate times landings, over all landings.
/// The standard error is the linearised one over all missions, that of svyby and svycontrast in R's survey package.</para>
/// </remarks>
public sealed class RateDifference : ShownResult
{
    private RateDifference(RateGroup first, RateGroup second, AccuracyOptions options) =>
        (First, Second, Options) = (first, second, options);

    /// <summary>The group that is compared with.</summary>
    public RateGroup First { get; }

    /// <summary>The group that is compared.</summary>
    public RateGroup Second { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Missions with landings in both groups that can be told a hit or a miss.</summary>
    public int SharedMissions { get; private init; }

    /// <summary>Correlation of the two rates through these missions, −1 to 1; 0 where there is none.</summary>
    public double Correlation { get; private init; }

    /// <summary>Second rate less first, with its interval, or why it can't be given.</summary>
    public Fit<Estimate> Change { get; private init; } = null!;

    /// <summary>Between-mission standard error of the change; null where the change can't be given.</summary>
    public double? StandardError { get; private init; }

    /// <summary>Compares two groups of landings.</summary>
    /// <param name="first">The group that is compared with.</param>
    /// <param name="second">The group that is compared.</param>
    /// <param name="options">Confidence; the defaults when left out.</param>
    /// <param name="firstName">What the first group is called; the code it is given by when left out.</param>
    /// <param name="secondName">What the second group is called.</param>
    public static RateDifference Of(IReadOnlyCollection<Landing> first, IReadOnlyCollection<Landing> second,
        AccuracyOptions? options = null, [CallerArgumentExpression(nameof(first))] string firstName = "first",
        [CallerArgumentExpression(nameof(second))] string secondName = "second")
    {
        var asked = options ?? new AccuracyOptions();
        var (a, b) = (MissionSample.Of(first), MissionSample.Of(second));
        var one = new RateGroup(firstName, a.CountedRate(asked.Confidence));
        var other = new RateGroup(secondName, b.CountedRate(asked.Confidence));
        var twice = first.ToHashSet<Landing>(ReferenceEqualityComparer.Instance);
        twice.IntersectWith(second);
        var why = twice.Count > 0
            ? $"{Rounding.Count(twice.Count, "landing")} stand{(twice.Count == 1 ? "s" : "")} in both groups; compare a group with the rest"
            : one.WhyNoRange ?? other.WhyNoRange;
        if (why is not null) return new RateDifference(one, other, asked) { Change = Fit<Estimate>.Refused(why) };
        var (moves1, moves2) = (Moves(a, one.Rate.Value!.Rate.Value), Moves(b, other.Rate.Value!.Rate.Value));
        var both = moves1.Keys.Intersect(moves2.Keys).ToList();
        var spread = Math.Sqrt(moves1.Values.Sum(m => m * m) * moves2.Values.Sum(m => m * m));
        var correlation = spread > 0 ? Math.Clamp(both.Sum(m => moves1[m] * moves2[m]) / spread, -1, 1) : 0;
        var missions = moves1.Keys.Union(moves2.Keys).ToList();
        var squares = missions.Sum(m => Math.Pow(moves2.GetValueOrDefault(m) - moves1.GetValueOrDefault(m), 2));
        return new RateDifference(one, other, asked)
        {
            SharedMissions = both.Count, Correlation = correlation,
            Change = Fit<Estimate>.Made(Between(one.Rate.Value.Rate, other.Rate.Value.Rate, correlation)),
            StandardError = Math.Sqrt(squares * missions.Count / (missions.Count - 1)),
        };
    }

    /// <summary>Compares two parts of a log, or two logs; they are called by what part they are.</summary>
    /// <param name="first">The records that are compared with.</param>
    /// <param name="second">The records that are compared.</param>
    /// <param name="options">Confidence; the defaults when left out.</param>
    public static RateDifference Of(JumpLog first, JumpLog second, AccuracyOptions? options = null) =>
        Of(first.Landings, second.Landings, options, first.Part ?? first.Name, second.Part ?? second.Name);

    /// <summary>The difference of two rates that have intervals, second less first.</summary>
    /// <param name="first">The one rate.</param>
    /// <param name="second">The other.</param>
    /// <param name="correlation">What they have in common; 0 where they share no mission.</param>
    internal static Estimate Between(Estimate first, Estimate second, double correlation = 0)
    {
        var (f, s) = (first.Range!.Value, second.Range!.Value);
        var d = second.Value - first.Value;
        return Estimate.Of(d, new Interval(
            d - Apart(second.Value - s.Low, f.High - first.Value, correlation),
            d + Apart(s.High - second.Value, first.Value - f.Low, correlation)));
    }

    private static double Apart(double x, double y, double correlation) =>
        correlation == 0 ? double.Hypot(x, y) : Math.Sqrt(Math.Max(0, x * x - 2 * correlation * x * y + y * y));

    /// <summary>How far each mission moves the rate of its group.</summary>
    private static Dictionary<string, double> Moves(MissionSample sample, double rate)
    {
        var told = sample.Landings.Where(l => l.Outcome != LandingOutcome.Undecided).ToList();
        return told.GroupBy(l => l.Drop.Mission)
            .ToDictionary(g => g.Key, g => (g.Count(l => l.Outcome == LandingOutcome.Hit) - rate * g.Count()) / told.Count);
    }

    /// <summary>Whether the rate differs by more than chance, in a word or two.</summary>
    internal static string Words(Estimate change) => change.Range!.Value switch
    {
        { Low: > 0 } => "higher",
        { High: < 0 } => "lower",
        _ => "can't tell",
    };

    /// <summary>What an interval that holds no change leaves possible, or the word of the change.</summary>
    internal static string Meaning(Estimate change) => change.Range is { } range && range.Contains(0)
        ? $"not clearly different from no change; anything from a fall of {Rounding.Fixed(-100 * range.Low, 0)} to a rise of "
            + $"{Rounding.Fixed(100 * range.High, 0)} points is in keeping with the records"
        : Words(change);

    /// <inheritdoc/>
    public override string Reading => Change.Value is not { } change
        ? $"The landing rates of '{First.Name}' and '{Second.Name}' can't be compared: {Change.Reason}."
        : $"{Second.Words()} against {First.Words()}: {Rounding.Points(change)} points, "
            + $"{Rounding.Percent(Options.Confidence)} interval: {Meaning(change)}. "
            + (SharedMissions == 0 ? "No mission has landings in both." : $"{Rounding.Count(SharedMissions, "mission")} "
                + $"{(SharedMissions == 1 ? "has" : "have")} landings in both, which the interval allows for.")
            + " The groups may differ in winds and terrains too, and a comparison that was chosen after looking proves nothing.";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<(RateGroup Group, bool IsSecond)>("rate-difference", "Landing rate of two groups", [(First, false), (Second, true)],
            $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions; the change is the second group less the first. "
            + $"Missions with landings in both: {Rounding.Count(SharedMissions)}; "
            + $"correlation of the two rates {Rounding.Fixed(Correlation, 2)}."
            + (Change.Success ? "" : $" No change: {Change.Reason}."))
        {
            { Columns.Group, r => r.Group.Name },
            { Columns.Missions, r => r.Group.Rate.Value?.Missions ?? 0 },
            { Columns.Landings, r => r.Group.Rate.Value?.Landings ?? 0 },
            { Columns.Hits, r => r.Group.Rate.Value?.Hits ?? 0 },
            { Columns.Rate, r => r.Group.Rate.Value?.Rate },
            { Columns.GroupChange, r => r.IsSecond ? Change.Value : null },
            { Columns.ChangeReading, r => r.IsSecond && Change.Value is { } change ? Words(change) : null },
        },
    ];
}

/// <summary>A group of landings that is compared with another.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Rate">Its landing rate with a between-mission interval, or why there is none.</param>
[TypeFormatterSource]
public sealed record RateGroup(string Name, Fit<ClusteredProportion> Rate)
{
    /// <summary>Why the group has no interval; null when it has one.</summary>
    internal string? WhyNoRange => Rate.Reason is { } reason ? $"'{Name}' has {reason}"
        : Rate.Value!.Rate.WhyNoRange is { } why ? $"'{Name}' has no interval: {why}" : null;

    internal string Words() => $"'{Name}' ({Rounding.Percent(Rate.Value!.Rate.Value)} of {Rounding.Count(Rate.Value.Landings, "landing")}, "
        + $"{Rounding.Count(Rate.Value.Missions, "mission")})";
}
