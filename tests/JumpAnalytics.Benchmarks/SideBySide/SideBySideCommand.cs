using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Benchmarks;

/// <summary>
/// Runs the library and its peers on the same inputs and prints ratios of wall times, once their figures agree:
/// <c>side-by-side [name…]</c>. Medians of five runs, ours after a run that is not counted; a peer says itself how long it took, so that
/// its start is not counted either.
/// </summary>
internal static class SideBySideCommand
{
    public const string Name = "side-by-side";
    private const int Runs = 5;

    public static int Run(string[] asked)
    {
        var unknown = asked.Except(Comparisons.All.Select(c => c.Name)).ToList();
        if (unknown.Count > 0)
        {
            Console.Error.WriteLine($"Unknown: {string.Join(", ", unknown)}. "
                + $"There are {string.Join(", ", Comparisons.All.Select(c => c.Name))}.");
            return 2;
        }
        Console.WriteLine($"{Environment.ProcessorCount} cores, .NET {Environment.Version}, median of {Runs} runs\n");
        Console.WriteLine($"{"work",-12} {"peer",-34} {"ours s",9} {"peer s",10} {"times",9} {"wanted",7}");
        var agree = true;
        foreach (var comparison in Comparisons.All.Where(c => asked.Length == 0 || asked.Contains(c.Name))) agree &= Run(comparison);
        return agree ? 0 : 1;
    }

    private static bool Run(Comparison comparison)
    {
        var folder = Directory.CreateTempSubdirectory("jump-side-by-side-").FullName;
        try
        {
            var work = comparison.Prepare(folder, comparison.Size);
            var figures = work();
            var ours = Median([.. Enumerable.Range(0, Runs).Select(_ => Seconds(work))]);
            var agree = true;
            foreach (var peer in comparison.Peers)
            {
                if (PeerRun.Missing(peer) is { } missing)
                    Line(comparison.Name, $"{peer.Script}: {missing}", ours, null, null);
                else
                    agree &= Against(comparison, peer, folder, figures, ours);
            }
            return agree;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static bool Against(Comparison comparison, Peer peer, string folder, IReadOnlyDictionary<string, double> figures, double ours)
    {
        var agree = true;
        foreach (var result in PeerRun.Results(peer, folder, Runs))
        {
            var off = result.Figures.Where(f =>
                !(Math.Abs(f.Value - figures[f.Key]) <= peer.Tolerance * Math.Max(Math.Abs(f.Value), 1e-300))).ToList();
            foreach (var (name, value) in off) Console.WriteLine(
                string.Create(CultureInfo.InvariantCulture, $"  {result.Label} gives {name} = {value:G12}, we {figures[name]:G12}"));
            agree &= off.Count == 0;
            Line(comparison.Name, off.Count == 0 ? result.Label : $"{result.Label}: figures differ", ours,
                Median(result.Seconds), peer.Wanted);
        }
        return agree;
    }

    private static void Line(string name, string peer, double ours, double? theirs, double? wanted) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{name,-12} {peer,-34} {ours,9:0.0000} {theirs,10:0.000} {theirs / ours,9:0.#} {(wanted is > 0 ? $"≥ {wanted:0}" : ""),7}"));

    private static double Seconds(Func<IReadOnlyDictionary<string, double>> work)
    {
        GC.Collect();
        var clock = Stopwatch.StartNew();
        work();
        return clock.Elapsed.TotalSeconds;
    }

    internal static double Median(double[] values) => values.Order().ElementAt(values.Length / 2);
}
