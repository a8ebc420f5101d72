namespace JumpAnalytics.Statistics;

/// <summary>One value on a chart of cumulative sums.</summary>
/// <param name="Number">Its place in the series, from 1.</param>
/// <param name="Value">The value, in its own unit.</param>
/// <param name="Upper">Sum of rises, in standard deviations, zero or more.</param>
/// <param name="Lower">Sum of falls, in standard deviations, zero or more.</param>
/// <param name="Signal">1 when the sum of rises passes the limit, −1 when that of falls does, 0 else. Both start anew after it.</param>
[TypeFormatterSource]
public sealed record CusumPoint(int Number, double Value, double Upper, double Lower, int Signal);

/// <summary>
/// A chart of cumulative sums of a series of your own (Page 1954, Biometrika 41:100-115): with z the value less the target in standard
/// deviations, the sum of rises is max(0, sum + z − k) and that of falls max(0, sum − z − k). It signals when a sum is above the
/// limit h; then both start anew.
/// </summary>
/// <remarks>
/// The run lengths are those of independent normal values whose target and standard deviation are known. Estimates of them from few values,
/// long tails, or values that go together make false signals more frequent.
/// </remarks>
[TypeFormatterSource]
public sealed record CusumChart
{
    private CusumChart()
    {
    }

    /// <summary>The values in their order.</summary>
    public required IReadOnlyList<CusumPoint> Points { get; init; }

    /// <summary>Reference value k, in standard deviations: half the shift that is to be found soonest.</summary>
    public required double ReferenceValue { get; init; }

    /// <summary>Limit h, in standard deviations.</summary>
    public required double Limit { get; init; }

    /// <summary>Where both sums start, in standard deviations: a head start (Lucas and Crosier 1982) above zero.</summary>
    public required double HeadStart { get; init; }

    /// <summary>The points at which the chart signals.</summary>
    public IReadOnlyList<CusumPoint> Signals => [.. Points.Where(p => p.Signal != 0)];

    /// <summary>Values until a false signal in the mean, if the series keeps to its target.</summary>
    /// <exception cref="ArgumentOutOfRangeException">More than a billion.</exception>
    public double InControlRunLength => RunLength(0).Average;

    /// <summary>How long the chart runs until it signals.</summary>
    /// <param name="shift">Mean of the values less the target, in standard deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">A shift that is not finite, or a run length of more than a billion.</exception>
    public RunLengthLaw RunLength(double shift) => CusumRunLength.TwoSided(ReferenceValue, Limit, shift, HeadStart);

    /// <summary>Charts a series.</summary>
    /// <param name="values">The values in their order, finite.</param>
    /// <param name="target">What they should be in the mean, in their unit.</param>
    /// <param name="deviation">Standard deviation of one value when nothing changes, in their unit, above zero.</param>
    /// <param name="k">Reference value, zero or more, in standard deviations.</param>
    /// <param name="h">Limit, above zero, in standard deviations; 4.77 with k of ½ has a false signal in 370 values.</param>
    /// <param name="headStart">Where both sums start, 0 to half the limit plus k, in standard deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be.</exception>
    public static CusumChart Of(
        IReadOnlyList<double> values, double target, double deviation, double k = 0.5, double h = 4.77, double headStart = 0)
    {
        Guard.Finite(target);
        Guard.Positive(deviation);
        Guard.NotNegative(k);
        Guard.Positive(h);
        Guard.Within(headStart, 0, Math.Min(h, h / 2 + k));
        var (points, sums) = (new List<CusumPoint>(), (Up: headStart, Down: headStart));
        foreach (var value in values)
        {
            sums = Next(sums, (Guard.Finite(value, nameof(values)) - target) / deviation, k);
            var signal = sums.Up > h ? 1 : sums.Down > h ? -1 : 0;
            points.Add(new CusumPoint(points.Count + 1, value, sums.Up, sums.Down, signal));
            if (signal != 0) sums = (headStart, headStart);
        }
        return new CusumChart { Points = points, ReferenceValue = k, Limit = h, HeadStart = headStart };
    }

    /// <summary>The two sums after one more value, in standard deviations from its target.</summary>
    internal static (double Up, double Down) Next((double Up, double Down) sums, double value, double k) =>
        (Math.Max(0, sums.Up + value - k), Math.Max(0, sums.Down - value - k));
}
