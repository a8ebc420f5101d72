using System.Diagnostics;

namespace JumpAnalytics.Benchmarks;

/// <summary>Circle probabilities of many cases on all cores.</summary>
internal static class DiscWork
{
    private const int Columns = 6, Block = 4096;

    /// <summary>Cases that the peer's quadrature does one by one.</summary>
    private const int Few = 500;

    public static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, int size)
    {
        var (general, equal) = (Make(size, ratio: 0.3), Make(size, ratio: 1));
        Comparisons.WriteDoubles(Path.Combine(folder, "discs.f64"), general);
        Comparisons.WriteDoubles(Path.Combine(folder, "discs-equal.f64"), equal);
        var (a, b) = (new double[size], new double[size]);
        var seconds = new List<(double General, double Equal)>();
        return () =>
        {
            var clock = Stopwatch.StartNew();
            Fill(general, a);
            var first = clock.Elapsed.TotalSeconds;
            Fill(equal, b);
            seconds.Add((first, clock.Elapsed.TotalSeconds - first));
            return new Times(seconds) { ["first"] = a.Take(Few).Sum(), ["equal"] = b.Sum() };
        };
    }

    /// <summary>Each of the peer's two results has a time of ours of its own.</summary>
    private sealed class Times(List<(double General, double Equal)> seconds) : Dictionary<string, double>, IReadOnlyDictionary<string, double>
    {
        bool IReadOnlyDictionary<string, double>.TryGetValue(string key, out double value)
        {
            if (!key.StartsWith("seconds of ", StringComparison.Ordinal)) return TryGetValue(key, out value);
            value = SideBySideCommand.Median([.. seconds.Skip(1).Select(s => key.Contains("quad", StringComparison.Ordinal) ? s.General : s.Equal)]);
            return true;
        }
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
            double[] c = [sigma * (0.3 + 2.7 * random.NextDouble()), distance * along, distance * across, cos * cos * major + sin * sin * minor, sin * sin * major + cos * cos * minor, sin * cos * (major - minor)];
            if (ratio == 1) (c[3], c[4], c[5]) = (major, major, 0);
            c.CopyTo(cases, i * Columns);
        }
        return cases;
    }
}
