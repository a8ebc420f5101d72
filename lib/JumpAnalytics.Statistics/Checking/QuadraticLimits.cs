namespace JumpAnalytics;

/// <summary>
/// Limit distributions of A² and W² for a distribution that was fixed beforehand: sums of squared standard normals with weights 1/(j(j+1))
/// and 1/(jπ)². Exact to about 1e-14, and with relative accuracy in the upper tail.
/// </summary>
/// <remarks>
/// Smirnov's formula (Anderson and Darling 1952, Annals of Mathematical Statistics 23:193-212): the tail is an alternating sum of integrals of
/// exp(−xu) / (πu √|D(u)|) between successive zeros of the Fredholm determinant D, two by two. D is sin √(2u) / √(2u) for W² and
/// −cos(½π√(1+8u)) / (2πu) for A². Along the argument s of the sine each integral has root singularities at both ends; with s = π sin²(θ/2)
/// it is smooth and periodic in θ, and equally spaced angles converge geometrically.
/// </remarks>
internal static class QuadraticLimits
{
    // The integrals for u·x beyond this are below the rounding of 1, and the laws have less than that below these points.
    private const double Negligible = 40;
    private const double LeastAnderson = 0.02;
    private const double LeastCramer = 0.003;

    private const int Nodes = 96;
    private static readonly (double Sine, double Weight)[] _nodes = [.. Enumerable.Range(0, Nodes).Select(Node)];

    /// <summary>Probability of an A² above x.</summary>
    public static double AndersonDarling(double x) => x < LeastAnderson ? 1 : Tail(x, (k, s) =>
    {
        var v = 4 * k - 1 + 2 * s / Math.PI;
        var u = (v * v - 1) / 8;
        return (u, Math.Sqrt(2 * Math.PI / u) * v / (2 * Math.PI));
    });

    /// <summary>Probability of a W² above x.</summary>
    public static double CramerVonMises(double x) => x < LeastCramer ? 1 : Tail(x, (k, s) =>
    {
        var v = (2 * k - 1) * Math.PI + s;
        return (v * v / 2, 2 / Math.Sqrt(v));
    });

    /// <param name="x">The value asked for.</param>
    /// <param name="at">For the k-th integral and the argument s of the sine: u, and the factor beside exp(−xu)/√sin s.</param>
    private static double Tail(double x, Func<int, double, (double U, double Factor)> at)
    {
        var sum = 0.0;
        var first = at(1, 0).U;
        for (var k = 1; k == 1 || (at(k, 0).U - first) * x < Negligible; k++)
        {
            var integral = 0.0;
            foreach (var (s, weight) in _nodes)
            {
                var (u, factor) = at(k, s);
                integral += weight * factor * Math.Exp(-x * u);
            }
            sum += (k % 2 == 1 ? integral : -integral) / Math.PI;
        }
        return Math.Clamp(sum, 0, 1);
    }

    private static (double, double) Node(int i)
    {
        var (sin, cos) = Math.SinCos((i + 0.5) * Math.PI / (2 * Nodes));
        var sine = Math.Sin(Math.PI * Math.Min(sin * sin, cos * cos));
        return (Math.PI * sin * sin, Math.PI / Nodes * Math.PI * sin * cos / Math.Sqrt(sine));
    }
}
