namespace JumpAnalytics;

/// <summary>How one forecaster scored on landings it had not seen.</summary>
/// <param name="Scheme">What it had learnt from.</param>
/// <param name="Forecaster">What it is called.</param>
/// <param name="Score">
/// The score: Brier or logarithmic for a chance of a hit, CRPS or energy (metres) for a distribution of misses. Less is better.
/// </param>
/// <param name="Missions">Missions scored.</param>
/// <param name="Landings">Landings scored.</param>
/// <param name="Mean">Mean score.</param>
/// <param name="OverBenchmark">Skill over always stating the benchmark; null for a distribution, which it is none.</param>
/// <param name="OverBase">Skill over the base's own earlier record: its rate, or its misses as they were.</param>
[TypeFormatterSource]
public sealed record BacktestRow(
    BacktestScheme Scheme, string Forecaster, string Score, int Missions, int Landings, double Mean,
    Fit<Estimate>? OverBenchmark, Fit<Estimate> OverBase);

/// <summary>Scores forecasters landing by landing, and compares them over missions.</summary>
internal static class BacktestScores
{
    /// <summary>A forecaster's scores; null for a landing it could not forecast.</summary>
    public sealed record Card(string Forecaster, double?[] Scores);

    /// <summary>One row for each forecaster that could forecast anything, over the landings that all of these could.</summary>
    /// <param name="scheme">What was learnt from.</param>
    /// <param name="score">Name of the score.</param>
    /// <param name="cards">Scores of the same landings.</param>
    /// <param name="missions">Mission of each landing.</param>
    /// <param name="benchmark">Name of the card that always states the benchmark; null for none.</param>
    /// <param name="ofBase">Name of the base's own record.</param>
    /// <param name="options">Confidence, resamples and seed.</param>
    public static IEnumerable<BacktestRow> Rows(
        BacktestScheme scheme, string score, IReadOnlyList<Card> cards, IReadOnlyList<int> missions, string? benchmark,
        string ofBase, AccuracyOptions options)
    {
        cards = [.. cards.Where(c => c.Scores.Any(s => s is not null))];
        var shared = Enumerable.Range(0, missions.Count).Where(i => cards.All(c => c.Scores[i] is not null)).ToList();
        if (shared.Count == 0) yield break;
        var kept = shared.Select(i => missions[i]).ToList();
        var scores = cards.ToDictionary(c => c.Forecaster, c => shared.Select(i => c.Scores[i]!.Value).ToList());
        foreach (var card in cards)
        {
            var own = scores[card.Forecaster];
            yield return new BacktestRow(scheme, card.Forecaster, score, kept.Distinct().Count(), kept.Count, own.Average(),
                benchmark is null ? null : Skill(own, benchmark, card.Forecaster), Skill(own, ofBase, card.Forecaster));
        }

        Fit<Estimate> Skill(List<double> own, string other, string name) => name == other
            ? Fit<Estimate>.Refused("it is what is compared with")
            : ScoreComparison.Of(own, scores[other], kept, options.Confidence, options.Replicates, options.Seed, TradeNouns.Value)
                is { Success: true } comparison
                ? comparison.Value.Skill : Fit<Estimate>.Refused("its scores can't be compared");
    }
}
