using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// Spotters compared in the conditions they had: the hits of each beside those that the other spotters would have had in the
/// same wind bands, on the same terrains and with the same target radii. Rows are in order of code; there is no order of
/// rate, and the reading says why.
/// </summary>
/// <remarks>
/// <para>Log-odds of a hit: wind band + terrain + cell + log target radius + spotter, fitted to all landings at once. Bands, terrains
/// and cells are pulled towards their mean (normal, standard deviations 2, 2 and 0.5 log-odds), so that a cell of few landings takes
/// after its band and terrain. A spotter is held against the landing-weighted level of the <i>other</i> spotters. That is why the
/// spotter's own level is in the model: it then hardly enters what is expected of that spotter (nobody sets the standard they are judged
/// by), and one spotter's level is not mistaken for a hard cell that this spotter often flew, as it would be if a model without spotters
/// were fitted to the others.</para>
/// <para>Missions are the units: the variance of hits is that of independent landings times a dispersion of the spotter's own missions,
/// steadied by the base's as if these were 20 missions more. The interval of a difference is a score interval with t, and holds the
/// uncertainty of the expectation.</para>
/// <para>Shrinkage: the differences between spotters and their covariance (the fit's, without the pull on spotters) under effects normal
/// about a common mean, averaged over the spread between spotters with a half-normal density of 0.5 log-odds (seven points at a rate of
/// 0.82); the spread itself by restricted likelihood and Q-profile. The test of no difference is Welch's (1951, Biometrika 38:330-336) with
/// that Q, since dispersions are estimated.</para>
/// <para>Measured on simulated bases of known skill whose raw rates differ by 14 to 18 points (five kinds, 1,000 each): 95 % intervals hold
/// the truth in 95.4 to 96.4 %, and differences are centred within 0.6 points. One of eight spotters ten points short is off in 77 % of
/// bases at 40 missions each.</para>
/// <para>A mission flown by two spotters counts as two flights. The jumper's canopy is not among the conditions: it is often unrecorded,
/// and its choice is the base's.</para>
/// </remarks>
public sealed partial class FairComparison : ShownResult
{
    private const double SpreadPrior = 0.5, TenPoints = 0.1;
    private const int RankDraws = 2000;

    private FairComparison(IReadOnlyList<ComparedSpotter> spotters, Fit<SpotterVariation> spread, double rate, int withoutSpotter,
        AccuracyOptions options, FairComparisonSettings settings, Looks? looks = null)
    {
        (Spread, OverallRate, WithoutSpotter, Options, Settings) = (spread, rate, withoutSpotter, options, settings);
        Looks = looks ?? new Looks([.. Taken(spotters)]);
        Spotters = [.. spotters.Select(s => s with { PAdjusted = Looks.Of(s.Spotter, Hits) })];
    }

    private const string Hits = "hits";

    /// <summary>The looks that the differences are held together with: their own unless they are part of a review.</summary>
    internal Looks Looks { get; }

    /// <summary>The looks taken at these spotters.</summary>
    internal IEnumerable<Look> LooksTaken => Taken(Spotters);

    private static IEnumerable<Look> Taken(IEnumerable<ComparedSpotter> spotters) =>
        spotters.Where(s => s.P is not null).Select(s => new Look(s.Spotter, Hits, s.P!.Value));

    /// <summary>The same comparison held together with other looks.</summary>
    internal FairComparison HeldTogether(Looks looks) => new(Spotters, Spread, OverallRate, WithoutSpotter, Options, Settings, looks);

    /// <summary>The spotters, in order of code.</summary>
    public IReadOnlyList<ComparedSpotter> Spotters { get; }

    /// <summary>How much spotters differ, or why that can't be told.</summary>
    public Fit<SpotterVariation> Spread { get; }

    /// <summary>Counted rate of all landings compared, 0 to 1; 0 without any.</summary>
    public double OverallRate { get; }

    /// <summary>Landings left out because no spotter is recorded.</summary>
    public int WithoutSpotter { get; }

    /// <summary>Bands, confidence and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>What else was asked for.</summary>
    public FairComparisonSettings Settings { get; }

    /// <summary>Spotters for whom a difference is given.</summary>
    internal IReadOnlyList<ComparedSpotter> Told => [.. Spotters.Where(s => s.Difference.Success)];

