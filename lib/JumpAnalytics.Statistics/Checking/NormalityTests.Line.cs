using JumpAnalytics.Internals;
using MathNet.Numerics;

namespace JumpAnalytics;

public static partial class NormalityTests
{
    /// <summary>Anderson and Darling's test of normality for one coordinate, mean and standard deviation estimated.</summary>
    /// <param name="values">Values in any unit.</param>
    /// <returns>
    /// The test, its statistic A², its p-value from the approximation of D'Agostino and Stephens (1986, Goodness-of-Fit Techniques, table 4.9),
    /// which ends at 4e-24; or why it can't be made.
    /// </returns>
    /// <exception cref="ArgumentException">A value is not a finite number.</exception>
    public static Fit<FitTest> AndersonDarling(IReadOnlyList<double> values) => Test("Anderson-Darling", "approximation for estimated parameters", values, (below, beyond) =>
    {
        var n = below.Length;
        var statistic = EmpiricalDistance.AndersonDarling(below, beyond);
        return (statistic, AndersonDarlingTail(statistic * (1 + 0.75 / n + 2.25 / ((double)n * n))));
    });

    /// <summary>Cramér and von Mises' test of normality for one coordinate, mean and standard deviation estimated.</summary>
    /// <param name="values">Values in any unit.</param>
    /// <returns>
    /// The test, its statistic W², its p-value from the approximation of D'Agostino and Stephens (1986, table 4.9), which ends at 7e-10; or why
    /// it can't be made.
    /// </returns>
    /// <exception cref="ArgumentException">A value is not a finite number.</exception>
    public static Fit<FitTest> CramerVonMises(IReadOnlyList<double> values) => Test("Cramér-von Mises", "approximation for estimated parameters", values, (below, _) =>
    {
        var statistic = EmpiricalDistance.CramerVonMises(below);
        return (statistic, CramerVonMisesTail(statistic * (1 + 0.5 / below.Length)));
    });

    /// <summary>Lilliefors' test of normality for one coordinate: Kolmogorov's D, mean and standard deviation estimated.</summary>
    /// <param name="values">Values in any unit.</param>
    /// <returns>
    /// The test, its statistic D, its p-value by Dallal and Wilkinson (1986, American Statistician 40:294-296) up to 0.1 and by Stephens'
    /// (1974, Journal of the American Statistical Association 69:730-737) modified statistic above; or why it can't be made.
    /// </returns>
    /// <exception cref="ArgumentException">A value is not a finite number.</exception>
    public static Fit<FitTest> Lilliefors(IReadOnlyList<double> values) => Test("Lilliefors", "approximation for estimated parameters", values, (below, _) =>
    {
        var statistic = EmpiricalDistance.Kolmogorov(below);
        return (statistic, LillieforsTail(statistic, below.Length));
    });

    private static double AndersonDarlingTail(double a) => a switch
    {
        < 0.2 => 1 - Math.Exp(Polynomial.Evaluate(a, -13.436, 101.14, -223.73)),
        < 0.34 => 1 - Math.Exp(Polynomial.Evaluate(a, -8.318, 42.796, -59.938)),
        < 0.6 => Math.Exp(Polynomial.Evaluate(a, 0.9177, -4.279, -1.38)),
        < 10 => Math.Exp(Polynomial.Evaluate(a, 1.2937, -5.709, 0.0186)),
        _ => 3.7e-24,
    };

    private static double CramerVonMisesTail(double w) => w switch
    {
        < 0.0275 => 1 - Math.Exp(Polynomial.Evaluate(w, -13.953, 775.5, -12542.61)),
        < 0.051 => 1 - Math.Exp(Polynomial.Evaluate(w, -5.903, 179.546, -1515.29)),
        < 0.092 => Math.Exp(Polynomial.Evaluate(w, 0.886, -31.62, 10.897)),
        < 1.1 => Math.Exp(Polynomial.Evaluate(w, 1.111, -34.242, 12.832)),
        _ => 7.37e-10,
    };

    private static double LillieforsTail(double d, int n)
    {
        var (scaled, size) = n <= 100 ? (d, n) : (d * Math.Pow(n / 100.0, 0.49), 100);
        var root = Math.Sqrt(size + 2.78019);
        var p = Math.Exp(-7.01256 * Square(scaled * root) + 2.99587 * scaled * root - 0.122119 + 0.974598 / Math.Sqrt(size) + 1.67997 / size);
        if (p <= 0.1) return p;
        var k = (Math.Sqrt(n) - 0.01 + 0.85 / Math.Sqrt(n)) * d;
        return k switch
        {
            <= 0.302 => 1,
            <= 0.5 => Polynomial.Evaluate(k, 2.76773, -19.828315, 80.709644, -138.55152, 81.218052),
            <= 0.9 => Polynomial.Evaluate(k, -4.901232, 40.662806, -97.490286, 94.029866, -32.355711),
            <= 1.31 => Polynomial.Evaluate(k, 6.198765, -19.558097, 23.186922, -12.234627, 2.423045),
            _ => 0,
        };
    }

    private static Fit<FitTest> Test(string name, string method, IReadOnlyList<double> values, Func<double[], double[], (double Statistic, double PValue)> measure)
    {
        var sorted = values.ToArray();
        foreach (var x in sorted) RequireFinite(x);
        if (sorted.Length < FewestPoints) return TooFew(sorted.Length);
        Array.Sort(sorted);
        if (Whitening.Of(sorted, 1) is not { } white) return Fit<FitTest>.Refused("all values are the same");
        var bessel = Math.Sqrt((sorted.Length - 1.0) / sorted.Length); // these tests take the standard deviation with divisor n − 1
        var (statistic, p) = measure([.. white.Select(z => NormalInterval.Below(z * bessel))], [.. white.Select(z => NormalInterval.Below(-z * bessel))]);
        return Fit<FitTest>.Made(new FitTest(name, statistic, Math.Clamp(p, 0, 1), sorted.Length, method));
    }
}
