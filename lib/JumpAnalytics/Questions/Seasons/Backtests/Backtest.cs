namespace JumpAnalytics;

/// <summary>
/// Forecasts of landings that the forecaster had not seen: chances of a hit, and distributions of misses, scored against what came.
/// </summary>
/// <remarks>
/// Chances of a hit by the Brier score (1950, Monthly Weather Review 78:1-3) and the logarithmic score, distributions by the CRPS of the
/// miss distance and the energy score of the miss (Gneiting and Raftery 2007, JASA 102:359-378). All are proper: nobody gains by stating
/// other than they think. Skill is 1 − score / reference's score, with an interval from resampling missions. Landings without a known place
/// are scored as misses where the target radius lies within what is known of them, and left out of CRPS and energy.
/// </remarks>
public sealed class Backtest : ShownResult
{
    private Backtest(AccuracyOptions options) => Options = options;

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>A row for each scheme, score and forecaster.</summary>
    public required IReadOnlyList<BacktestRow> Rows { get; init; }

    /// <summary>Reliability of the pooled rates learnt from earlier seasons, with its band, or why there is none.</summary>
    public required Fit<ForecastReliability> Reliability { get; init; }

    /// <summary>Forecasters that could not be made at some step, with the reason.</summary>
    public required IReadOnlyList<string> Skipped { get; init; }

    /// <summary>Forecasts and scores.</summary>
    /// <param name="landings">Landings of two or more seasons.</param>
    /// <param name="options">Bands, benchmark, confidence, resamples and seed.</param>
    public static Backtest Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var (rows, skipped) = (new List<BacktestRow>(), new List<string>());
        var reliability = Fit<ForecastReliability>.Refused("it takes two seasons");
        foreach (var scheme in Enum.GetValues<BacktestScheme>())
        {
            var chances = ChanceForecasts.Of(landings, scheme, options);
            skipped.AddRange(chances.Skipped);
            rows.AddRange(chances.Rows(scheme, options));
            if (scheme != BacktestScheme.EarlierSeasons) continue;
            var steps = BacktestStep.Of(landings, scheme, LearningPace.Seasons);
            if (steps.Count > 0) reliability = chances.Reliability(RateForecaster.Pooled, options);
            rows.AddRange(MissForecasts.Rows(steps, options));
        }
        return new Backtest(options) { Rows = rows, Reliability = reliability, Skipped = [.. skipped.Distinct()] };
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.FirstOrDefault(r => r is { Scheme: BacktestScheme.EarlierSeasons, Forecaster: RateForecaster.Pooled,
                Score: ChanceForecasts.Brier }) is not { } pooled)
                return $"Forecasts can't be tested on a season not yet seen: {Reliability.Reason ?? "the pooled rates could not be made"}.";
            return $"Forecast from earlier seasons alone ({Rounding.Count(pooled.Missions, "mission")}, "
                + $"{Rounding.Count(pooled.Landings, "landing")}), the pooled rates of the cells "
                + $"{Against(pooled.OverBenchmark, $"always stating {Options.BenchmarkText}")} and "
                + $"{Against(pooled.OverBase, "the base's own rate")}."
                + (Reliability.Value?.Band.Value is { } band
                    ? band.ChanceIfRight < 1 - Options.Confidence
                        ? $" What was stated and what came differ beyond chance (p {Rounding.PValue(band.ChanceIfRight)})."
                        : $" What was stated is in keeping with what came (p {Rounding.PValue(band.ChanceIfRight)})."
                    : "");
        }
    }

    private string Against(Fit<Estimate>? skill, string other) => skill?.Value switch
    {
        { Range: { Low: > 0 } } s => $"forecast better than {other} (skill {Rounding.Percent(s)})",
        { Range: { High: < 0 } } s => $"forecast worse than {other} (skill {Rounding.Percent(s)})",
        { Range: not null } s => $"did not clearly differ from {other} (skill {Rounding.Percent(s)})",
        _ => $"can't be compared with {other}",
    };

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => Skipped;

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<BacktestRow>("backtest", "Forecasts of landings not yet seen", Rows,
            $"Less is better; CRPS and energy in {Options.Units.Distance.Name}. Skill: 1 less the score over that of the other, "
            + $"{Rounding.Percent(Options.Confidence)} interval by resampling missions; 0 is no better, below 0 worse.")
        {
            { Columns.LearntFrom, r => r.Scheme == BacktestScheme.EarlierSeasons ? "earlier seasons" : "other missions" },
            { Columns.Forecaster, r => r.Forecaster },
            { Columns.ScoreName, r => r.Score },
            { Columns.Missions, r => r.Missions },
            { Columns.Landings, r => r.Landings },
            {
                Columns.MeanScore, r => r.Score is ChanceForecasts.Brier or ChanceForecasts.Logarithmic ? r.Mean
                    : Options.Units.Distance.FromSi(r.Mean)
            },
            { Columns.SkillOverBenchmark, r => r.OverBenchmark?.Value },
            { Columns.SkillOverBase, r => r.OverBase.Value },
        },
        .. Reliability.Value is { } reliability ? (IReadOnlyList<TableView>)[reliability.Table(Options)] : [],
    ];
}
