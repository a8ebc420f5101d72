namespace JumpAnalytics;

/// <summary>The landings of one group of drops (a cell, a season), gathered by mission.</summary>
internal sealed class MissionSample
{
    private MissionSample(IReadOnlyList<Landing> landings, IReadOnlyList<IReadOnlyList<Landing>> missions) =>
        (Landings, Missions) = (landings, missions);

    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>The landings of each mission, missions in order of their first landing.</summary>
    public IReadOnlyList<IReadOnlyList<Landing>> Missions { get; }

    public static MissionSample Of(IEnumerable<Landing> landings)
    {
        var all = landings.ToList();
        return new MissionSample(all, [.. all.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g])]);
    }

    public int Count(LandingOutcome outcome) => Landings.Count(l => l.Outcome == outcome);

    /// <summary>Landings known only as beyond a distance that count as misses.</summary>
    public int BeyondMisses => Landings.Count(l => l.IsCensored && l.Outcome == LandingOutcome.Miss);

    /// <summary>Hits and landings of each mission that has a landing told a hit or a miss.</summary>
    public (int[] Hits, int[] Landings) Decided()
    {
        var decided = Missions
            .Select(m => (Hits: m.Count(l => l.Outcome == LandingOutcome.Hit),
                Landings: m.Count(l => l.Outcome != LandingOutcome.Undecided)))
            .Where(m => m.Landings > 0).ToList();
        return ([.. decided.Select(m => m.Hits)], [.. decided.Select(m => m.Landings)]);
    }

    /// <summary>The counted rate with its interval, or why there is none.</summary>
    public Fit<ClusteredProportion> CountedRate(double confidence)
    {
        var (hits, landings) = Decided();
        return hits.Length == 0
            ? Fit<ClusteredProportion>.Refused(Landings.Count == 0 ? "no landing" : "no landing that can be told a hit or a miss")
            : Fit<ClusteredProportion>.Made(ClusteredProportion.Of(hits, landings, confidence));
    }

    /// <summary>The landings as an error distribution sees them: misses in the downwind frame, and distances they lie beyond.</summary>
    public PlaneSample Misses() => PlaneSample.Of(Landings, TradeNouns.Value);
}
