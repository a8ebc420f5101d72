namespace JumpAnalytics.Statistics;

/// <summary>
/// A one-sided chart whose statistic is held at zero or above: a state at zero with a probability of its own, and the nodes of a quadrature
/// between zero and the limit. The kernel is smooth on either, so that the quadrature converges as fast as without the hold (Page 1954,
/// Biometrika 41:100-115, has the equation).
/// </summary>
internal static class AtomChain
{
    /// <summary>The law of the run length.</summary>
    /// <param name="limit">Above it the chart signals.</param>
    /// <param name="deviation">Standard deviation of one step.</param>
    /// <param name="start">Where the chart starts, 0 to the limit.</param>
    /// <param name="mean">Mean of the next place, before it is held at zero.</param>
    public static RunLengthLaw Law(double limit, double deviation, double start, Func<double, double> mean)
    {
        var rule = new Quadrature(0, limit, SignalChain.Nodes(limit, deviation));
        var n = rule.Order + 1;
        var moves = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            var row = Row(i == 0 ? 0 : rule.At(i - 1));
            for (var j = 0; j < n; j++) moves[i, j] = row[j];
        }
        return SignalChain.Law(Row(start), moves);

        double[] Row(double from)
        {
            var (row, centre) = (new double[n], mean(from));
            row[0] = NormalInterval.Below(-centre / deviation);
            for (var j = 1; j < n; j++)
            {
                var z = (rule.At(j - 1) - centre) / deviation;
                row[j] = rule.Weight(j - 1) / deviation * NormalInterval.InverseSqrt2Pi * Math.Exp(-z * z / 2);
            }
            return row;
        }
    }
}
