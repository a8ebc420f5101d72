namespace JumpAnalytics.Benchmarks;

/// <summary>Circle probabilities of many cases on all cores.</summary>
internal static class DiscWork
{
    private const int Columns = 6, Block = 4096;

    /// <summary>Cases that the peer's quadrature does one by one.</summary>
    private const int Few = 500;

    public static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, int size) =>
        Prepare(folder, Make(size, ratio: 0.3), p => new() { ["first"] = p.Take(Few).Sum() });

    public static Func<IReadOnlyDictionary<string, double>> PrepareEqual(string folder, int size) =>
        Prepare(folder, Make(size, ratio: 1), p => new() { ["all"] = p.Sum() });

    private static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, double[] cases,
        Func<double[], Dictionary<string, double>> figures)
    {
        Comparisons.WriteDoubles(Path.Combine(folder, "discs.f64"), cases);
        var into = new double[cases.Length / Columns];
        return () =>
        {
            Fill(cases, into);
            return figures(into);
        };
    }

    private static void Fill(double[] cases, double[] into) => Parallel.For(0, (into.Length + Block - 1) / Block, block =>
    {
        for (var i = block * Block; i < Math.Min(into.Length, (block + 1) * Block); i++)
        {
            var c = cases.AsSpan(i * Columns, Columns);
            into[i] = DiscProbability.Inside(c[0], c[1], c[2], c[3], c[4], c[5]);
        }
    });

    private static double[] Make(int size, double ratio)
    {
        var random = new Random(7);
        var cases = new double[size * Columns];
        for (var i = 0; i < size; i++)
        {
            var sigma = 20 + 60 * random.NextDouble();
            var (major, minor) = (sigma * sigma, sigma * sigma * Math.Pow(ratio + (1 - ratio) * random.NextDouble(), 2));
            var (sin, cos) = Math.SinCos(Math.PI * random.NextDouble());
            var (across, along) = Math.SinCos(Math.Tau * random.NextDouble());
            var distance = 2 * sigma * random.NextDouble();
            double[] c = [sigma * (0.3 + 2.7 * random.NextDouble()), distance * along, distance * across,
                cos * cos * major + sin * sin * minor, sin * sin * major + cos * cos * minor, sin * cos * (major - minor)];
            if (ratio == 1) (c[3], c[4], c[5]) = (major, major, 0);
            c.CopyTo(cases, i * Columns);
        }
        return cases;
    }
}
