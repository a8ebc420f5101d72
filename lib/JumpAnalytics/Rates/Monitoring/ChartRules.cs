namespace JumpAnalytics;

/// <summary>The rules of the charts of scores.</summary>
internal static class ChartRules
{
    /// <summary>Moving average of scores between two limits.</summary>
    /// <param name="weight">Weight of the newest score.</param>
    /// <param name="limit">Limit in standard deviations of the average after many scores.</param>
    /// <param name="told">Direction and size of a change.</param>
    public static ChartRule Average(double weight, double limit, Func<IReadOnlyList<ChartValue>, bool, (string, string)> told)
    {
        var end = limit * Math.Sqrt(weight / (2 - weight));
        return new ChartRule
        {
            Next = (s, v) => ((1 - weight) * s.A + weight * v.First, 0),
            Shown = s => (s.A, s.A),
            Upper = end,
            Lower = -end,
            ChangeAt = (since, above) => ChartWalk.AfterLast(since, s => above ? s.A <= 0 : s.A >= 0),
            Told = told,
        };
    }

    /// <summary>Cumulative sums of scores, up and down.</summary>
    /// <param name="reference">Reference value.</param>
    /// <param name="limit">Limit of either sum.</param>
    /// <param name="told">Direction and size of a change.</param>
    public static ChartRule Sums(double reference, double limit, Func<IReadOnlyList<ChartValue>, bool, (string, string)> told) => new()
    {
        Next = (s, v) => CusumChart.Next(s, v.First, reference),
        Shown = s => (s.A, -s.B),
        Upper = limit,
        Lower = -limit,
        ChangeAt = (since, above) => ChartWalk.AfterLast(since, s => (above ? s.A : s.B) <= 0),
        Told = told,
    };

    /// <summary>Cumulative sums of steps that a mission adds to either, with one limit in steps.</summary>
    /// <param name="unit">Size of a step as it is shown.</param>
    /// <param name="limit">Steps that do not signal.</param>
    /// <param name="told">Direction and size of a change.</param>
    public static ChartRule Steps(double unit, int limit, Func<IReadOnlyList<ChartValue>, bool, (string, string)> told) => new()
    {
        Next = (s, v) => (Math.Max(0, s.A + v.First), Math.Max(0, s.B + v.Second)),
        Shown = s => (unit * s.A, -unit * s.B),
        Upper = unit * (limit + 0.5),
        Lower = -unit * (limit + 0.5),
        ChangeAt = (since, above) => ChartWalk.AfterLast(since, s => (above ? s.A : s.B) <= 0),
        Told = told,
    };

    /// <summary>Moving average of pairs of scores, in squared standard deviations of the average after many.</summary>
    /// <param name="weight">Weight of the newest pair.</param>
    /// <param name="limit">Limit of the squared length.</param>
    /// <param name="told">Direction and size of a change.</param>
    public static ChartRule Plane(double weight, double limit, Func<IReadOnlyList<ChartValue>, bool, (string, string)> told) => new()
    {
        Next = (s, v) => ((1 - weight) * s.A + weight * v.First, (1 - weight) * s.B + weight * v.Second),
        Shown = s => ((s.A * s.A + s.B * s.B) * (2 - weight) / weight, null),
        Upper = limit,
        Lower = null,
        ChangeAt = (since, _) => ChartWalk.LikeliestShift(since),
        Told = told,
    };
}