    /// <summary>Compares spotters.</summary>
    /// <param name="landings">Landings of one or more seasons; those that can't be told a hit or a miss are left out.</param>
    /// <param name="options">Bands, confidence, and the seed of the interval of places.</param>
    /// <param name="settings">Fewest missions, target radius, a difference of the reader's.</param>
    public static FairComparison Of(IReadOnlyList<Landing> landings, AccuracyOptions options, FairComparisonSettings? settings = null)
    {
        settings ??= new FairComparisonSettings();
        var decided = landings.Where(l => l.Outcome != LandingOutcome.Undecided).ToList();
        var told = decided.Where(l => !string.IsNullOrWhiteSpace(l.Drop.Spotter)).ToList();
        var bySpotter = told.GroupBy(l => l.Drop.Spotter!).OrderBy(g => g.Key, StringComparer.Ordinal).ToList();
        var hits = told.Count(l => l.Outcome == LandingOutcome.Hit);
        var rate = told.Count > 0 ? (double)hits / told.Count : 0;
        var why = bySpotter.Count switch
        {
            0 => "no landing has a spotter recorded",
            1 => "a single spotter; there is nobody to compare with",
            _ when hits == 0 => "no landing is a hit",
            _ when hits == told.Count => "every landing is a hit",
            _ => null,
        };
        var counts = why is null ? FairComparisonCounts.Of(told, options.Bands, settings.UseTargetRadius) : null;
        var fit = counts is null ? null : FairComparisonFit.Of(counts);
        if (fit is null || counts is null)
        {
            why ??= "the model of the conditions could not be fitted";
            return new FairComparison([.. bySpotter.Select(g => Bare(g, options, why))], Fit<SpotterVariation>.Refused(why), rate,
                decided.Count - told.Count, options, settings);
        }
        var contrasts = new RandomContrasts(fit.Differences, fit.DifferenceCovariance, options.Confidence, SpreadPrior);
        var onlyHere = OnlyHere(counts);
        List<ComparedSpotter> spotters = [.. bySpotter.Select((g, s) =>
            Compared(Bare(g, options, ""), fit.Difference(s), Shrunken(s), fit.Dispersions[s]) with { OnlyHere = onlyHere[s] })];
        return new FairComparison(spotters, Fit<SpotterVariation>.Made(SpreadOf(contrasts, NoDifference(contrasts.Q, fit),
            [.. Enumerable.Range(0, spotters.Count).Where(s => spotters[s].Difference.Success)], rate, options)),
            rate, decided.Count - told.Count, options, settings);

        ShrunkDifference Shrunken(int s) => contrasts.Difference([.. fit.OthersShares(s).Select((share, t) => t == s ? 1 : -share)]);

        ComparedSpotter Compared(ComparedSpotter bare, FairComparisonDifference difference, ShrunkDifference shrunken, double dispersion)
        {
            var needed = difference.MissionsFor(TenPoints, bare.Missions, options.Confidence);
            var row = bare with
            {
                Dispersion = dispersion,
                MissionsForTenPoints = needed,
                EffectiveLandings = rate * (1 - rate) * bare.Landings * bare.Landings / difference.Variance,
            };
            if (bare.Missions < settings.FewestMissions)
            {
                var thin = $"{Rounding.Count(bare.Missions, "mission")}; a difference is given from {settings.FewestMissions} on"
                    + (needed is { } n ? $"; about {n} would give it to within ten points" : "");
                return row with { Difference = Fit<Estimate>.Refused(thin), Expected = Fit<Estimate>.Refused(thin),
                    Shrunken = Fit<Estimate>.Refused(thin), EffectiveLandings = null };
            }
            var tail = (1 - options.Confidence) / 2;
            return row with
            {
                Expected = Fit<Estimate>.Made(difference.ExpectedRate(options.Confidence)),
                Difference = Fit<Estimate>.Made(difference.Rate(options.Confidence)),
                Shrunken = Fit<Estimate>.Made(Estimate.Of(difference.RateAt(shrunken.Quantile(0.5)),
                    new Interval(difference.RateAt(shrunken.Quantile(tail)), difference.RateAt(shrunken.Quantile(1 - tail))))),
                P = difference.P,
                ProbabilityLarger = settings.NamedDifference is { } d
                    ? shrunken.Below(difference.ShiftOf(-d)) + shrunken.Above(difference.ShiftOf(d)) : null,
            };
        }
    }

