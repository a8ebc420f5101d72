namespace JumpAnalytics;

/// <summary>The missions to be charted, in order, and how.</summary>
internal sealed record Charted(IReadOnlyList<MissionInTime> Missions, AccuracyOptions Options, ChartOptions Charts, ChartLimits Limits)
{
    private readonly IReadOnlyDictionary<int, ChartRestart> _restarts = MissionInTime.Restarts(Missions, Charts);

    /// <summary>The restarts, in order.</summary>
    public IReadOnlyList<ChartRestart> Restarts => [.. _restarts.OrderBy(r => r.Key).Select(r => r.Value)];

    /// <summary>Missions that have a value; a restart at one that has none comes with the next.</summary>
    public IReadOnlyList<ChartValue> Values(Func<MissionInTime, (int Landings, double First, double Second)?> valueOf)
    {
        var (values, restart) = (new List<ChartValue>(), false);
        for (var i = 0; i < Missions.Count; i++)
        {
            restart |= _restarts.ContainsKey(i);
            if (valueOf(Missions[i]) is not { } value) continue;
            values.Add(new ChartValue(Missions[i], value.Landings, value.First, value.Second, restart));
            restart = false;
        }
        return values;
    }

    /// <summary>The chart of values under a rule.</summary>
    /// <param name="kind">Which one.</param>
    /// <param name="values">The missions.</param>
    /// <param name="rule">Statistic and limits.</param>
    /// <param name="law">Run length at the limits, if the reference were known.</param>
    /// <param name="chanceOver">
    /// Chance that the chart without change reaches more than a share of its limits in these missions, the error of the reference in it.
    /// </param>
    /// <param name="missions">Missions of the reference.</param>
    /// <param name="landings">Their landings.</param>
    public MissChart Chart(ChartKind kind, IReadOnlyList<ChartValue> values, ChartRule rule, RunLengthLaw law,
        Func<double, double> chanceOver, int missions, int landings)
    {
        var (points, signals) = ChartWalk.Along(values, rule);
        return new MissChart
        {
            Kind = kind, Points = points, Signals = signals, UpperLimit = rule.Upper, LowerLimit = rule.Lower, Restarts = Restarts,
            InControlRunLength = law.Average, ReferenceMissions = missions, ReferenceLandings = landings,
            Chances = new(() => (chanceOver(1), ChartWalk.Greatest(values, rule) is > 0 and var reached ? chanceOver(reached) : 1)),
        };
    }
}
