namespace JumpAnalytics.Statistics;

/// <summary>A step that a cumulative sum of successes may take, in whole steps of its lattice.</summary>
/// <param name="Rise">Steps up; negative for down.</param>
/// <param name="Probability">Probability of the step.</param>
[TypeFormatterSource]
public readonly record struct LatticeStep(int Rise, double Probability);

/// <summary>
/// Run lengths of cumulative-sum charts of successes: C ← max(0, C + step), a signal when C passes the limit. Steps are whole
/// multiples of one unit, so that the states are few and the run lengths exact (Brook and Evans 1972, Biometrika 59:539-549,
/// without their approximation).
/// </summary>
public static class BernoulliCusumRunLength
{
    internal const int MostStates = 4000;

    /// <summary>One chart.</summary>
    /// <param name="steps">The steps of one point, with probabilities that add up to 1; a rise may stand there more than once.</param>
    /// <param name="limit">The greatest sum that does not signal, in steps, 0 to 4,000.</param>
    /// <param name="start">Where the sum starts, 0 to the limit.</param>
    /// <exception cref="ArgumentException">Probabilities that can't be, or no step upwards, so that the chart never signals.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A limit or start that can't be, or a chart that runs longer than a billion points.
    /// </exception>
    public static RunLengthLaw OneSided(IReadOnlyList<LatticeStep> steps, int limit, int start = 0)
    {
        Guard.Within(limit, 0, MostStates);
        Guard.Within(start, 0, limit);
        return Law(steps, limit, start).Checked(limit);
    }

    private static RunLengthLaw Law(IReadOnlyList<LatticeStep> steps, int limit, int start = 0)
    {
        var sum = steps.Sum(s => s.Probability);
        if (!steps.All(s => s.Probability >= 0) || !(Math.Abs(sum - 1) < 1e-9))
            throw new ArgumentException($"Probabilities of steps are zero or more and add up to 1; found {sum}.", nameof(steps));
        if (!steps.Any(s => s is { Rise: > 0, Probability: > 0 }))
            throw new ArgumentException("No step goes up: the chart would never signal.", nameof(steps));
        var moves = new double[limit + 1, limit + 1];
        var merged = steps.Where(s => s.Probability > 0).GroupBy(s => s.Rise).Select(g => new LatticeStep(g.Key, g.Sum(s => s.Probability)))
            .OrderBy(s => s.Rise).ToList();
        for (var i = 0; i <= limit; i++)
        {
            foreach (var step in merged)
            {
                var to = Math.Max(0, i + step.Rise);
                if (to <= limit) moves[i, to] += step.Probability;
            }
        }
        return SignalChain.Law([.. Enumerable.Range(0, limit + 1).Select(j => moves[start, j])], moves);
    }

    /// <summary>
    /// Two charts of the same points with one limit, until one of them signals. A point must not raise the two sums together by more than
    /// nothing; then one of them is at zero when the other signals.
    /// </summary>
    /// <param name="up">The steps of the one chart.</param>
    /// <param name="down">The steps of the other.</param>
    /// <param name="limit">The greatest sum that does not signal, in steps.</param>
    /// <exception cref="ArgumentException">As for one chart.</exception>
    public static RunLengthLaw TwoSided(IReadOnlyList<LatticeStep> up, IReadOnlyList<LatticeStep> down, int limit) =>
        Both(up, down, Guard.Within(limit, 0, MostStates)).Checked(limit);

    /// <summary>The same law whatever its average.</summary>
    internal static RunLengthLaw Both(IReadOnlyList<LatticeStep> up, IReadOnlyList<LatticeStep> down, int limit) =>
        RunLengthLaw.Either(Law(up, limit), Law(down, limit));

    /// <summary>The least limit at which an average run length is reached: run lengths on a lattice go by steps.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="averageAt">The average run length of a limit, in steps.</param>
    /// <returns>The limit; null when it would need more than 4,000 steps.</returns>
    internal static int? LimitFor(double average, Func<int, double> averageAt)
    {
        var high = 8;
        while (high <= MostStates && Shorter(high)) high *= 2;
        if (high > MostStates) return null;
        return Roots.First(Shorter, high == 8 ? -1 : high / 2, high);

        // Run lengths lost in rounding are longer than any that is asked for.
        bool Shorter(int limit) => averageAt(limit) is >= 1 and var found && found < average;
    }

    /// <summary>The least limit at which one chart has an average run length.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="steps">The steps of one point.</param>
    /// <returns>The limit in steps; null when it would need more than 4,000.</returns>
    /// <exception cref="ArgumentException">As for one chart.</exception>
    public static int? LimitFor(double average, IReadOnlyList<LatticeStep> steps) =>
        LimitFor(SignalChain.Checked(average), limit => Law(steps, limit).Average);
}
