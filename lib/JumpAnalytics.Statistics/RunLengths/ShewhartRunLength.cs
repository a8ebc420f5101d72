namespace JumpAnalytics.Statistics;

/// <summary>
/// Run lengths of charts that look at each point by itself (Shewhart 1931): every point signals with the same probability.
/// </summary>
public static class ShewhartRunLength
{
    /// <summary>Standard normal points that signal when they leave ± limit.</summary>
    /// <param name="limit">Limit in standard deviations, above zero.</param>
    /// <param name="shift">Mean of the points, in standard deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A limit or shift that can't be, or a chart that runs longer than a billion points.
    /// </exception>
    public static RunLengthLaw TwoSided(double limit, double shift = 0)
    {
        Guard.Positive(limit);
        Guard.Finite(shift);
        return Law(limit, shift).Checked(limit);
    }

    /// <summary>The same law whatever its average.</summary>
    internal static RunLengthLaw Law(double limit, double shift) =>
        RunLengthLaw.Geometric(NormalInterval.Below(shift - limit) + NormalInterval.Below(-shift - limit));

    /// <summary>
    /// Points of two independent standard normal coordinates that signal when the sum of their squares passes the limit: a chi-square
    /// chart, Hotelling's for a known covariance.
    /// </summary>
    /// <param name="limit">Limit of the sum of squares, above zero; 10.597 signals once in 200 points without shift.</param>
    /// <param name="shift">Length of the mean of the points, in standard deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A limit or shift that can't be, or a chart that runs longer than a billion points.
    /// </exception>
    public static RunLengthLaw Plane(double limit, double shift = 0)
    {
        Guard.Positive(limit);
        Guard.Finite(shift);
        return PlaneLaw(limit, shift).Checked(limit);
    }

    /// <summary>The same law whatever its average.</summary>
    internal static RunLengthLaw PlaneLaw(double limit, double shift) =>
        RunLengthLaw.Geometric(DiscProbability.Outside(Math.Sqrt(limit), shift, 0, 1, 1, 0));
}