    /// <summary>A spotter's counts alone.</summary>
    private static ComparedSpotter Bare(IGrouping<string, Landing> landings, AccuracyOptions options, string why)
    {
        var counted = MissionSample.Of(landings).CountedRate(options.Confidence);
        return new ComparedSpotter
        {
            Spotter = landings.Key, Missions = counted.Value!.Missions, Landings = counted.Value.Landings,
            Hits = counted.Value.Hits, Counted = counted,
            Expected = Fit<Estimate>.Refused(why), Difference = Fit<Estimate>.Refused(why),
            Shrunken = Fit<Estimate>.Refused(why), Dispersion = 1,
        };
    }

    private static double[] OnlyHere(FairComparisonCounts counts)
    {
        var shared = counts.Rows.GroupBy(r => r.Cell).Where(g => g.Select(r => r.Spotter).Distinct().Count() > 1)
            .Select(g => g.Key).ToHashSet();
        return [.. counts.Spotters.Select((_, s) => counts.Rows.Where(r => r.Spotter == s).ToList())
            .Select(rows => (double)rows.Where(r => !shared.Contains(r.Cell)).Sum(r => r.Landings) / rows.Sum(r => r.Landings))];
    }

    /// <summary>
    /// Chance of a Q as large or larger if no spotter differs: the upper tail of F with Welch's factor and degrees, since
    /// each dispersion is estimated.
    /// </summary>
    private static double NoDifference(double q, FairComparisonFit fit)
    {
        var k = fit.Differences.Length;
        double[] weights = [.. Enumerable.Range(0, k).Select(s => 1 / fit.DifferenceCovariance[s, s])];
        var unsure = weights.Select((w, s) => Math.Pow(1 - w / weights.Sum(), 2) / fit.Freedom(s)).Sum();
        var (squares, known) = (q / (1 + 2 * (k - 2) * unsure / (k * k - 1.0)), (k * k - 1) / (3 * unsure));
        return squares > 0 ? SpecialFunctions.BetaRegularized(known / 2, (k - 1) / 2.0, known / (known + squares)) : 1;
    }

    /// <summary>
    /// Standard deviation of the rates of spotters whose log-odds are normal about that of a rate: at most one half, however far apart.
    /// </summary>
    /// <param name="rate">The rate in the middle, above 0 and below 1.</param>
    /// <param name="sd">Standard deviation of the log-odds.</param>
    internal static double RateSd(double rate, double sd)
    {
        const int steps = 400;
        var level = Kernels.Logit(rate);
        double[] rates = [.. Enumerable.Range(0, steps).Select(i =>
            Kernels.Logistic(level + sd * QuantileOf.Normal(TailShare.Below((i + 0.5) / steps))))];
        var mean = rates.Average();
        return Math.Sqrt(rates.Average(r => (r - mean) * (r - mean)));
    }

    private static SpotterVariation SpreadOf(RandomContrasts contrasts, double p, int[] told, double rate, AccuracyOptions options)
    {
        var (sd, range) = (Math.Sqrt(contrasts.TauSquared), contrasts.TauSquaredRange);
        var between = Estimate.Of(sd, new Interval(Math.Min(sd, Math.Sqrt(range.Low)), Math.Max(sd, Math.Sqrt(range.High))));
        double? order = null, width = null;
        if (told.Length >= 2)
        {
            var random = SeedStream.For(options.Seed, "places of spotters");
            var places = told.Select(_ => new List<int>()).ToArray();
            for (var draw = 0; draw < RankDraws; draw++)
            {
                var drawn = contrasts.Draw(random);
                for (var i = 0; i < told.Length; i++) places[i].Add(told.Count(t => drawn[t] < drawn[told[i]]));
            }
            width = places.Average(p =>
                p.Order().ToList() is var sorted ? sorted[(int)(0.975 * RankDraws)] - sorted[(int)(0.025 * RankDraws)] + 1 : 0);
            var ordered = told.OrderBy(t => Against(t, told[0]).Mean).ToList();
            order = ordered.Zip(ordered.Skip(1), (low, high) => Against(high, low).Above(0)).Average();
        }
        return new SpotterVariation(between, between.Select(x => RateSd(rate, x)), contrasts.Q, contrasts.Freedom, p, order, width);

        ShrunkDifference Against(int one, int other) =>
            contrasts.Difference([.. Enumerable.Range(0, contrasts.Freedom + 1).Select(t => (t == one ? 1.0 : 0) - (t == other ? 1 : 0))]);
    }
}
