using JumpAnalytics.Internals;

namespace JumpAnalytics;

/// <summary>
/// Tests of whether points come from a normal distribution whose mean and covariance are not known. Points are taken as independent, which
/// landings of one mission are not.
/// </summary>
/// <remarks>The tests in the plane do not change when the points are moved, turned or stretched. Covariances have the divisor n.</remarks>
public static partial class NormalityTests
{
    /// <summary>Fewest points that are tested.</summary>
    public const int FewestPoints = 8;

    /// <summary>Most points that Henze and Zirkler's test compares, because its cost grows with their square.</summary>
    public const int MostHenzeZirkler = 5000;

    /// <summary>Mardia's skewness: whether misses lean to one side. Blind to a far tail that is the same on all sides.</summary>
    /// <param name="misses">Misses in the downwind frame, metres.</param>
    /// <param name="smallSample">Whether the chi-square statistic is corrected for few points (Mardia 1974); without limit the two agree.</param>
    /// <returns>
    /// The test, its statistic Mardia's b₁ (1970, Biometrika 57:519-530), its p-value from n·b₁/6 as chi-square; or why it can't be made.
    /// </returns>
    public static Fit<FitTest> MardiaSkewness(IReadOnlyList<DownwindVector> misses, bool smallSample = true) => MardiaSkewness(Coordinates(misses), 2, smallSample);

    /// <summary>
    /// Mardia's kurtosis: whether there are too many misses both near the centre and far off (statistic above 8, the normal's in the plane) or
    /// too few. Both ways count against the fit.
    /// </summary>
    /// <param name="misses">Misses in the downwind frame, metres.</param>
    /// <returns>
    /// The test, its statistic Mardia's b₂ (1970), its two-sided p-value from its normal limit; or why it can't be made. The limit is slow: at a
    /// level of 5 % normal misses are rejected in about 1 % of samples of 30 and in 3 % of samples of 100.
    /// </returns>
    public static Fit<FitTest> MardiaKurtosis(IReadOnlyList<DownwindVector> misses) => MardiaKurtosis(Coordinates(misses), 2);

    /// <summary>Henze and Zirkler's test, which finds any departure from the normal when there are points enough.</summary>
    /// <param name="misses">Misses in the downwind frame, metres.</param>
    /// <param name="seed">Seed of the draw of <see cref="MostHenzeZirkler"/> points, used when there are more.</param>
    /// <returns>
    /// The test with its p-value from a lognormal distribution of the same mean and variance (Henze and Zirkler 1990, Communications in
    /// Statistics, Theory and Methods 19:3595-3617); or why it can't be made.
    /// </returns>
    public static Fit<FitTest> HenzeZirkler(IReadOnlyList<DownwindVector> misses, int seed = 1) => HenzeZirkler(Coordinates(misses), 2, seed);

    internal static Fit<FitTest> MardiaSkewness(ReadOnlySpan<double> points, int dimensions, bool smallSample) =>
        Test("Mardia's skewness", points, dimensions, (white, n, p) =>
        {
            // The double sum of cubed products is the squared length of the tensor of third moments.
            var moments = new double[p * p * p];
            for (var i = 0; i < white.Length; i += p)
            {
                for (var m = 0; m < moments.Length; m++) moments[m] += white[i + m % p] * white[i + m / p % p] * white[i + m / (p * p)] / n;
            }
            var skewness = moments.Sum(m => m * m);
            var correction = smallSample ? (p + 1.0) * (n + 1) * (n + 3) / (n * ((n + 1.0) * (p + 1) - 6)) : 1;
            var tail = ChiSquareTail(correction * n * skewness / 6, p * (p + 1) * (p + 2) / 6.0);
            return (skewness, tail, smallSample ? "chi-square limit, corrected for few points" : "chi-square limit");
        });

    internal static Fit<FitTest> MardiaKurtosis(ReadOnlySpan<double> points, int dimensions) =>
        Test("Mardia's kurtosis", points, dimensions, (white, n, p) =>
        {
            var kurtosis = 0.0;
            for (var i = 0; i < white.Length; i += p) kurtosis += Square(SquaredLength(white, i, p)) / n;
            var z = (kurtosis - p * (p + 2.0)) / Math.Sqrt(8.0 * p * (p + 2) / n);
            return (kurtosis, 2 * NormalInterval.Below(-Math.Abs(z)), "normal limit, two-sided");
        });

