using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// Tests of whether values between 0 and 1 are spread evenly, which is how probabilities under a distribution are spread when it is the
/// right one. The p-values hold for a distribution that was fixed beforehand, not for one fitted to the same values: that needs a bootstrap.
/// </summary>
/// <remarks>Values are taken as independent. All three cost a sort.</remarks>
public static class UniformityTests
{
    /// <summary>Fewest values that are tested.</summary>
    public const int FewestValues = 5;

    /// <summary>Anderson and Darling's A², which gives both tails their weight.</summary>
    /// <param name="values">Values from 0 to 1, in any order.</param>
    /// <returns>
    /// The test, or that there are too few values. Limit distribution with the correction for n of Marsaglia and Marsaglia (2004, Journal of
    /// Statistical Software 9/2); right to 4e-4 with five values, to about 1e-4 from ten on. A value of exactly 0 or 1 counts as 1.1e-16 from it.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not between 0 and 1.</exception>
    public static Fit<FitTest> AndersonDarling(IReadOnlyList<double> values) => Test("Anderson-Darling", "limit distribution, corrected for n", values, sorted =>
    {
        var statistic = EmpiricalDistance.AndersonDarling(sorted, Array.ConvertAll(sorted, v => 1 - v));
        return (statistic, AndersonDarlingTail(statistic, sorted.Length));
    });

    /// <summary>Cramér and von Mises' W², which looks at the middle more than at the tails.</summary>
    /// <param name="values">Values from 0 to 1, in any order.</param>
    /// <returns>
    /// The test, or that there are too few values. Limit distribution with the term in 1/n of Csörgő and Faraway (1996, Journal of the Royal
    /// Statistical Society B 58:221-234); right to 1.5e-3 with five values, to 3e-4 from ten on. Where that term takes more than half of a
    /// small tail, half is left.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not between 0 and 1.</exception>
    public static Fit<FitTest> CramerVonMises(IReadOnlyList<double> values) => Test("Cramér-von Mises", "limit distribution, corrected for n", values, sorted =>
    {
        var statistic = EmpiricalDistance.CramerVonMises(sorted);
        return (statistic, CramerVonMisesTail(statistic, sorted.Length));
    });

    /// <summary>Kolmogorov and Smirnov's D, the largest difference of the two distribution functions.</summary>
    /// <param name="values">Values from 0 to 1, in any order.</param>
    /// <returns>The test, or that there are too few values. Exact distribution up to 500 values; right to 2e-7 beyond.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not between 0 and 1.</exception>
    public static Fit<FitTest> KolmogorovSmirnov(IReadOnlyList<double> values) => Test("Kolmogorov-Smirnov", "distribution for n values", values, sorted =>
    {
        var statistic = EmpiricalDistance.Kolmogorov(sorted);
        return (statistic, KolmogorovLaw.Tail(sorted.Length, statistic));
    });

    /// <summary>Probability of an A² above x in n values.</summary>
    internal static double AndersonDarlingTail(double x, int n)
    {
        var tail = QuadraticLimits.AndersonDarling(x);
        return Math.Clamp(tail - AndersonDarlingShift(1 - tail, n), 0, 1);
    }

    /// <summary>Probability of a W² above x in n values.</summary>
    internal static double CramerVonMisesTail(double x, int n)
    {
        if (12 * n * x <= 1) return 1;
        if (x >= n / 3.0) return 0;
        var tail = QuadraticLimits.CramerVonMises(x);
        return Math.Clamp(tail - ((1 - tail) / 12 + CramerVonMisesShift(x)) / n, tail / 2, 1);
    }

    /// <summary>
    /// What n values add to the limit's distribution function p: the fitted polynomials of Marsaglia and Marsaglia, the last less what
    /// rounding leaves of it at p = 1, so that small tails keep their digits.
    /// </summary>
    private static double AndersonDarlingShift(double p, int n)
    {
        const double AtOne = -0.0006;
        if (p > 0.8)
            return (Polynomial.Evaluate(p, -130.2137, 745.2337, -1705.091, 1950.646, -1116.360, 255.7844) - AtOne * Math.Pow(p, 1000)) / n;
        var join = 0.01265 + 0.1757 / n;
        if (p < join)
        {
            var t = p / join;
            return Math.Sqrt(t) * (1 - t) * (49 * t - 102) * (0.0037 / ((double)n * n) + 0.00078 / n + 0.00006) / n;
        }
        return Polynomial.Evaluate((p - join) / (0.8 - join), -0.00022633, 6.54034, -14.6538, 14.458, -8.259, 1.91864) * (0.04213 + 0.01365 / n) / n;
    }

    /// <summary>The coefficient of 1/n in the distribution function of W², without its term V/12 (Csörgő and Faraway, equation 1.10).</summary>
    private static double CramerVonMisesShift(double x)
    {
        var (root, y1, y2) = (2 * Math.Sqrt(x), Math.Pow(x, 0.75), Math.Pow(x, 1.25));
        var (sum, gamma, factorial) = (0.0, Math.Sqrt(Math.PI), 1.0); // Γ(k + ½) and k!
        for (var k = 0; k < 100; k++)
        {
            var (odd, a, b, c) = (2 * k + 1, (4 * k + 1) / root, (4 * k + 3) / root, (4 * k + 5) / root);
            var term = gamma * (odd * Second(b) / (9 * y1) + Third(a) / (72 * y2) + (odd + 2) * (k + 0.5) * Third(c) / (6 * y2)
                + 7 * odd * (Second(a) + Second(c)) / (144 * y1)) / (Math.PI * factorial);
            sum -= term;
            if (Math.Abs(term) < 1e-17) break;
            (gamma, factorial) = (gamma * (k + 0.5), factorial * (k + 1));
        }
        return sum;

        static double Second(double y) => Scale(y, 1.5) * (Bessel(0.25, y) + Bessel(0.75, y));
        static double Third(double y) => Scale(y, 2.5) * (2 * Bessel(0.25, y) + 3 * Bessel(0.75, y) - Bessel(1.25, y));
        static double Scale(double y, double power) => Math.Exp(-y * y / 2) * Math.Pow(y / 2, power) / Math.Sqrt(Math.PI);
        static double Bessel(double order, double y) => SpecialFunctions.BesselKScaled(order, y * y / 4);
    }

    private static Fit<FitTest> Test(string name, string method, IReadOnlyList<double> values, Func<double[], (double Statistic, double PValue)> measure)
    {
        foreach (var v in values)
        {
            if (!(v >= 0 && v <= 1)) throw new ArgumentOutOfRangeException(nameof(values), v, "Values are probabilities between 0 and 1.");
        }
        if (values.Count < FewestValues) return Fit<FitTest>.Refused($"{values.Count} value{(values.Count == 1 ? "" : "s")}; this test needs {FewestValues}");
        var sorted = values.ToArray();
        Array.Sort(sorted);
        var (statistic, p) = measure(sorted);
        return Fit<FitTest>.Made(new FitTest(name, statistic, p, sorted.Length, method));
    }
}
