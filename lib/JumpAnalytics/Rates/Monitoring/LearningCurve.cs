using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>How miss distances may go with the number of missions flown.</summary>
public enum LearningShape
{
    /// <summary>They do not change.</summary>
    NoChange,

    /// <summary>A power of the mission's number: each doubling of it changes them by the same factor.</summary>
    PowerLaw,

    /// <summary>They approach a plateau exponentially.</summary>
    Plateau,
}

/// <summary>One shape, fitted.</summary>
/// <param name="Shape">Which one.</param>
/// <param name="Factor">
/// Typical distance at the last mission over that at the first; below 1 is nearer the spot. Without an interval for no change,
/// where it is 1 by definition.
/// </param>
/// <param name="Pace">
/// Power of the mission's number, or missions in which the distance to the plateau falls to 1/e; null for no change.
/// </param>
/// <param name="Aicc">Akaike's criterion with its small-sample correction, missions counted; less is better.</param>
[TypeFormatterSource]
public sealed record LearningFit(LearningShape Shape, Estimate Factor, double? Pace, double Aicc);

/// <summary>
/// Whether miss distances changed with the number of missions a spotter has flown, winds and terrains allowed for: learning,
/// or its contrary. It tells of records, not of a person's skill: who flies harder missions later, or moves to another
/// canopy, shows a curve as well.
/// </summary>
/// <remarks>
/// <para>Number: logarithm of a landing's distance over the usual one of its cell of wind band and terrain in a reference.
/// Two-level model by full likelihood, mean along the mission's number: none, its logarithm (power law, Newell and Rosenbloom
/// 1981), or 1 − exp(−(number − 1)/pace) with the pace at its likeliest. Missions are the unit: what landings of a mission share is
/// a part of the scatter.</para>
/// <para>Interval of the factor: profile likelihood with t on missions − 2, for the plateau over all paces. A landing known only as beyond
/// a distance has the mean logarithm of the reference's distances beyond it.</para>
/// </remarks>
public sealed class LearningCurve : ShownResult
{
    /// <summary>Missions below which nothing is fitted.</summary>
    public const int FewestMissions = 8;

    /// <summary>The change that the number of missions needed is given for: distances a fifth shorter.</summary>
    private const double Fifth = 0.8;

    private LearningCurve(string name, AccuracyOptions options) => (Name, Options) = (name, options);

    /// <summary>Whose missions they are.</summary>
    public string Name { get; }

    /// <summary>Bands, units and confidence.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The three shapes in the order of <see cref="LearningShape"/>, or the reason why none is fitted.</summary>
    public required Fit<IReadOnlyList<LearningFit>> Fits { get; init; }

    /// <summary>Missions since the start, or since the last restart.</summary>
    public required int Missions { get; init; }

    /// <summary>Their landings with a distance, those beyond one included.</summary>
    public required int Landings { get; init; }

    /// <summary>Landings among them known only as beyond a distance.</summary>
    public required int Beyond { get; init; }

    /// <summary>Why the count of missions starts where it does; null when it is the first mission of the log.</summary>
    public required string? CountedSince { get; init; }

    /// <summary>
    /// Distance of each mission over the usual one of the reference (geometric mean of its landings), in the order flown.
    /// </summary>
    public required IReadOnlyList<double> MissionFactors { get; init; }

    /// <summary>The power law's factor at each mission, over the usual distance of the reference.</summary>
    public required IReadOnlyList<double> Curve { get; init; }

    /// <summary>
    /// Missions in all that would tell distances a fifth shorter at the last mission from no change, half of the
    /// time; null when it is not told.
    /// </summary>
    public required int? MissionsToTell { get; init; }

    /// <summary>Chance of so great a change by the power law, or a greater one, if there were none; null without a fit.</summary>
    public double? PValue
    {
        get
        {
            if (Fits.Value?[(int)LearningShape.PowerLaw].Factor is not { Range: { } range } factor) return null;
            var half = Math.Log(range.High / range.Low) / 2;
            var quantile = QuantileOf.T(Missions - 2, TailShare.Middle(Options.Confidence));
            return 2 * StudentT.CDF(0, 1, Missions - 2, -Math.Abs(Math.Log(factor.Value)) / half * quantile);
        }
    }

