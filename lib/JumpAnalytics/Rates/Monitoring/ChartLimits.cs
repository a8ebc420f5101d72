namespace JumpAnalytics;

/// <summary>Limits and laws of the charts of scores, which depend on the settings alone: made once for all spotters.</summary>
internal sealed class ChartLimits(ChartOptions charts)
{
    private readonly Lazy<(double, RunLengthLaw)> _average =
        new(() => EwmaRunLength.LimitFor(charts.InControlRunLength, charts.Weight) is var l
            ? (l, EwmaRunLength.TwoSided(charts.Weight, l)) : default);
    private readonly Lazy<(double, RunLengthLaw)?> _sums =
        new(() => charts.WhyNoSums is null && CusumRunLength.LimitFor(charts.InControlRunLength, charts.ReferenceValue) is var l
            ? (l, CusumRunLength.TwoSided(charts.ReferenceValue, l)) : null);
    private readonly Lazy<(double, RunLengthLaw)> _plane = new(() =>
        MewmaRunLength.LimitFor(charts.InControlRunLength, charts.Weight) is var l ? (l, MewmaRunLength.Plane(charts.Weight, l)) : default);

    /// <summary>Of the moving average, in its standard deviations.</summary>
    public (double Limit, RunLengthLaw Law) Average => _average.Value;

    /// <summary>
    /// Of the cumulative sums, in standard deviations of a mission; null where <see cref="ChartOptions.WhyNoSums"/> says why.
    /// </summary>
    public (double Limit, RunLengthLaw Law)? Sums => _sums.Value;

    /// <summary>Of the moving average of the mean miss, a squared length.</summary>
    public (double Limit, RunLengthLaw Law) Plane => _plane.Value;
}
