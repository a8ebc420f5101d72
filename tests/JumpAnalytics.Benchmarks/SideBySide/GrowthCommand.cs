using System.Diagnostics;
using System.Globalization;

namespace JumpAnalytics.Benchmarks;

/// <summary>
/// Our work at a hundredth, a tenth and the whole of its size: seconds and peak memory, each in a process of its
/// own: <c>growth [name…]</c>.
/// </summary>
internal static class GrowthCommand
{
    public const string Name = "growth", One = "growth-of-one";

    public static int Run(string[] asked)
    {
        Console.WriteLine($"{"work",-12} {"n",10} {"seconds",9} {"peak MB",8} {"power of n",11}");
        foreach (var comparison in Comparisons.All.Where(c => asked.Length == 0 || asked.Contains(c.Name)))
        {
            double? before = null;
            foreach (var size in new[] { comparison.Size / 100, comparison.Size / 10, comparison.Size })
            {
                using var process = Process.Start(new ProcessStartInfo(Environment.ProcessPath!,
                    [.. Self(), One, comparison.Name, $"{size}"]) { RedirectStandardOutput = true })!;
                var parts = process.StandardOutput.ReadToEnd().Trim().Split(' ');
                process.WaitForExit();
                if (process.ExitCode != 0) return 1;
                var (seconds, peak) =
                    (double.Parse(parts[0], CultureInfo.InvariantCulture), double.Parse(parts[1], CultureInfo.InvariantCulture));
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{comparison.Name,-12} {size,10} {seconds,9:0.0000} "
                    + $"{peak,8:0} {(before is { } b ? Math.Log10(seconds / b) : null),11:0.00}"));
                before = seconds;
            }
        }
        return 0;
    }

    /// <summary>
    /// One work at one size in this process: median of three runs after one that is not counted, and the peak of the process.
    /// </summary>
    public static int RunOne(string name, string size)
    {
        var folder = Directory.CreateTempSubdirectory("jump-growth-").FullName;
        try
        {
            var work = Comparisons.All.First(c => c.Name == name).Prepare(folder, int.Parse(size, CultureInfo.InvariantCulture));
            work();
            var seconds = Enumerable.Range(0, 3).Select(_ =>
            {
                var clock = Stopwatch.StartNew();
                work();
                return clock.Elapsed.TotalSeconds;
            }).ToArray();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{SideBySideCommand.Median(seconds):R} {Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:R}"));
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string[] Self() =>
        Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet" ? [typeof(GrowthCommand).Assembly.Location] : [];
}
