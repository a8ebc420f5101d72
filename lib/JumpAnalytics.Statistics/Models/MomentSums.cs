namespace JumpAnalytics.Statistics;

/// <summary>
/// Count, mean and centred second moments of a set of points, updated one point or one set at a time (Welford's update,
/// and its pairwise form by Chan, Golub and LeVeque 1983), so that no digits are lost when the bias is large.
/// </summary>
internal struct MomentSums
{
    public double Count;
    private double _mean1, _mean2, _s11, _s22, _s12;

    public void Add(PlaneVector point)
    {
        Count++;
        var d1 = point.Along - _mean1;
        var d2 = point.Across - _mean2;
        _mean1 += d1 / Count;
        _mean2 += d2 / Count;
        _s11 += d1 * (point.Along - _mean1);
        _s22 += d2 * (point.Across - _mean2);
        _s12 += d1 * (point.Across - _mean2);
    }

    public void Add(in MomentSums other)
    {
        if (other.Count == 0) return;
        var total = Count + other.Count;
        var d1 = other._mean1 - _mean1;
        var d2 = other._mean2 - _mean2;
        var cross = Count * other.Count / total;
        _s11 += other._s11 + d1 * d1 * cross;
        _s22 += other._s22 + d2 * d2 * cross;
        _s12 += other._s12 + d1 * d2 * cross;
        _mean1 += d1 * other.Count / total;
        _mean2 += d2 * other.Count / total;
        Count = total;
    }

    /// <summary>Mean and covariance with divisor n − 1, or why there are none.</summary>
    public readonly Fit<BivariateNormal> Fit(SampleNouns nouns)
    {
        if (Count < BivariateNormal.FewestPoints)
            return Fit<BivariateNormal>.Refused($"{BivariateNormal.Placed((int)Count, nouns)}; a normal needs "
                + $"{BivariateNormal.FewestPoints}");
        var (v1, v2, c) = (_s11 / (Count - 1), _s22 / (Count - 1), _s12 / (Count - 1));
        return BivariateNormal.WhyFlat(v1, v2, c, nouns) is { } flat
            ? Fit<BivariateNormal>.Refused(flat) : Fit<BivariateNormal>.Made(new BivariateNormal(_mean1, _mean2, v1, v2, c));
    }
}
