namespace JumpAnalytics.Statistics;

/// <summary>
/// Run lengths of the multivariate exponentially weighted moving average (Lowry, Woodall, Champ and Rigdon 1992, Technometrics
/// 34:46-53) of points in the plane with two independent standard normal coordinates: Z ← (1 − w)·Z + w·X from zero, a signal when
/// |Z|²·(2 − w)/w passes the limit.
/// </summary>
/// <remarks>
/// Integral equations of Rigdon (1995, Journal of Statistical Computation and Simulation 52:351-365 without shift, in the length of Z;
/// 1995, Stochastic Processes and their Applications with shift, in both coordinates), by Gauss-Legendre quadrature. With shift the disc is
/// laid out as sine of an angle by share of the half chord, on which the kernel is smooth up to the rim.
/// </remarks>
public static class MewmaRunLength
{
    /// <summary>Greatest radius over weight at which a chart with shift is solved: some 2,000 nodes.</summary>
    private const double MostReach = 15;

    /// <summary>The law of the run length.</summary>
    /// <param name="weight">Weight w of the newest point, above 0 and at most 1.</param>
    /// <param name="limit">Limit of the statistic, a squared length, above zero.</param>
    /// <param name="shift">
    /// Length of the mean of the points, in standard deviations (its root of the noncentrality); only the length matters.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A weight, limit or shift that can't be, a chart that runs longer than a billion points, or a shift under a weight so small that the
    /// equation has too many nodes (radius over weight above 15).
    /// </exception>
    public static RunLengthLaw Plane(double weight, double limit, double shift = 0)
    {
        SignalChain.Weight(weight);
        Guard.Positive(limit);
        Guard.Finite(shift);
        if (shift != 0 && weight < 1 && limit > MostReach * MostReach * weight * (2 - weight))
            throw Guard.Refused(nameof(limit), limit, $"at most {Rounding.Fixed(MostReach * MostReach * weight * (2 - weight), 1)} with a "
                + $"shift and a weight of {weight}");
        return Law(weight, limit, shift).Checked(limit);
    }

    private static RunLengthLaw Law(double weight, double limit, double shift)
    {
        if (weight == 1) return ShewhartRunLength.PlaneLaw(limit, shift);
        var radius = Math.Sqrt(limit * weight / (2 - weight));
        return shift == 0 ? Radial(weight, radius) : Shifted(weight, radius, Math.Abs(shift));
    }

    /// <summary>The limit at which the chart has an average run length without shift.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="weight">Weight w of the newest point, above 0 and at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An average or weight that can't be.</exception>
    public static double LimitFor(double average, double weight)
    {
        Plane(weight, 1);
        return SignalChain.LimitFor(SignalChain.Checked(average), limit => Law(weight, limit, 0).Average, 9);
    }

    /// <summary>
    /// The law on two thirds of the nodes along each axis: for the chance of a signal within some hundred points, which it gives
    /// to 1e-5, and not for the average, which takes many more points to settle.
    /// </summary>
    internal static RunLengthLaw Early(double weight, double limit, double shift) => weight == 1 ? ShewhartRunLength.PlaneLaw(limit, shift)
        : Shifted(weight, Math.Sqrt(limit * weight / (2 - weight)), shift, 0.67);

    private static RunLengthLaw Radial(double weight, double radius)
    {
        var rule = new Quadrature(0, radius, SignalChain.Nodes(radius, weight));
        var (at, start, moves) = (rule.Nodes, new double[rule.Order], new double[rule.Order, rule.Order]);
        for (var j = 0; j < at.Length; j++)
        {
            start[j] = Move(0, j);
            for (var i = 0; i < at.Length; i++) moves[i, j] = Move(at[i], j);
        }
        return SignalChain.Law(start, moves);

        // Rice's density of the next length.
        double Move(double from, int j)
        {
            var (near, to) = ((1 - weight) * from / weight, at[j] / weight);
            return rule.Weight(j) * to / weight * Math.Exp(-(to - near) * (to - near) / 2) * BesselI0.Scaled(to * near);
        }
    }

    private static RunLengthLaw Shifted(double weight, double radius, double shift, double share = 1)
    {
        // The half of the disc on one side of the shift's direction serves for both.
        // So many nodes give ten digits.
        var along = new Quadrature(-Math.PI / 2, Math.PI / 2, (int)Math.Ceiling(share * (20 + 4.6 * radius / weight)));
        var across = new Quadrature(0, 1, (int)Math.Ceiling(share * (6 + 1.2 * radius / weight)));
        var n = along.Order * across.Order;
        var (x, y, area, start, moves) = (new double[n], new double[n], new double[n], new double[n], new double[n, n]);
        for (var i = 0; i < along.Order; i++)
        {
            var (sin, cos) = Math.SinCos(along.At(i));
            for (var j = 0; j < across.Order; j++)
            {
                var k = i * across.Order + j;
                (x[k], y[k]) = (radius * sin, radius * cos * across.At(j));
                area[k] = along.Weight(i) * across.Weight(j) * radius * radius * cos * cos;
            }
        }
        for (var k = 0; k < n; k++)
        {
            start[k] = Move(0, 0, k);
            for (var i = 0; i < n; i++) moves[i, k] = Move(x[i], y[i], k);
        }
        return SignalChain.Law(start, moves);

        double Move(double fromX, double fromY, int k)
        {
            var u = (x[k] - (1 - weight) * fromX) / weight - shift;
            var (near, far) = ((y[k] - (1 - weight) * fromY) / weight, (y[k] + (1 - weight) * fromY) / weight);
            return area[k] / (2 * Math.PI * weight * weight) * Math.Exp(-u * u / 2) * (Math.Exp(-near * near / 2)
                + Math.Exp(-far * far / 2));
        }
    }
}