    internal static Fit<FitTest> HenzeZirkler(ReadOnlySpan<double> points, int dimensions, int seed)
    {
        var all = points.Length / dimensions;
        var method = "lognormal approximation" + (all > MostHenzeZirkler ? $", on {MostHenzeZirkler:#,0} of {all:#,0} points drawn with seed {seed}" : "");
        return Test("Henze-Zirkler", all > MostHenzeZirkler ? Drawn(points, dimensions, seed) : points, dimensions, (white, n, p) =>
        {
            var b2 = Math.Pow(n * (2.0 * p + 1) / 4, 2.0 / (p + 4)) / 2;
            var statistic = 1 + n * Math.Pow(1 + 2 * b2, -p / 2.0);
            for (var i = 0; i < white.Length; i += p)
            {
                statistic -= 2 * Math.Pow(1 + b2, -p / 2.0) * Math.Exp(-b2 / (2 * (1 + b2)) * SquaredLength(white, i, p));
                var pairs = 0.0;
                for (var j = 0; j < i; j += p)
                {
                    var distance = 0.0;
                    for (var a = 0; a < p; a++) distance += Square(white[i + a] - white[j + a]);
                    pairs += Math.Exp(-b2 / 2 * distance);
                }
                statistic += 2 * pairs / n;
            }
            return (statistic, HenzeZirklerTail(statistic, b2, p), method);
        });
    }

    /// <summary>Tail of the lognormal that has the limit's mean and variance; b2 is the square of the smoothing parameter.</summary>
    private static double HenzeZirklerTail(double statistic, double b2, int p)
    {
        var (a, b4) = (1 + 2 * b2, b2 * b2);
        var w = (1 + b2) * (1 + 3 * b2);
        var mean = 1 - Math.Pow(a, -p / 2.0) * (1 + p * b2 / a + p * (p + 2) * b4 / (2 * a * a));
        var variance = 2 * Math.Pow(1 + 4 * b2, -p / 2.0)
            + 2 * Math.Pow(a, -p) * (1 + 2 * p * b4 / (a * a) + 3 * p * (p + 2) * b4 * b4 / (4 * Math.Pow(a, 4)))
            - 4 * Math.Pow(w, -p / 2.0) * (1 + 3 * p * b4 / (2 * w) + p * (p + 2) * b4 * b4 / (2 * w * w));
        var spread = Math.Log(1 + variance / (mean * mean));
        return NormalInterval.Below((Math.Log(mean) - spread / 2 - Math.Log(Math.Max(statistic, double.Epsilon))) / Math.Sqrt(spread));
    }

    private static double[] Drawn(ReadOnlySpan<double> points, int dimensions, int seed)
    {
        var random = SeedStream.For(seed, "Henze-Zirkler");
        var order = Enumerable.Range(0, points.Length / dimensions).ToArray();
        var drawn = new double[MostHenzeZirkler * dimensions];
        for (var i = 0; i < MostHenzeZirkler; i++)
        {
            var at = random.Next(i, order.Length);
            (order[i], order[at]) = (order[at], order[i]);
            points.Slice(order[i] * dimensions, dimensions).CopyTo(drawn.AsSpan(i * dimensions));
        }
        return drawn;
    }

    private static Fit<FitTest> Test(string name, ReadOnlySpan<double> points, int dimensions, Func<double[], int, int, (double Statistic, double PValue, string Method)> measure)
    {
        var n = points.Length / dimensions;
        if (n < FewestPoints) return TooFew(n);
        foreach (var x in points) RequireFinite(x);
        if (Whitening.Of(points, dimensions) is not { } white)
            return Fit<FitTest>.Refused(dimensions == 2 ? "all points lie on one line" : "the points lie in fewer dimensions than they have coordinates");
        var (statistic, p, method) = measure(white, n, dimensions);
        return Fit<FitTest>.Made(new FitTest(name, statistic, Math.Clamp(p, 0, 1), n, method));
    }

    private static Fit<FitTest> TooFew(int n) => Fit<FitTest>.Refused($"{n} point{(n == 1 ? "" : "s")}; a test of normality needs {FewestPoints}");

    private static void RequireFinite(double x)
    {
        if (!double.IsFinite(x)) throw new ArgumentException($"A coordinate is {x}; it must be a finite number.");
    }

    private static double ChiSquareTail(double x, double freedom) => x > 0 ? MathNet.Numerics.SpecialFunctions.GammaUpperRegularized(freedom / 2, x / 2) : 1;

    private static double[] Coordinates(IReadOnlyList<DownwindVector> misses)
    {
        var points = new double[2 * misses.Count];
        for (var i = 0; i < misses.Count; i++) (points[2 * i], points[2 * i + 1]) = (misses[i].Downwind, misses[i].Right);
        return points;
    }

    private static double SquaredLength(double[] points, int at, int dimensions)
    {
        var sum = 0.0;
        for (var a = 0; a < dimensions; a++) sum += points[at + a] * points[at + a];
        return sum;
    }

    private static double Square(double x) => x * x;
}
