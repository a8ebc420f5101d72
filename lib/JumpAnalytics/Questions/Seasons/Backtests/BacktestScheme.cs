namespace JumpAnalytics;

/// <summary>Which landings a forecast may learn from before it is scored on others.</summary>
public enum BacktestScheme
{
    /// <summary>Each season from the ones before it, as in life.</summary>
    EarlierSeasons,

    /// <summary>
    /// Each mission from all other missions, earlier and later ones: more landings are scored, but a drift over the years is not seen.
    /// Forecasters that take long to learn are learnt from nine tenths of the missions at a time, or left out.
    /// </summary>
    OtherMissions,
}

/// <summary>The landings of one step of a backtest.</summary>
/// <param name="Past">What may be learnt from.</param>
/// <param name="Ahead">What is forecast.</param>
internal sealed record BacktestStep(IReadOnlyList<Landing> Past, IReadOnlyList<Landing> Ahead)
{
    /// <summary>The steps of a scheme; none where the forecaster is too slow for it.</summary>
    public static IReadOnlyList<BacktestStep> Of(IReadOnlyList<Landing> landings, BacktestScheme scheme, LearningPace pace) =>
        (scheme, pace) switch
        {
            (BacktestScheme.EarlierSeasons, _) => EarlierSeasons(landings),
            (_, LearningPace.EachMission) => OtherMissions(landings, int.MaxValue),
            (_, LearningPace.Tenths) => OtherMissions(landings, 10),
            _ => [],
        };

    private static IReadOnlyList<BacktestStep> EarlierSeasons(IReadOnlyList<Landing> landings)
    {
        var seasons = landings.GroupBy(l => l.Drop.Season).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => g.ToList()).ToList();
        return [.. Enumerable.Range(1, Math.Max(0, seasons.Count - 1))
            .Select(s => new BacktestStep([.. seasons.Take(s).SelectMany(x => x)], seasons[s]))];
    }

    /// <summary>Missions in turn into so many parts, in the order of the log.</summary>
    private static IReadOnlyList<BacktestStep> OtherMissions(IReadOnlyList<Landing> landings, int parts)
    {
        var missions = landings.GroupBy(l => l.Drop.Mission).ToList();
        var count = Math.Min(parts, missions.Count);
        if (missions.Count < 2) return [];
        var part = missions.Select((m, i) => (m.Key, Part: i % count)).ToDictionary(m => m.Key, m => m.Part, StringComparer.Ordinal);
        return [.. Enumerable.Range(0, count).Select(p => new BacktestStep([.. landings.Where(l => part[l.Drop.Mission] != p)],
            [.. landings.Where(l => part[l.Drop.Mission] == p)]))];
    }
}
