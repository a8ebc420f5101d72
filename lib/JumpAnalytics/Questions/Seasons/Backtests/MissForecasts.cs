namespace JumpAnalytics;

/// <summary>Distributions of misses learnt from earlier landings, scored on later ones.</summary>
internal static class MissForecasts
{
    public const string Crps = "CRPS of the distance";
    public const string Energy = "energy of the miss";

    /// <summary>The base's own earlier misses, as they were.</summary>
    private const string AsTheyWere = "earlier misses as they were";

    private static readonly (string Name, Func<PlaneSample, Fit<IPlaneModel>> Learn)[] _forecasters =
    [
        (AsTheyWere, s => Model(EmpiricalPoints.FitTo(PlaneSample.Of(s.Placed, TradeNouns.Value)))),
        ("fitted normal", s => Model(BivariateNormal.FitTo(s))),
        ("fitted t", s => Model(BivariateT.FitTo(s))),
        ("fitted mixture", s => Model(ScaleMixture.FitTo(s))),
    ];

    private static Fit<IPlaneModel> Model<T>(Fit<ModelFit<T>> fit) where T : class, IPlaneModel =>
        fit.Success ? Fit<IPlaneModel>.Made(fit.Value.Model) : Fit<IPlaneModel>.Refused(fit.Reason);

    public static IEnumerable<BacktestRow> Rows(IReadOnlyList<BacktestStep> steps, AccuracyOptions options)
    {
        var (crps, energy, missions) = (new List<double?>[_forecasters.Length], new List<double?>[_forecasters.Length], new List<int>());
        for (var f = 0; f < _forecasters.Length; f++) (crps[f], energy[f]) = ([], []);
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var step in steps)
        {
            var placed = step.Ahead.Where(l => l.MissDownwind is not null).ToList();
            foreach (var landing in placed)
                missions.Add(numbers.TryGetValue(landing.Drop.Mission, out var m) ? m : numbers[landing.Drop.Mission] = numbers.Count);
            var past = MissionSample.Of(step.Past).Misses();
            for (var f = 0; f < _forecasters.Length; f++)
            {
                if (_forecasters[f].Learn(past).Value is not { } model)
                {
                    crps[f].AddRange(placed.Select(_ => (double?)null));
                    energy[f].AddRange(placed.Select(_ => (double?)null));
                    continue;
                }
                var (distance, plane) = (DistanceScorer.For(model), EnergyScorer.For(model, seed: options.Seed));
                // landings side by side: the energy of a t takes a quadrature for each
                crps[f].AddRange(placed.AsParallel().AsOrdered().Select(l => (double?)distance.Crps(l.MissDownwind!.Value.Length)));
                energy[f].AddRange(placed.AsParallel().AsOrdered().Select(l => (double?)plane.Score(l.MissDownwind!.Value)));
            }
        }
        return Of(Crps, crps).Concat(Of(Energy, energy));

        IEnumerable<BacktestRow> Of(string score, List<double?>[] scores) => BacktestScores.Rows(BacktestScheme.EarlierSeasons, score,
            [.. _forecasters.Select((f, k) => new BacktestScores.Card(f.Name, [.. scores[k]]))], missions, null, AsTheyWere, options);
    }
}
