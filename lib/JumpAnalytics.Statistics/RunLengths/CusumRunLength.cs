namespace JumpAnalytics.Statistics;

/// <summary>
/// Run lengths of cumulative-sum charts of independent standard normal points: C ← max(0, C + x − k), a signal when C passes the limit h.
/// </summary>
/// <remarks>
/// Page's (1954, Biometrika 41:100-115) integral equation with the probability at zero apart, by Gauss-Legendre quadrature, whose error
/// falls faster than any power of the number of nodes. A head start (Lucas and Crosier 1982, Technometrics 24:199-205) is where the sums
/// stand before the first point.
/// </remarks>
public static class CusumRunLength
{
    /// <summary>The chart of rises.</summary>
    /// <param name="reference">
    /// Reference value k, zero or more, in standard deviations of a point: half the shift that is to be found soonest.
    /// </param>
    /// <param name="limit">Limit h, above zero, in the same unit.</param>
    /// <param name="shift">Mean of the points, in the same unit.</param>
    /// <param name="headStart">Where the sum starts, 0 to the limit.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be, or a chart that runs longer than a billion points.</exception>
    public static RunLengthLaw OneSided(double reference, double limit, double shift = 0, double headStart = 0)
    {
        Check(reference, limit, shift);
        Guard.Within(headStart, 0, limit);
        return Side(reference, limit, shift, headStart).Checked(limit);
    }

    /// <summary>The charts of rises and of falls, side by side with the same limit: until one of them signals.</summary>
    /// <param name="reference">Reference value k, zero or more, in standard deviations of a point.</param>
    /// <param name="limit">Limit h, above zero.</param>
    /// <param name="shift">Mean of the points.</param>
    /// <param name="headStart">
    /// Where both sums start, 0 to half the limit plus the reference value: above that both may stand above zero when one signals.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be, or a chart that runs longer than a billion points.</exception>
    public static RunLengthLaw TwoSided(double reference, double limit, double shift = 0, double headStart = 0)
    {
        Check(reference, limit, shift);
        Guard.Within(headStart, 0, Math.Min(limit, limit / 2 + reference));
        return Law(reference, limit, shift, headStart).Checked(limit);
    }

    /// <summary>The law of both sides whatever its average.</summary>
    internal static RunLengthLaw Law(double reference, double limit, double shift, double headStart = 0)
    {
        var (up, down) = (Side(reference, limit, shift, 0), Side(reference, limit, -shift, 0));
        return headStart == 0 ? RunLengthLaw.Either(up, down)
            : RunLengthLaw.Either(up, down, Side(reference, limit, shift, headStart), Side(reference, limit, -shift, headStart));
    }

    /// <summary>The limit at which the two-sided chart has an average run length without shift.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="reference">Reference value k, zero or more.</param>
    /// <param name="headStart">Where both sums start as a share of the limit, 0 to ½.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be, or an average that no limit gives.</exception>
    public static double LimitFor(double average, double reference, double headStart = 0)
    {
        Guard.Within(headStart, 0, 0.5);
        Check(reference, 1, 0);
        return SignalChain.LimitFor(SignalChain.Checked(average), limit => Law(reference, limit, 0, headStart * limit).Average, 3);
    }

    /// <summary>The limit at which the one-sided chart has an average run length without shift.</summary>
    /// <param name="average">Average run length, 2 to 1,000,000 points.</param>
    /// <param name="reference">Reference value k, zero or more.</param>
    /// <param name="headStart">Where the sum starts as a share of the limit, 0 to ½.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be, or an average that no limit gives.</exception>
    public static double OneSidedLimitFor(double average, double reference, double headStart = 0)
    {
        Guard.Within(headStart, 0, 0.5);
        Check(reference, 1, 0);
        return SignalChain.LimitFor(SignalChain.Checked(average), limit => Side(reference, limit, 0, headStart * limit).Average, 3);
    }

    private static RunLengthLaw Side(double reference, double limit, double shift, double start) =>
        AtomChain.Law(limit, 1, start, from => from + shift - reference);

    private static void Check(double reference, double limit, double shift)
    {
        Guard.NotNegative(reference);
        Guard.Positive(limit);
        Guard.Finite(shift);
    }
}
