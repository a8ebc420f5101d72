namespace JumpAnalytics.Statistics;

/// <summary>
/// Probabilities of a distribution with one peak as integrals of its density: positive terms only, so that neither a far tail nor a
/// narrow interval loses digits, and in logarithms, so that neither vanishes.
/// </summary>
/// <param name="LogDensity">Logarithm of the density.</param>
/// <param name="Lowest">Where the distribution begins; may be infinite.</param>
/// <param name="Peak">About where the density is greatest.</param>
/// <param name="Smooth">
/// A width, from a place outwards, in which the density is smooth and falls by no more than about exp(-10): sixteen nodes then
/// integrate it to a rounding.
/// </param>
internal sealed record TailIntegral(Func<double, double> LogDensity, double Lowest, double Peak, Func<double, double> Smooth)
{
    private static readonly Quadrature _rule = new(-1, 1, 16);
    private static readonly double[] _nodes = [.. Enumerable.Range(0, 16).Select(_rule.At)];
    private static readonly double[] _weights = [.. Enumerable.Range(0, 16).Select(_rule.Weight)];

    /// <summary>Logarithm of the probability between two places.</summary>
    /// <param name="low">The lower one.</param>
    /// <param name="high">The higher one.</param>
    /// <param name="width">The difference of the two, with more digits than they may have.</param>
    public double LogBetween(double low, double high, double width)
    {
        if (low >= Peak) return LogOutwards(low, 1, width);
        if (high <= Peak) return LogOutwards(high, -1, width);
        var outside = Math.Exp(LogOutwards(low, -1, low - Lowest)) + Math.Exp(LogOutwards(high, 1, double.PositiveInfinity));
        return outside < 0.5
            ? Kernels.Log1p(-outside)
            : Math.Log(Math.Exp(LogOutwards(Peak, -1, Peak - low)) + Math.Exp(LogOutwards(Peak, 1, high - Peak)));
    }

    /// <summary>The integral from a place away from the peak, panel by panel until nothing is added.</summary>
    private double LogOutwards(double near, int direction, double width)
    {
        if (!(width > 0) || double.IsInfinity(near)) return double.NegativeInfinity;
        var (sum, done, top) = (0.0, 0.0, LogDensity(near));
        while (true)
        {
            var at = near + direction * done;
            var panel = Math.Min(Smooth(at), width - done);
            var part = 0.0;
            for (var i = 0; i < _nodes.Length; i++)
                part += _weights[i] * Math.Exp(LogDensity(at + direction * panel * (1 + _nodes[i]) / 2) - top);
            sum += part *= panel / 2;
            done += panel;
            if (done >= width || part < 1e-17 * sum || near + direction * done == at) return top + Math.Log(sum);
        }
    }
}
