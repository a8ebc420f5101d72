namespace JumpAnalytics;

/// <summary>Chances of a hit that forecasters stated of decided landings they had not seen.</summary>
internal sealed class ChanceForecasts
{
    public const string Brier = "Brier";
    public const string Logarithmic = "logarithmic";

    private readonly IReadOnlyList<Landing> _landings;
    private readonly IReadOnlyList<int> _missions;
    private readonly IReadOnlyList<(string Forecaster, StatedChance?[] Stated)> _forecasts; // by landing

    private ChanceForecasts(IReadOnlyList<Landing> landings, IReadOnlyList<(string, StatedChance?[])> forecasts,
        IReadOnlyList<string> skipped)
    {
        (_landings, _forecasts, Skipped) = (landings, forecasts, skipped);
        var numbers = landings.Select(l => l.Drop.Mission).Distinct().Select((m, i) => (m, i))
            .ToDictionary(x => x.m, x => x.i, StringComparer.Ordinal);
        _missions = [.. landings.Select(l => numbers[l.Drop.Mission])];
    }

    /// <summary>Forecasters that could not be made at some step, with the reason.</summary>
    public IReadOnlyList<string> Skipped { get; }

    /// <summary>What each forecaster that can keep up with a scheme states of the decided landings it is to forecast.</summary>
    public static ChanceForecasts Of(IReadOnlyList<Landing> landings, BacktestScheme scheme, AccuracyOptions options,
        IReadOnlyList<RateForecaster>? forecasters = null)
    {
        var decided = landings.Where(l => l.Outcome != LandingOutcome.Undecided).ToList();
        var place = new Dictionary<Landing, int>(ReferenceEqualityComparer.Instance);
        foreach (var landing in decided) place.Add(landing, place.Count);
        var (forecasts, skipped) = (new List<(string, StatedChance?[])>(), new List<string>());
        foreach (var forecaster in forecasters ?? RateForecaster.All)
        {
            var steps = BacktestStep.Of(landings, scheme, forecaster.Pace);
            if (steps.Count == 0) continue;
            var (stated, reasons) = (new StatedChance?[decided.Count], new string?[steps.Count]);
            Parallel.For(0, steps.Count, s =>
            {
                var learnt = forecaster.Learn(steps[s].Past, options);
                reasons[s] = learnt.Reason;
                if (!learnt.Success) return;
                foreach (var landing in steps[s].Ahead)
                {
                    if (place.TryGetValue(landing, out var i)) stated[i] = learnt.Value(landing.Drop);
                }
            });
            forecasts.Add((forecaster.Name, stated));
            skipped.AddRange(reasons.OfType<string>().Distinct().Select(r => $"{forecaster.Name}: {r}."));
        }
        return new ChanceForecasts(decided, forecasts, skipped);
    }

    public IEnumerable<BacktestRow> Rows(BacktestScheme scheme, AccuracyOptions options) =>
        Rows(scheme, Brier, ForecastScores.Brier, options).Concat(Rows(scheme, Logarithmic, ForecastScores.Logarithmic, options));

    private IEnumerable<BacktestRow> Rows(BacktestScheme scheme, string name, Func<double, bool, double> score, AccuracyOptions options) =>
        BacktestScores.Rows(scheme, name,
            [.. _forecasts.Select(f => new BacktestScores.Card(f.Forecaster,
                [.. f.Stated.Select((p, i) => p is { } stated ? score(stated.Chance, IsHit(i)) : (double?)null)]))],
            _missions, RateForecaster.AlwaysBenchmark, RateForecaster.BaseRate, options);

    /// <summary>The reliability of one forecaster.</summary>
    public Fit<ForecastReliability> Reliability(string forecaster, AccuracyOptions options)
    {
        var stated = _forecasts.FirstOrDefault(f => f.Forecaster == forecaster).Stated ?? [];
        var told = Enumerable.Range(0, stated.Length).Where(i => stated[i] is not null).ToList();
        var missions = told.Select(i => _missions[i]).ToList();
        var diagram = ReliabilityDiagram.Of([.. told.Select(i => stated[i]!.Value.Chance)], [.. told.Select(IsHit)]);
        var cells = new Dictionary<Cell, int>();
        foreach (var i in told) cells.TryAdd(Cell.Of(_landings[i].Drop, options.Bands), cells.Count);
        List<ForecastError> errors = [.. told.Select(i => new ForecastError(cells[Cell.Of(_landings[i].Drop, options.Bands)],
            stated[i]!.Value.OwnError, stated[i]!.Value.SharedError))];
        return diagram.Success
            ? Fit<ForecastReliability>.Made(new ForecastReliability(forecaster, missions.Distinct().Count(), diagram.Value,
                diagram.Value.Band(missions, errors, options.Confidence, null, 1000, options.Seed, TradeNouns.Value)))
            : Fit<ForecastReliability>.Refused(diagram.Reason);
    }

    private bool IsHit(int landing) => _landings[landing].Outcome == LandingOutcome.Hit;
}
