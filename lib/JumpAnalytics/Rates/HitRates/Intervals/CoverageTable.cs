namespace JumpAnalytics;

/// <summary>
/// What the intervals of a hit rate are worth for records like these: how often each method would have held the true rate, in simulated
/// seasons of as many missions.
/// </summary>
/// <remarks>
/// Seasons as in <see cref="IntervalCoverage"/>: sizes of missions are drawn from the recorded ones, the true rate is the counted one to
/// the nearest hundredth, kept between 0.02 and 0.98, and misses of one mission have nothing, a fifth or two fifths of their variance in
/// common. <see cref="RateInterval.MissionResampling"/> is left out: it would take as long as all the others.
/// </remarks>
public sealed class CoverageTable : ShownResult
{
    /// <summary>Seasons simulated at each correlation.</summary>
    public const int Seasons = 400;

    private static readonly double[] _correlations = [0, 0.2, 0.4];

    private static readonly RateInterval[] _methods =
        [.. Enum.GetValues<RateInterval>().Where(m => m != RateInterval.MissionResampling)];

    private readonly string? _whyNone;

    private CoverageTable(IReadOnlyList<IntervalCoverage> simulated, string? whyNone, AccuracyOptions options) =>
        (Simulated, _whyNone, Options) = (simulated, whyNone, options);

    /// <summary>The simulated seasons, by rising correlation of misses; empty with fewer than 2 missions.</summary>
    public IReadOnlyList<IntervalCoverage> Simulated { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Simulates seasons like the recorded ones.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Confidence and seed; the same give the same numbers.</param>
    /// <returns>The table, or an empty one whose reading says why: no landing told a hit or a miss, or a single mission.</returns>
    public static CoverageTable Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var sample = MissionSample.Of(landings);
        var rateOrReason = sample.CountedRate(options.Confidence);
        if (rateOrReason.Value is not { } counted) return new CoverageTable([], rateOrReason.Reason, options);
        if (counted.Rate.WhyNoRange is { } why) return new CoverageTable([], why, options);
        var (sizes, rate) =
            (sample.Decided().Landings, Math.Clamp(Math.Round(counted.Rate.Value, 2, MidpointRounding.AwayFromZero), 0.02, 0.98));
        return new CoverageTable(
            [.. _correlations.Select(c => IntervalCoverage.Of(counted.Missions, rate, c, sizes,
                options.Confidence, Seasons, options.Seed, _methods))],
            null, options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (_whyNone is not null) return $"How often the intervals would cover can't be simulated: {_whyNone}.";
            var like = Simulated[0];
            return $"Simulated seasons of {Rounding.Count(like.Missions, "mission")} like these, with "
                + $"a true rate of {Rounding.Percent(like.Rate)}: the {Rounding.Percent(Options.Confidence)} interval of these reports, "
                + $"which respects missions, held the true rate in {Shares(RateInterval.EffectiveWilson)} of the seasons "
                + $"when the misses of a mission had a correlation of {Listed(Simulated.Select(s => Rounding.Fixed(s.Correlation, 1)))}. "
                + $"Taking every landing as independent (Wilson) would have held it in {Shares(RateInterval.Wilson)}.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<(IntervalCoverage Simulated, MethodCoverage Method)>(
            "coverage", "How often each interval holds the true rate, in simulated seasons like these",
            Simulated.SelectMany(s => s.Methods.Select(m => (s, m))), Note)
        {
            { Columns.MissCorrelation, r => r.Simulated.Correlation },
            { Columns.IntervalMethod, r => Words(r.Method.Method) },
            { Columns.RespectsMissions, r => r.Method.Method >= RateInterval.EffectiveWilson ? "yes" : "no" },
            { Columns.SeasonsTold, r => r.Method.Told },
            { Columns.CoverageShare, r => r.Method.Coverage },
            { Columns.MeanWidth, r => r.Method.MeanWidth },
            { Columns.ClaimedConfidence, r => r.Simulated.Confidence },
        },
    ];

    private string? Note => Simulated.Count == 0 ? null
        : $"{Rounding.Count(Seasons)} seasons at each correlation, seed {Options.Seed}; true rate {Rounding.Percent(Simulated[0].Rate)}, "
            + "sizes of missions drawn from the recorded ones. A miss is the sum of a part that the mission shares and one of its own, "
            + "both circular normals. Coverage with its 95 % interval, over the seasons that have an interval.";

    private string Shares(RateInterval method) =>
        Listed(Simulated.Select(s => Rounding.Percent(s.Methods.Single(m => m.Method == method).Coverage!.Value)));

    private static string Listed(IEnumerable<string> words)
    {
        var all = words.ToList();
        return $"{string.Join(", ", all[..^1])} and {all[^1]}";
    }

    private static string Words(RateInterval method) => method switch
    {
        RateInterval.Wilson => "Wilson",
        RateInterval.WilsonCorrected => "Wilson, continuity corrected",
        RateInterval.ClopperPearson => "exact (Clopper-Pearson)",
        RateInterval.Jeffreys => "Jeffreys",
        RateInterval.MidP => "exact, mid-P",
        RateInterval.EffectiveWilson => "Wilson on effective landings (used in these reports)",
        RateInterval.KornGraubard => "exact on effective landings (Korn-Graubard)",
        RateInterval.EffectiveLogit => "log odds, between missions",
        RateInterval.BetaBinomial => "beta-binomial likelihood",
        _ => throw Guard.Refused(nameof(method), method, "a method that is simulated"),
    };
}
