using BenchmarkDotNet.Attributes;
using JumpAnalytics.Tests;

namespace JumpAnalytics.Benchmarks;

/// <summary>Descent tracks reduced to wind and steering on all cores: 1,000 tracks of 100 s at 5 Hz.</summary>
public class DescentBenchmarks
{
    private const int Tracks = 1000;

    private static readonly DescentTrack[] _tracks =
        [.. Enumerable.Range(1, Tracks).Select(seed => MadeDescents.Fly(new MadeDescent { ForwardSpeed = 9, ExitHeight = 545,
            DescentRate = 5.45, Turns = 3, TurnSeconds = 8, Hertz = 5, Noise = 3, Wandering = 0.5, Seed = seed }).Track)];

    [Benchmark]
    public int ReduceThousandTracks() => _tracks.AsParallel().AsOrdered().Select(t => FlownDescent.Of(t)).Count(f => f.Success);
}
