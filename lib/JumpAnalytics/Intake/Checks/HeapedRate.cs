namespace JumpAnalytics;

/// <summary>A landing whose distance may have been anything that rounds to what is written.</summary>
internal sealed record RoundedLanding(Landing Landing, double Low, double High)
{
    private double Radius => Landing.Drop.TargetRadius;

    /// <summary>
    /// Share of the rounding interval inside the target radius; an interval that ends on the radius lies inside whole or not at all.
    /// </summary>
    public double Inside =>
        Landing.IsWithin(High, Radius) ? 1
        : Landing.IsWithin(Radius, Low) ? 0
        : (Radius - Low) / (High - Low);
}

/// <summary>What heaping leaves open: the landing rate and the distances that hold 50, 85 and 95 % of the landings.</summary>
internal sealed record HeapedRate(int Landings, double Written, double Low, double Spread, double High, int OnTheRadius,
    IReadOnlyList<(int Percent, double Written, double Low, double Spread, double High)> Distances)
{
    /// <summary>Points that an interval is spread over.</summary>
    private const int Points = 9;

    /// <param name="landings">Landings whose place is known.</param>
    /// <param name="beyond">Landings known only as beyond the target radius.</param>
    public static HeapedRate Of(IReadOnlyList<RoundedLanding> landings, int beyond)
    {
        double n = landings.Count + beyond;
        var spread =
            landings.SelectMany(l => Enumerable.Range(0, Points).Select(i => l.Low + (l.High - l.Low) * (i + 0.5) / Points)).ToList();
        return new HeapedRate(
            landings.Count + beyond, landings.Count(l => l.Landing.Outcome == LandingOutcome.Hit) / n,
            landings.Count(l => l.Inside >= 1) / n,
            landings.Sum(l => l.Inside) / n, landings.Count(l => l.Inside > 0) / n, landings.Count(l => l.Landing.IsOnTheRadius),
            [.. MissPercents.Select(p => (p, At(landings.Select(l => l.Landing.MissDistance!.Value), p), At(landings.Select(l => l.Low), p),
                At(spread, p), At(landings.Select(l => l.High), p)))]);
    }

    private static readonly int[] MissPercents = [50, 85, 95];

    private static double At(IEnumerable<double> distances, int percent) =>
        HyndmanFan.Quantile(distances, percent / 100.0);
}
