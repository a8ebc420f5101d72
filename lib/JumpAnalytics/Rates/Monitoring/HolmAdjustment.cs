namespace JumpAnalytics;

/// <summary>
/// P-values of several tests held together, so that one false finding among them all has the chance stated (Holm 1979, Scandinavian
/// Journal of Statistics 6:65-70).
/// </summary>
internal static class HolmAdjustment
{
    /// <summary>Adjusted values in the order given; whatever the dependence of the tests.</summary>
    public static double[] Of(IReadOnlyList<double> values)
    {
        var adjusted = new double[values.Count];
        var (greatest, left) = (0.0, values.Count);
        foreach (var i in Enumerable.Range(0, values.Count).OrderBy(i => values[i]))
            adjusted[i] = greatest = Math.Max(greatest, Math.Min(1, left-- * values[i]));
        return adjusted;
    }
}
