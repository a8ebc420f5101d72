using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>
/// Seasons of two-level misses: each mission has a part of its own that all of its landings share, and each landing another. Sticks are of
/// 1 to 8 jumpers. Mean 10 and −5 m, standard deviations 40 and 25 m.
/// </summary>
internal sealed record MadeSeason(int Missions, double Likeness = 0.4)
{
    /// <summary>The distribution of a single landing when there is no far tail.</summary>
    public static readonly BivariateNormal Truth = new(10, -5, 1600, 625, 0);

    /// <summary>Degrees of freedom of a far tail (Student's), one factor for all landings of a mission; null for none.</summary>
    public double? Freedom { get; init; }

    /// <summary>Landings farther off are known only as beyond this.</summary>
    public double Beyond { get; init; } = double.PositiveInfinity;

    /// <summary>Most jumpers of a stick.</summary>
    public int Stick { get; init; } = 8;

    public PlaneSample Draw(int seed)
    {
        var random = SeedStream.For(seed, "made season");
        var readings = new List<PlaneReading>();
        for (var m = 0; m < Missions; m++)
        {
            var (shared1, shared2) = StandardNormal.Pair(random);
            var factor = Freedom is { } f ? Math.Sqrt(f / Gamma.Sample(random, f / 2, 0.5)) : 1;
            var stick = random.Next(1, Stick + 1);
            for (var j = 0; j < stick; j++)
            {
                var (own1, own2) = StandardNormal.Pair(random);
                var (a, b) = (Math.Sqrt(Likeness), Math.Sqrt(1 - Likeness));
                var miss = new PlaneVector(10 + 40 * factor * (a * shared1 + b * own1), -5 + 25 * factor * (a * shared2 + b * own2));
                readings.Add(miss.Length > Beyond ? new PlaneReading($"{m}", null, Beyond) : new PlaneReading($"{m}", miss));
            }
        }
        return PlaneSample.Of(readings);
    }
}
