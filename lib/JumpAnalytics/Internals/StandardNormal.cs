namespace JumpAnalytics;

/// <summary>Draws from the standard normal distribution.</summary>
internal static class StandardNormal
{
    /// <summary>Two independent draws from two uniform ones (Box and Muller 1958, Annals of Mathematical Statistics 29:610-611).</summary>
    public static (double First, double Second) Pair(Random random)
    {
        var length = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
        var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
        return (length * cos, length * sin);
    }
}
