namespace JumpAnalytics;

/// <summary>Sums over the landings of each mission, from which figures of any choice of missions follow quickly.</summary>
internal sealed class MissionSums
{
    private readonly (double N, double X, double Y, double XX, double XY, double YY)[] _missions;

    /// <param name="missions">The pairs of each mission; a mission without any counts for nothing.</param>
    public MissionSums(IReadOnlyList<IReadOnlyList<(double X, double Y)>> missions) => _missions =
        [.. missions.Select(m => ((double)m.Count, m.Sum(p => p.X), m.Sum(p => p.Y), m.Sum(p => p.X * p.X),
            m.Sum(p => p.X * p.Y), m.Sum(p => p.Y * p.Y)))];

    public int Missions => _missions.Length;

    /// <summary>Mean of the first number.</summary>
    public double? MeanX(int[] counts) => Total(counts) is { N: > 0 } t ? t.X / t.N : null;

    /// <summary>Mean of the second number.</summary>
    public double? MeanY(int[] counts) => Total(counts) is { N: > 0 } t ? t.Y / t.N : null;

    /// <summary>Standard deviation of the first number about its mean.</summary>
    public double? SdX(int[] counts) => Total(counts) is { N: > 1 } t ? Math.Sqrt(Math.Max(0, t.XX - t.X * t.X / t.N) / (t.N - 1)) : null;

    /// <summary>Standard deviation of the second number.</summary>
    public double? SdY(int[] counts) => Total(counts) is { N: > 1 } t ? Math.Sqrt(Math.Max(0, t.YY - t.Y * t.Y / t.N) / (t.N - 1)) : null;

    /// <summary>Least-squares slope of the second number on the first.</summary>
    public double? Slope(int[] counts)
    {
        var t = Total(counts);
        var square = t.N > 1 ? t.XX - t.X * t.X / t.N : 0;
        return square > 1e-9 * t.XX ? (t.XY - t.X * t.Y / t.N) / square : null;
    }

    /// <summary>What the line of <see cref="Slope"/> has where the first number is zero.</summary>
    public double? AtZero(int[] counts) => Slope(counts) is { } slope && Total(counts) is var t ? (t.Y - slope * t.X) / t.N : null;

    private (double N, double X, double Y, double XX, double XY, double YY) Total(int[] counts)
    {
        double n = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
        for (var m = 0; m < _missions.Length; m++)
        {
            if (counts[m] == 0) continue;
            var (c, s) = ((double)counts[m], _missions[m]);
            (n, x, y, xx, xy, yy) = (n + c * s.N, x + c * s.X, y + c * s.Y, xx + c * s.XX, xy + c * s.XY, yy + c * s.YY);
        }
        return (n, x, y, xx, xy, yy);
    }
}
