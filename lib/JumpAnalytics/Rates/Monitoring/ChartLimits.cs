using System.Collections.Concurrent;

namespace JumpAnalytics;

/// <summary>Limits and laws of the charts of scores, which hang on the settings alone: made once for all spotters.</summary>
internal sealed class ChartLimits(ChartOptions charts)
{
    private readonly Lazy<(double, RunLengthLaw)> _average =
        new(() => EwmaRunLength.LimitFor(charts.InControlRunLength, charts.Weight) is var l
            ? (l, EwmaRunLength.TwoSided(charts.Weight, l)) : default);
    private readonly Lazy<(double, RunLengthLaw)> _sums =
        new(() => CusumRunLength.LimitFor(charts.InControlRunLength, charts.ReferenceValue) is var l
            ? (l, CusumRunLength.TwoSided(charts.ReferenceValue, l)) : default);
    private readonly Lazy<(double, RunLengthLaw)> _plane = new(() =>
        MewmaRunLength.LimitFor(charts.InControlRunLength, charts.Weight) is var l ? (l, MewmaRunLength.Plane(charts.Weight, l)) : default);

    /// <summary>Of the moving average, in its standard deviations.</summary>
    public (double Limit, RunLengthLaw Law) Average => _average.Value;

    /// <summary>Of the cumulative sums, in standard deviations of a mission.</summary>
    public (double Limit, RunLengthLaw Law) Sums => _sums.Value;

    /// <summary>Of the moving average of the mean miss, a squared length.</summary>
    public (double Limit, RunLengthLaw Law) Plane => _plane.Value;

    private readonly ConcurrentDictionary<(string, int), Lazy<Interval>> _ranges = new();

    /// <summary>
    /// Run lengths that references of some length leave; lengths within a twentieth of one another share theirs, because each
    /// takes hundreds of run lengths.
    /// </summary>
    public Interval Range(string purpose, int missions, int seed, int axes, Func<double, double, double> averageAt)
    {
        var step = (int)Math.Round(10 * Math.Log(missions));
        return _ranges.GetOrAdd((purpose, step),
            _ => new(() => ReferenceLength.Range((int)Math.Round(Math.Exp(step / 10.0)), seed, purpose, axes, averageAt))).Value;
    }
}
