using System.Collections.Concurrent;
using MathNet.Numerics.Interpolation;

namespace JumpAnalytics;

/// <summary>
/// How the misses spread as the forecast ages: s² = base + growth · age^exponent + wind · wind², each miss a bivariate t of that spread,
/// centre, shape and tail common to all ages. Intervals by resampling missions.
/// </summary>
/// <remarks>
/// The spread is that of a landing. What a mission shares and the jumper's own part lie in the base, so that only what changes with
/// age is read as ageing. A single landing far off weighs little, for the t makes it unlikely to carry news of the spread. The
/// exponent's interval is by profile likelihood over the design effect; all others are percentiles of the growth in resampled
/// missions. Growth is held to zero or more.
/// </remarks>
[TypeFormatterSource]
public sealed class AgeGrowth
{
    private const int Nodes = 80;
    private const double LeastLog = -4.6, MostLog = 4.6; // of the squared spread

    private readonly AgedLandings _data;
    private readonly AccuracyOptions _options;
    private readonly AgeLaw[] _laws;
    private readonly ConcurrentDictionary<double, CubicSpline> _radii = new();
    private readonly HitCurve _hits;

    internal AgeGrowth(AgedLandings data, AccuracyOptions options)
    {
        (_data, _options) = (data, options);
        var fitting = new AgeFitting(data);
        var (range, open) = fitting.Exponents(options.Confidence);
        Published = fitting.At(ForecastAgeing.PublishedExponent).Law;
        Exponent = Estimate.Of(fitting.Best.Law.Exponent, range);
        ExponentBeyond = open;
        Law = IsShapeKnown ? fitting.Best.Law : Published;
        PublishedP = fitting.ChanceOf(ForecastAgeing.PublishedExponent);
        NoGrowthP = fitting.NoGrowthP;
        DesignEffect = fitting.DesignEffect;
        MissionsToTell =
            fitting.Slope > 0 ? (int)Math.Min(100_000, Math.Ceiling(data.Missions * Math.Pow((1.960 + 0.842) / fitting.Slope, 2))) : null;
        Effects = SpreadEffect.All(data, Law, options.Confidence);
        Ages = new Interval(data.Age.Min() * AgedLandings.Unit, data.Age.Max() * AgedLandings.Unit);
        var laws = new List<AgeLaw>(options.Replicates);
        var law = fitting.Resampled();
        var draws = new int[data.Missions];
        ClusterResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, Purpose), _ => laws.Add(law(draws)));
        _laws = [.. laws];
        _hits = new HitCurve(data, LeastLog, MostLog, Nodes);
    }

    private const string Purpose = "age of the forecast";

    /// <summary>One-sided chance below which growth counts as shown: one half of 5 %, as the intervals have it.</summary>
    private const double Shown = 0.025;

    /// <summary>Missions with a placed landing whose forecast has an age.</summary>
    public int Missions => _data.Missions;

    /// <summary>Their passes.</summary>
    public int Passes => _data.Passes;

    /// <summary>Their landings.</summary>
    public int Landings => _data.Landings.Count;

    /// <summary>Seconds; the youngest and the oldest forecast on record.</summary>
    public Interval Ages { get; }

    /// <summary>
    /// The verdict that card, tables, sentences and other reports go by: whether growth with age is more than chance explains, one-sided at
    /// 2.5 %. Where it is not, no size of it may be stated, only what the records do not rule out.
    /// </summary>
    public bool IsShown => NoGrowthP < Shown;

    /// <summary>
    /// Whether the records tell the power of the age: its interval leaves out no growth or the greatest power tried, and the likeliest
    /// power is neither of these two.
    /// </summary>
    public bool IsShapeKnown => Exponent.Value > 1e-3 && Exponent.Value < AgeFitting.MostExponent - 1e-3
        && !(Exponent.Range!.Value.Low == 0 && ExponentBeyond);

    /// <summary>The most likely law; with the published exponent where <see cref="IsShapeKnown"/> is false.</summary>
    public AgeLaw Law { get; }

    /// <summary>The most likely law with the published exponent, 2/3.</summary>
    public AgeLaw Published { get; }

    /// <summary>The exponent with its interval; the upper end stands for more where <see cref="ExponentBeyond"/>.</summary>
    public Estimate Exponent { get; }

    /// <summary>Whether the interval of the exponent has no upper end within those tried (up to 2).</summary>
    public bool ExponentBeyond { get; }

    /// <summary>Chance of records that speak as much against the published exponent 2/3 if it were right.</summary>
    public double PublishedP { get; }

    /// <summary>Chance of as much growth or more if there were none (exponent 0), one-sided.</summary>
    public double NoGrowthP { get; }

    /// <summary>Variance of the growth over what independent landings of the fitted distribution would have.</summary>
    public double DesignEffect { get; }

    /// <summary>
    /// Missions from which growth as large as it seems would be shown (2.5 %, one-sided) four times in five;
    /// null where it seems to be none.
    /// </summary>
    public int? MissionsToTell { get; }

    /// <summary>What exit height and the difference of the winds seem to do to the spread besides.</summary>
    public IReadOnlyList<SpreadEffect> Effects { get; }

    /// <summary>Metres per second; the wind at which spreads and radii are told, the median of the landings.</summary>
    public double Wind => _data.MedianWind;

    /// <summary>Distribution of the misses, whatever the age.</summary>
    public BivariateT Misses => _data.Misses;

    /// <summary>
    /// Whether an age lies among those on record. One that does not is taken as the nearest that does: nothing is extrapolated.
    /// </summary>
    /// <param name="age">Seconds.</param>
    public bool Covers(double age) => Ages.Contains(age);

    /// <summary>Standard deviation of the miss at the second age over that at the first, about the mean miss, at the median wind.</summary>
    /// <param name="from">Seconds; taken as the nearest on record where it lies outside.</param>
    /// <param name="to">Seconds, likewise.</param>
    /// <exception cref="ArgumentOutOfRangeException">An age that is negative or not finite.</exception>
    public Estimate SpreadRatio(double from, double to)
    {
        var (a, b) = (Held(from), Held(to));
        return a == b ? Estimate.Of(1, new Interval(1, 1)) : Over(law => Math.Sqrt(law.At(b, 1) / law.At(a, 1)));
    }

    /// <summary>Radius about the spot that holds a share of landings, metres, at an age and the median wind.</summary>
    /// <param name="age">Seconds; taken as the nearest on record where it lies outside.</param>
    /// <param name="share">Between 0 and 1; 0.9 unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// An age that is negative or not finite, a share that is not between 0 and 1.
    /// </exception>
    public Estimate Radius(double age, double share = 0.9)
    {
        var at = Held(age);
        return Over(law => RadiusOf(law, at, share));
    }

    /// <summary>The same radius at the second age over that at the first, less one: 0.1 for ten per cent more.</summary>
    /// <param name="from">Seconds; taken as the nearest on record where it lies outside.</param>
    /// <param name="to">Seconds, likewise.</param>
    /// <param name="share">Between 0 and 1; 0.9 unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="Radius"/>.</exception>
    public Estimate RadiusGrowth(double from, double to, double share = 0.9)
    {
        var (a, b) = (Held(from), Held(to));
        return a == b ? Estimate.Of(0, new Interval(0, 0)) : Over(law => RadiusOf(law, b, share) / RadiusOf(law, a, share) - 1);
    }

    /// <summary>Landing rate if every forecast had been so old, over the winds and target radii of the record.</summary>
    /// <param name="age">Seconds; taken as the nearest on record where it lies outside.</param>
    /// <exception cref="ArgumentOutOfRangeException">An age that is negative or not finite.</exception>
    public Estimate HitRate(double age)
    {
        var at = Held(age);
        return Over(law => _hits.At(law, at));
    }

    /// <summary>Landing rate at the second age less that at the first, over the winds and target radii of the record.</summary>
    /// <param name="from">Seconds; taken as the nearest on record where it lies outside.</param>
    /// <param name="to">Seconds, likewise.</param>
    /// <exception cref="ArgumentOutOfRangeException">An age that is negative or not finite.</exception>
    public Estimate HitRateChange(double from, double to)
    {
        var (a, b) = (Held(from), Held(to));
        return a == b ? Estimate.Of(0, new Interval(0, 0)) : Over(law => _hits.At(law, b) - _hits.At(law, a));
    }

    /// <summary>The age at which the landing rate has fallen by some points below that at another age.</summary>
    /// <param name="from">Seconds; the age compared with.</param>
    /// <param name="points">Points of landing rate, above 0 and below 100: the reader's own number.</param>
    /// <returns>Seconds; each of the three is null where it is not reached within the ages on record.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An age that is negative or not finite, or no such number of points.</exception>
    public AgeOfLoss AgeAtLoss(double from, double points)
    {
        Guard.Between(points, 0, 100, hint: "points of landing rate");
        var start = Held(from);
        var seen = Array.ConvertAll(_laws, At);
        Array.Sort(seen);
        // Percentiles widened for few missions as elsewhere; ages beyond the record sort last.
        var tail = NormalInterval.Below(-ClusterBootstrap.Widened(Missions, (1 + _options.Confidence) / 2));
        return new AgeOfLoss(points, Told(At(Law)), Told(seen[(int)(tail * (seen.Length - 1))]),
            Told(seen[(int)Math.Ceiling((1 - tail) * (seen.Length - 1))]));

        static double? Told(double age) => double.IsFinite(age) ? age : null;

        double At(AgeLaw law)
        {
            var rate = _hits.At(law, start) - points / 100;
            if (!(_hits.At(law, Ages.High) <= rate)) return double.PositiveInfinity;
            return Roots.End(age => !(_hits.At(law, age) <= rate), start, Ages.High, apart: 1).Outside;
        }
    }

    /// <summary>The radius under the law of the published exponent, metres, at the median wind.</summary>
    internal double PublishedRadius(double age, double share = 0.9) => RadiusOf(Published, Held(age), share);

    private double RadiusOf(AgeLaw law, double age, double share)
    {
        var spline = _radii.GetOrAdd(share, Tabulated);
        return Math.Exp(spline.Interpolate(Math.Clamp(Math.Log(law.At(age, 1)), LeastLog, MostLog)));
    }

    private CubicSpline Tabulated(double share)
    {
        var logs = Enumerable.Range(0, Nodes).Select(i => LeastLog + i * (MostLog - LeastLog) / (Nodes - 1)).ToArray();
        return CubicSpline.InterpolateNaturalSorted(logs,
            [.. logs.Select(l => Math.Log(HitCurve.Scaled(Misses, Math.Exp(l)).RadiusHolding(share)))]);
    }

    private double Held(double age) => Math.Clamp(Guard.NotNegative(age, hint: "seconds"), Ages.Low, Ages.High);

    /// <summary>
    /// The figure of the law with its interval over the resampled ones, which come in the order in which they were drawn.
    /// </summary>
    private Estimate Over(Func<AgeLaw, double> figure)
    {
        var next = -1;
        var resampling = new ResampleOptions { Replicates = _laws.Length, Seed = _options.Seed, Purpose = Purpose,
            Choice = ResampleChoice.Random, Nouns = TradeNouns.Value };
        var bootstrap = ClusterBootstrap.Of(Missions, _ => figure(next++ < 0 ? Law : _laws[next - 1]), resampling).Value!;
        var told = bootstrap.Interval(BootstrapMethod.WidenedPercentile, _options.Confidence);
        return told.Range is { } r
            ? Estimate.Of(told.Value, new Interval(Math.Min(r.Low, told.Value), Math.Max(r.High, told.Value))) : told;
    }
}

/// <summary>The age at which a number of points of landing rate is lost.</summary>
/// <param name="Points">The points asked about.</param>
/// <param name="Age">Seconds; null where they are not lost within the ages on record.</param>
/// <param name="Low">Lower end of its interval, likewise.</param>
/// <param name="High">Upper end, likewise.</param>
[TypeFormatterSource]
public sealed record AgeOfLoss(double Points, double? Age, double? Low, double? High);
