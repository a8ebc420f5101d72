using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Tests on independent directions, radians clockwise. Clusters are independent; the points of one cluster are not:
/// give one direction a cluster.
/// </summary>
public static class DirectionTests
{
    /// <summary>Below this the exact series has no digits left, and an approximation to within a factor of two stands in.</summary>
    private const double LeastExact = 1e-9;

    private const int FewestAlong = 5, FewestMoore = 4;

    /// <summary>
    /// Rayleigh's test that no direction is preferred, against a single preferred one that is not named (Mardia and Jupp 2000, section
    /// 6.3.1). The statistic is R̄. Its chance is exact for any number of directions (Greenwood and Durand 1955), to 1e-9; smaller ones are
    /// approximate (Zar 2010, equation 27.4).
    /// </summary>
    /// <param name="radians">Two directions or more.</param>
    /// <returns>The test, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">An angle is not finite.</exception>
    public static Fit<DirectionTestResult> Rayleigh(IReadOnlyList<double> radians)
    {
        Check(radians);
        var n = radians.Count;
        if (n < 2) return Fit<DirectionTestResult>.Refused($"{n} direction{(n == 1 ? "" : "s")}; a test needs two");
        var (cos, sin) = Sum(radians);
        var length = double.Hypot(cos, sin);
        return Fit<DirectionTestResult>.Made(new("Rayleigh", length / n, RayleighP(n, length), n));
    }

    /// <summary>Chance that the sum of n uniform directions is as long as r or longer.</summary>
    internal static double RayleighP(int n, double r)
    {
        var p = UniformResultant.Above([.. Enumerable.Repeat(1.0, n)], r);
        return p >= LeastExact
            ? p : Math.Min(LeastExact, Math.Exp(Math.Sqrt(Math.Max(0, 1 + 4.0 * n + 4 * ((double)n * n - r * r))) - (1 + 2.0 * n)));
    }

    /// <summary>
    /// V test that no direction is preferred, against a preferred one named beforehand (Mardia and Jupp 2000, section 6.3.1). The statistic
    /// is R̄ cos(mean − named); its chance is exact (Greenwood and Durand 1955).
    /// </summary>
    /// <param name="radians">Five directions or more.</param>
    /// <param name="towards">The direction named beforehand, radians.</param>
    /// <returns>The test, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">An angle is not finite.</exception>
    public static Fit<DirectionTestResult> Towards(IReadOnlyList<double> radians, double towards)
    {
        Check(radians);
        Check([towards]);
        var n = radians.Count;
        if (n < FewestAlong) return Fit<DirectionTestResult>.Refused($"{n} direction{(n == 1 ? "" : "s")}; this test needs {FewestAlong}");
        var along = radians.Sum(a => Math.Cos(a - towards));
        return Fit<DirectionTestResult>.Made(new("V", along / n, UniformResultant.AboveAlong(n, along), n));
    }

    /// <summary>
    /// Moore's test (1980, Biometrika 67:175-180) that vectors prefer no direction: Rayleigh's with each direction weighted by the rank
    /// of its length, 1 for the shortest, equal lengths sharing the mean rank. The statistic is R* = |Σ rank·direction| / n^1.5; its
    /// chance is exact, given the ranks.
    /// </summary>
    /// <param name="vectors">Two coordinates each; a vector without length has no direction and is left out.</param>
    /// <returns>The test, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">A coordinate is not finite.</exception>
    public static Fit<DirectionTestResult> Moore(IReadOnlyList<(double First, double Second)> vectors)
    {
        Check([.. vectors.SelectMany(v => new[] { v.First, v.Second })]);
        var used = vectors.Select(v => (v.First, v.Second, Length: double.Hypot(v.First, v.Second)))
            .Where(v => v.Length > 0).OrderBy(v => v.Length).ToList();
        var n = used.Count;
        if (n < FewestMoore) return Fit<DirectionTestResult>.Refused($"{n} direction{(n == 1 ? "" : "s")}; this test needs {FewestMoore}");
        var ranks = new double[n];
        for (var i = 0; i < n;)
        {
            var last = i;
            while (last + 1 < n && used[last + 1].Length <= used[i].Length * (1 + 1e-12)) last++;
            Array.Fill(ranks, (i + last) / 2.0 + 1, i, last - i + 1);
            i = last + 1;
        }
        var length = double.Hypot(
            used.Select((v, i) => ranks[i] * v.First / v.Length).Sum(), used.Select((v, i) => ranks[i] * v.Second / v.Length).Sum());
        var p = UniformResultant.Above(ranks, length);
        return Fit<DirectionTestResult>.Made(new("Moore", length / Math.Pow(n, 1.5), Math.Max(p, LeastExact), n));
    }

    /// <summary>
    /// Watson and Williams' test (1956, Biometrika 43:344-352) that groups of directions have one mean direction, for von Mises
    /// distributions of one concentration that is not small (mean resultant above about 0.45). The statistic is F on k − 1 and n − k
    /// degrees, corrected by 1 + 3/(8κ) with κ from the mean resultant within groups (Zar 2010, section 27.6).
    /// </summary>
    /// <param name="groups">Two groups or more of two directions or more.</param>
    /// <returns>The test, or the reason why there is none.</returns>
    /// <exception cref="ArgumentException">An angle is not finite.</exception>
    public static Fit<DirectionTestResult> WatsonWilliams(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        foreach (var group in groups) Check(group);
        if (groups.Count < 2 || groups.Any(g => g.Count < 2))
            return Fit<DirectionTestResult>.Refused("the test needs two groups or more, of two directions or more each");
        var lengths = groups.Select(g => Length(Sum(g))).ToArray();
        var (n, k, within) = (groups.Sum(g => g.Count), groups.Count, lengths.Sum());
        var all = Length(Sum([.. groups.SelectMany(g => g)]));
        if (n - within < 1e-12 * n) return Fit<DirectionTestResult>.Refused("in each group all directions are the same");
        var kappa = BesselRatio.Inverse(within / n);
        var f = (1 + 3 / (8 * kappa)) * (n - k) * (within - all) / ((k - 1) * (n - within));
        return Fit<DirectionTestResult>.Made(new("Watson-Williams", f, 1 - FisherSnedecor.CDF(k - 1, n - k, Math.Max(0, f)), n));

        static double Length((double Cos, double Sin) sum) => double.Hypot(sum.Cos, sum.Sin);
    }

    internal static (double Cos, double Sin) Sum(IReadOnlyList<double> radians)
    {
        var (cos, sin) = (0.0, 0.0);
        foreach (var angle in radians)
        {
            var (s, c) = Math.SinCos(angle);
            (cos, sin) = (cos + c, sin + s);
        }
        return (cos, sin);
    }

    internal static void Check(IReadOnlyList<double> numbers)
    {
        foreach (var x in numbers)
        {
            if (!double.IsFinite(x)) throw new ArgumentException($"Directions must be finite numbers; found {x}.");
        }
    }
}
