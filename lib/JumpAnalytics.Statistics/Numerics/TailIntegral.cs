namespace JumpAnalytics.Statistics;

/// <summary>
/// Tails of a distribution with one peak, at zero, as integrals of its density: positive terms only, so that a far tail loses no digits,
/// and in logarithms, so that it does not vanish.
/// </summary>
/// <param name="LogDensity">Logarithm of the density, concave.</param>
/// <param name="Smooth">
/// A width, from a place outwards, in which the density is smooth and falls by no more than about exp(-10): sixteen nodes then
/// integrate it to a rounding.
/// </param>
internal sealed record TailIntegral(Func<double, double> LogDensity, Func<double, double> Smooth)
{
    private const int MostSteps = 200;
    private const int MostPanels = 10_000; // some fifty are used
    private static readonly Quadrature _rule = new(-1, 1, 16);
    private static readonly double[] _nodes = [.. Enumerable.Range(0, 16).Select(_rule.At)];
    private static readonly double[] _weights = [.. Enumerable.Range(0, 16).Select(_rule.Weight)];

    /// <summary>Logarithm of the probability beyond a place on a side.</summary>
    /// <param name="away">How far the place is from the peak; negative on the other side.</param>
    /// <param name="side">1 for values above the place, −1 for those below.</param>
    public double LogBeyond(double away, int side)
    {
        if (away >= 0) return LogOutwards(away, side, double.PositiveInfinity);
        var rest = Math.Exp(LogOutwards(-away, -side, double.PositiveInfinity));
        return rest < 0.5
            ? Kernels.Log1p(-rest)
            : Math.Log(Math.Exp(LogOutwards(0, side, double.PositiveInfinity)) + Math.Exp(LogOutwards(0, -side, -away)));
    }

    /// <summary>
    /// The place with a given share below it and the rest above. As the density's logarithm is concave, so is that of each tail, and
    /// Newton's method on it comes to the root from outside without overshooting.
    /// </summary>
    public double Place(TailShare share)
    {
        var (log, side) = (share.LogLesser, share.IsUpper ? 1 : -1);
        if (double.IsNegativeInfinity(log)) return side * double.PositiveInfinity;
        var (away, tail) = (Smooth(0) / 4, 0.0);
        for (var step = 0; step < MostSteps && (tail = LogBeyond(away, side)) > log; step++) away *= 2;
        for (var step = 0; step < MostSteps && Math.Abs(tail - log) > 1e-14 * (1 - log); step++)
        {
            away += (tail - log) * Math.Exp(tail - LogDensity(side * away));
            tail = LogBeyond(away, side);
        }
        return side * away;
    }

    /// <summary>The integral from a place away from the peak, panel by panel until nothing is added.</summary>
    private double LogOutwards(double away, int side, double width)
    {
        var (sum, done, top) = (0.0, 0.0, LogDensity(side * away));
        for (var count = 0; count < MostPanels && done < width; count++)
        {
            var near = side * (away + done);
            var (panel, part) = (Math.Min(Smooth(near), width - done), 0.0);
            for (var i = 0; i < _nodes.Length; i++)
                part += _weights[i] * Math.Exp(LogDensity(near + side * panel * (1 + _nodes[i]) / 2) - top);
            sum += part *= panel / 2;
            done += panel;
            if (part < 1e-17 * sum) break;
        }
        return top + Math.Log(sum);
    }
}
