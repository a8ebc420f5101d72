namespace JumpAnalytics;

/// <summary>The difference of two hit rates over the same missions.</summary>
/// <remarks>
/// Linearised: mission m moves the difference by its residual of one rate less its residual of the other. Student's t has as many degrees
/// of freedom, less one, as there are missions that the change touches, or that are left, whichever are fewer: a limit that touches few
/// missions is known only as well as those few tell. Coverage is measured by a test. Where no mission is touched the limits are the share
/// of missions that would still leave none of so many touched with a chance of 1 − confidence (Hanley and Lippman-Hand 1983, Journal of the
/// American Medical Association 249:1743-1745; cited from memory).
/// </remarks>
internal static class PairedRates
{
    /// <summary>Fewest missions that carry a change for an interval; with fewer it would span nearly everything.</summary>
    private const int FewestCarrying = 4;

    /// <summary>Second rate less first.</summary>
    /// <param name="first">Hits and landings of each mission.</param>
    /// <param name="second">Hits and landings of the same missions otherwise; none where the mission is not flown.</param>
    /// <param name="confidence">Coverage.</param>
    public static Estimate Change(IReadOnlyList<(double Hits, double Landings)> first,
        IReadOnlyList<(double Hits, double Landings)> second, double confidence)
    {
        var (n1, n2) = (first.Sum(m => m.Landings), second.Sum(m => m.Landings));
        var (p1, p2) = (first.Sum(m => m.Hits) / n1, second.Sum(m => m.Hits) / n2);
        var moves = first.Zip(second, (a, b) => (b.Hits - p2 * b.Landings) / n2 - (a.Hits - p1 * a.Landings) / n1).ToArray();
        var touched = first.Zip(second).Count(m => m.First != m.Second);
        if (touched == 0)
        {
            var rare = 1 - Math.Pow(1 - confidence, 1.0 / first.Count(m => m.Landings > 0));
            return Estimate.Of(0, new Interval(-rare, rare));
        }
        var carrying = Math.Min(touched, second.Count(m => m.Landings > 0));
        var squares = moves.Sum(d => d * d);
        if (carrying < FewestCarrying) return Estimate.WithoutRange(p2 - p1, $"it rests on {Rounding.Count(carrying, "mission")}");
        if (squares < 1e-20) return Estimate.WithoutRange(p2 - p1, "no two missions differ");
        var half = QuantileOf.T(carrying - 1, TailShare.Middle(confidence)) * Math.Sqrt(squares * carrying / (carrying - 1));
        return Estimate.Of(p2 - p1, new Interval(Math.Max(-1, p2 - p1 - half), Math.Min(1, p2 - p1 + half)));
    }
}
