using BenchmarkDotNet.Attributes;

namespace JumpAnalytics.Benchmarks;

/// <summary>The rates of a cell of 200 missions of four landings.</summary>
public class RateBenchmarks
{
    private const int Missions = 200;
    private const int Stick = 4;
    private const double TargetRadius = 100;

    private static readonly Random _random = new(7);
    private static readonly PlaneVector[] _misses =
        [.. Enumerable.Range(0, Missions * Stick)
            .Select(_ => new PlaneVector(_random.NextDouble() * 200 - 80, _random.NextDouble() * 120 - 70))];
    private static readonly int[] _hits =
        [.. _misses.Chunk(Stick).Select(stick => stick.Count(m => double.Hypot(m.Along, m.Across) <= TargetRadius))];
    private static readonly int[] _landings = [.. Enumerable.Repeat(Stick, Missions)];

    [Benchmark]
    public ClusteredProportion CountedRate() => ClusteredProportion.Of(_hits, _landings, 0.95);

    /// <summary>A normal fitted to the misses and its probability within the target radius.</summary>
    [Benchmark]
    public double NormalRate() => BivariateNormal.FitTo(_misses).Value!.ProbabilityWithin(TargetRadius);
}
