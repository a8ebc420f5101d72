namespace JumpAnalytics.Statistics;

/// <summary>
/// Run lengths of charts of an exponentially weighted moving average z ← (1 − w)·z + w·x of independent standard normal points, started at
/// zero. Limits are in standard deviations of the average after many points, √(w / (2 − w)).
/// </summary>
/// <remarks>
/// Integral equation of Crowder (1987, Technometrics 29:401-407) by Gauss-Legendre quadrature. The kernel is entire, so that the error
/// falls faster than any power of the number of nodes; doubling them changes the figures by less than 1e-10.
/// </remarks>
public static class EwmaRunLength
{
    /// <summary>A chart that signals when the average leaves ± limit.</summary>
    /// <param name="weight">Weight w of the newest point, above 0 and at most 1.</param>
    /// <param name="limit">Limit, above zero.</param>
    /// <param name="shift">Mean of the points, in their standard deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A weight, limit or shift that can't be, or a chart that runs longer than a billion points.
    /// </exception>
    public static RunLengthLaw TwoSided(double weight, double limit, double shift = 0) => Law(weight, limit, shift).Checked(limit);

    /// <summary>The same law whatever its average.</summary>
    internal static RunLengthLaw Law(double weight, double limit, double shift)
    {
        var end = End(weight, limit, shift);
        if (weight == 1) return ShewhartRunLength.Law(limit, shift);
        var rule = new Quadrature(-end, end, SignalChain.Nodes(2 * end, weight));
        var (at, start, moves) = (rule.Nodes, new double[rule.Order], new double[rule.Order, rule.Order]);
        for (var j = 0; j < at.Length; j++)
        {
            start[j] = Move(0, j);
            for (var i = 0; i < at.Length; i++) moves[i, j] = Move(at[i], j);
        }
        return SignalChain.Law(start, moves);

        double Move(double from, int j)
        {
            var z = (at[j] - (1 - weight) * from) / weight - shift;
            return rule.Weight(j) / weight * NormalInterval.InverseSqrt2Pi * Math.Exp(-z * z / 2);
        }
    }

    /// <summary>
    /// A chart of averages that are never let fall below zero, z ← max(0, (1 − w)·z + w·x), and that signals when they pass the limit.
    /// </summary>
    /// <inheritdoc cref="TwoSided" path="/param|/exception"/>
    public static RunLengthLaw OneSided(double weight, double limit, double shift = 0)
    {
        var end = End(weight, limit, shift);
        return AtomChain.Law(end, weight, 0, from => (1 - weight) * from + weight * shift).Checked(limit);
    }

    /// <summary>The limit at which the two-sided chart has an average run length without shift.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="weight">Weight w of the newest point, above 0 and at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An average or weight that can't be, or that no limit gives.</exception>
    public static double LimitFor(double average, double weight)
    {
        End(weight, 1, 0);
        return SignalChain.LimitFor(SignalChain.Checked(average), limit => Law(weight, limit, 0).Average, 2.5);
    }

    /// <summary>The limit at which the one-sided chart has an average run length without shift.</summary>
    /// <inheritdoc cref="LimitFor" path="/param|/exception"/>
    public static double OneSidedLimitFor(double average, double weight)
    {
        End(weight, 1, 0);
        return SignalChain.LimitFor(SignalChain.Checked(average), limit =>
            AtomChain.Law(End(weight, limit, 0), weight, 0, from => (1 - weight) * from).Average, 2.5);
    }

    private static double End(double weight, double limit, double shift)
    {
        SignalChain.Weight(weight);
        Guard.Positive(limit);
        Guard.Finite(shift);
        return limit * Math.Sqrt(weight / (2 - weight));
    }
}
