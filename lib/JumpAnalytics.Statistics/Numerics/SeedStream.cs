using MathNet.Numerics.Random;

namespace JumpAnalytics.Statistics;

/// <summary>Random numbers for one named purpose, so that adding another purpose does not change the draws of another.</summary>
internal static class SeedStream
{
    /// <summary>A generator (xoshiro256**) for a purpose; the same seed and purpose give the same numbers on every machine.</summary>
    public static RandomSource For(int seed, string purpose)
    {
        var hash = 2166136261u; // FNV-1a, 32 bits: string.GetHashCode differs from run to run
        foreach (var c in purpose) hash = unchecked((hash ^ c) * 16777619u);
        return new Xoshiro256StarStar(unchecked((int)(hash ^ ((uint)seed * 2654435769u))), threadSafe: false);
    }
}
