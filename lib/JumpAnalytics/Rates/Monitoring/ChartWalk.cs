namespace JumpAnalytics;

/// <summary>A mission's value on a chart.</summary>
/// <param name="Mission">The mission.</param>
/// <param name="Landings">Landings behind the value.</param>
/// <param name="First">Score; of sums what is added to the upper one.</param>
/// <param name="Second">Second coordinate of the score; of sums what is added to the lower one.</param>
/// <param name="Restart">Whether the chart starts anew before it.</param>
internal readonly record struct ChartValue(MissionInTime Mission, int Landings, double First, double Second, bool Restart);

/// <summary>How the statistic of a chart goes from mission to mission.</summary>
internal sealed record ChartRule
{
    /// <summary>The next state.</summary>
    public required Func<(double A, double B), ChartValue, (double A, double B)> Next { get; init; }

    /// <summary>What is held against the limits.</summary>
    public required Func<(double A, double B), (double Upper, double? Lower)> Shown { get; init; }

    /// <summary>Upper limit.</summary>
    public required double Upper { get; init; }

    /// <summary>Lower limit; null when there is one limit.</summary>
    public required double? Lower { get; init; }

    /// <summary>
    /// Place of the first mission of the change, given the states since the last start and whether the upper limit was passed.
    /// </summary>
    public required Func<IReadOnlyList<(ChartValue Value, (double A, double B) State)>, bool, int> ChangeAt { get; init; }

    /// <summary>Direction and size of the change, from the missions since it began.</summary>
    public required Func<IReadOnlyList<ChartValue>, bool, (string Direction, string Size)> Told { get; init; }
}

/// <summary>Walks a chart along the missions. After a signal, and at a restart, the statistic starts anew.</summary>
internal static class ChartWalk
{
    public static (IReadOnlyList<ChartPoint> Points, IReadOnlyList<ChartSignal> Signals) Along(
        IReadOnlyList<ChartValue> values, ChartRule rule)
    {
        var (points, signals) = (new List<ChartPoint>(), new List<ChartSignal>());
        var since = new List<(ChartValue Value, (double A, double B) State)>();
        var state = (A: 0.0, B: 0.0);
        foreach (var value in values)
        {
            if (value.Restart)
            {
                state = (0, 0);
                since.Clear();
            }
            state = rule.Next(state, value);
            since.Add((value, state));
            var (upper, lower) = rule.Shown(state);
            var (above, below) = (upper > rule.Upper, lower < rule.Lower);
            if (!above && !below)
            {
                points.Add(new ChartPoint(points.Count + 1, value.Mission.Mission, value.Mission.Time, value.Landings, upper, lower, null));
                continue;
            }
            var from = rule.ChangeAt(since, above);
            var changed = since.Skip(from).Select(s => s.Value).ToList();
            var (direction, size) = rule.Told(changed, above);
            points.Add(new ChartPoint(points.Count + 1, value.Mission.Mission, value.Mission.Time,
                value.Landings, upper, lower, direction));
            signals.Add(new ChartSignal
            {
                At = points[^1], Direction = direction, ProbableStart = changed[0].Mission.Mission,
                MissionsSinceStart = changed.Count, LandingsSinceStart = changed.Sum(v => v.Landings), Size = size,
            });
            state = (0, 0);
            since.Clear();
        }
        return (points, signals);
    }

    /// <summary>The missions after the last one at which a sum stood at zero.</summary>
    public static int AfterLast(IReadOnlyList<(ChartValue Value, (double A, double B) State)> since,
        Func<(double A, double B), bool> atRest)
    {
        for (var i = since.Count - 1; i >= 0; i--)
        {
            if (atRest(since[i].State)) return Math.Min(i + 1, since.Count - 1);
        }
        return 0;
    }

    /// <summary>
    /// The likeliest first mission of a shift of the mean of scores: that with the greatest (missions
    /// since) × (squared length of their mean).
    /// </summary>
    public static int LikeliestShift(IReadOnlyList<(ChartValue Value, (double A, double B) State)> since)
    {
        var (best, at, a, b) = (0.0, since.Count - 1, 0.0, 0.0);
        for (var i = since.Count - 1; i >= 0; i--)
        {
            (a, b) = (a + since[i].Value.First, b + since[i].Value.Second);
            if ((a * a + b * b) / (since.Count - i) is var gain && gain > best) (best, at) = (gain, i);
        }
        return at;
    }

    /// <summary>
    /// The greatest share of a limit that the statistic reaches when it is not set back after a signal, but at restarts: above 1 where the
    /// chart signals.
    /// </summary>
    public static double Greatest(IReadOnlyList<ChartValue> values, ChartRule rule)
    {
        var (greatest, state) = (0.0, (A: 0.0, B: 0.0));
        foreach (var value in values)
        {
            state = rule.Next(value.Restart ? (0, 0) : state, value);
            var (upper, lower) = rule.Shown(state);
            greatest = Math.Max(greatest, Math.Max(upper / rule.Upper, lower / rule.Lower ?? 0));
        }
        return greatest;
    }

    /// <summary>Probability that a chart without change signals at least once on the way.</summary>
    public static double ChanceOfSignal(IReadOnlyList<ChartValue> values, RunLengthLaw law)
    {
        var (left, length) = (1.0, 0);
        foreach (var value in values)
        {
            if (value.Restart)
            {
                left *= 1 - law.ProbabilityWithin(length);
                length = 0;
            }
            length++;
        }
        return 1 - left * (1 - law.ProbabilityWithin(length));
    }
}