    /// <summary>Fits the shapes.</summary>
    /// <param name="landings">Landings of the missions of one spotter.</param>
    /// <param name="reference">
    /// Landings that say how far misses usually are in each wind and terrain, for instance all others of the base; the
    /// spotter's own when left empty.
    /// </param>
    /// <param name="options">Bands, units and confidence.</param>
    /// <param name="charts">What counts as a restart; the defaults when left out.</param>
    /// <param name="name">Whose missions they are, for the reading.</param>
    public static LearningCurve Of(IReadOnlyList<Landing> landings, IReadOnlyList<Landing> reference, AccuracyOptions options,
        ChartOptions? charts = null, string name = "these missions")
    {
        var all = MissionInTime.Of(landings);
        var restart = MissionInTime.Restarts(all, charts ?? new ChartOptions()).OrderBy(r => r.Key).LastOrDefault();
        var missions = restart.Value is null ? all : [.. all.Skip(restart.Key)];
        var usual = MissReference.Of(reference.Count > 0 ? reference : landings, options.Bands, FewestMissions);
        var readings = usual.Value is not { } known ? [] : missions.SelectMany((m, i) =>
            m.Landings.Select(l => (Landing: l, Number: i + 1, Log: known.LogDistance(l))).Where(l => l.Log is not null)).ToList();
        var numbers = readings.Select(r => r.Number).Distinct().Order().ToList();
        var fits = !usual.Success ? Fit<IReadOnlyList<LearningFit>>.Refused(usual.Reason)
            : numbers.Count < FewestMissions
            ? Fit<IReadOnlyList<LearningFit>>.Refused(
                $"{Rounding.Count(numbers.Count, "mission")} with a distance, and at least {FewestMissions} are needed to tell a curve")
            : new LearningFitting([.. readings.Select(r => (r.Number, r.Landing.Drop.Mission, r.Log!.Value))], options.Confidence).All();
        var factors = readings.GroupBy(r => r.Number).OrderBy(g => g.Key).Select(g => Math.Exp(g.Average(r => r.Log!.Value))).ToList();
        var slope = fits.Value?[(int)LearningShape.PowerLaw].Pace;
        var middle = slope is null ? 0 : numbers.Zip(factors, (i, f) => Math.Log(f) - slope.Value * Math.Log(i)).Average();
        return new LearningCurve(name, options)
        {
            Fits = fits, Missions = numbers.Count, Landings = readings.Count, Beyond = readings.Count(r => r.Landing.IsCensored),
            CountedSince = restart.Value?.Reason,
            MissionFactors = factors,
            Curve = slope is null ? [] : [.. numbers.Select(i => Math.Exp(middle + slope.Value * Math.Log(i)))],
            MissionsToTell = slope is null ? null : Needed([.. factors.Select(f => Math.Log(f))], options.Confidence),
        };
    }

    private static int? Needed(IReadOnlyList<double> logs, double confidence)
    {
        var mean = logs.Average();
        var variance = logs.Sum(x => (x - mean) * (x - mean)) / (logs.Count - 1);
        var (sum, squares) = (0.0, 0.0);
        for (var n = 1; n <= 100_000; n++)
        {
            var log = Math.Log(n);
            (sum, squares) = (sum + log, squares + log * log);
            if (n < FewestMissions) continue;
            var half = QuantileOf.T(n - 2, TailShare.Middle(confidence)) * Math.Sqrt(variance / (squares - sum * sum / n)) * log;
            if (half <= -Math.Log(Fifth)) return n;
        }
        return null;
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Fits.Success) return $"Whether misses changed with the missions flown can't be told for {Name}: {Fits.Reason}.";
            var (none, power, plateau) = (Fits.Value[0], Fits.Value[1], Fits.Value[2]);
            var n = $"over {Rounding.Count(Missions, "mission")} "
                + $"({Rounding.Count(Landings, "landing")}{(Beyond > 0 ? $", {Beyond} of them known only as beyond a distance" : "")})"
                + $"{(CountedSince is { } since ? $", counted since {since}" : "")}";
            var factor = $"the typical miss distance of {Name} at the last mission is {Show(power.Factor)} times that at the first, "
                + "winds and terrains allowed for";
            var told = power.Factor.Range switch
            {
                { High: < 1 } => $"Misses became shorter {n}: {factor}.",
                { Low: > 1 } => $"Misses became longer {n}: {factor}.",
                _ => $"It can't be told {n} whether misses changed with the missions flown: {factor}." + (MissionsToTell is { } needed
                    && needed > Missions ? $" About {Rounding.Count(needed, "mission")} in all would tell distances a fifth shorter." : ""),
            };
            var best = new[] { none, power, plateau }.MinBy(f => f.Aicc)!;
            return told + " By Akaike's criterion "
                + (best.Shape switch { LearningShape.NoChange => "no change", LearningShape.PowerLaw => "a power law", _ => "a plateau" })
                + " describes them best"
                + $"{(new[] { none, power, plateau }.Count(f => f.Aicc - best.Aicc < 2) > 1 ? ", with others close behind" : "")}. "
                + "The curve tells of records and not of why: other missions, canopies or streamers change it as well."
                + (power.Factor.Range is { } r && !r.Contains(1) ? " Among 20 spotters whose misses did not change, "
                    + $"about {Rounding.Fixed(20 * (1 - Options.Confidence), 1)} would show as much by chance." : "");
        }
    }

    private static string Show(Estimate e) =>
        Rounding.Fixed(e.Value, 2) + (e.Range is { } r ? $" ({Rounding.Fixed(r.Low, 2)} to {Rounding.Fixed(r.High, 2)})" : "");

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<LearningFit?>("learning-curve", $"Miss distance along the missions of {Name}",
            Fits.Value ?? (IEnumerable<LearningFit?>)[null],
            $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions, by profile likelihood. "
            + "A landing known only as beyond a distance counts with the mean of those of the reference beyond it.")
        {
            { Columns.CurveShape, f => f is null ? null : Words(f.Shape) }, { Columns.LastOverFirst, f => f?.Factor },
            { Columns.CurvePace, f => f?.Pace }, { Columns.Aicc, f => f?.Aicc }, { Columns.Missions, _ => Missions },
            { Columns.Placed, _ => Landings }, { Columns.Note, f => f is null ? Fits.Reason : f.Factor.WhyNoRange },
        },
    ];

    internal static string Words(LearningShape shape) =>
        shape switch { LearningShape.NoChange => "no change", LearningShape.PowerLaw => "power law", _ => "plateau" };
}
