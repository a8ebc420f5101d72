namespace JumpAnalytics.Statistics;

/// <summary>
/// The spread of a point under a t or a mixture is itself random: scale factors of the variance of its normal core, with their weights.
/// Exact for a mixture; for a t a trapezoid rule in the logarithm of the spread, which converges faster than any power.
/// </summary>
internal static class SpreadNodes
{
    /// <summary>Below this the nodes of a t reach too far; its mean distances are barely finite there.</summary>
    public const double LeastFreedom = 1.05;

    /// <summary>
    /// Mean of the root of the sum of two independent scale factors: of two points' distance, in units of one of the core's.
    /// </summary>
    public static double MeanRootOfTwo((double Scale, double Weight)[] nodes)
    {
        var sum = 0.0;
        for (var i = 0; i < nodes.Length; i++)
        {
            sum += nodes[i].Weight * nodes[i].Weight * Math.Sqrt(2 * nodes[i].Scale);
            for (var j = 0; j < i; j++) sum += 2 * nodes[i].Weight * nodes[j].Weight * Math.Sqrt(nodes[i].Scale + nodes[j].Scale);
        }
        return sum;
    }

    /// <summary>The two scales of a mixture.</summary>
    public static (double Scale, double Weight)[] Of(ScaleMixture mixture) =>
        [(1, 1 - mixture.WideShare), (mixture.Widening * mixture.Widening, mixture.WideShare)];

    /// <summary>
    /// Scales e^(−2t) of a t, where the chi-squared of ν degrees of freedom is ν e^(2t): its density in t is
    /// proportional to exp(νt − ν/2 e^(2t)).
    /// </summary>
    public static (double Scale, double Weight)[] Of(BivariateT t)
    {
        const double Negligible = 38; // e^-38 of the largest
        var v = t.DegreesOfFreedom;
        var step = Math.Min(0.16, 0.4 / Math.Sqrt(2 * v));
        var nodes = new List<(double Scale, double Weight)>();
        for (var k = 0; LogWeight(k * step) > -Negligible; k++) Add(k);
        for (var k = -1; LogWeight(k * step) - k * step > -Negligible; k--) Add(k); // times the root of the scale, which grows
        var total = nodes.Sum(n => n.Weight);
        return [.. nodes.Select(n => (n.Scale, n.Weight / total))];

        void Add(int k) => nodes.Add((Math.Exp(-2 * k * step), Math.Exp(LogWeight(k * step))));
        double LogWeight(double at) => v * at - v / 2 * (Math.Exp(2 * at) - 1);
    }
}
