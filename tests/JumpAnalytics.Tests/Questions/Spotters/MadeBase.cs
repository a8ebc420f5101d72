using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>
/// An invented base of eight spotters whose skill is known and whose winds and terrains differ: the first flies in easy
/// conditions, the last in hard ones. Rates of cells are not what band and terrain add up to, and the missions of a spotter differ
/// by chance beyond their conditions.
/// </summary>
internal sealed record MadeBase
{
    /// <summary>True rate of each cell: bands 0-5 and 5-10 mph by three terrains.</summary>
    private static readonly double[,] _rates = { { 0.94, 0.90, 0.82 }, { 0.91, 0.84, 0.62 } };

    private static readonly string[] _terrains = ["meadow", "timber", "ridge"];

    public int Missions { get; init; } = 40;

    /// <summary>Points of rate by which a spotter is off; the others are not.</summary>
    public double Planted { get; init; }

    /// <summary>Which spotter; in the middle of the order of conditions unless said otherwise.</summary>
    public int PlantedAt { get; init; } = 4;

    /// <summary>Standard deviation of a mission's log-odds.</summary>
    public double MissionSd { get; init; } = 0.6;

    public int Spotters { get; init; } = 8;

    public IReadOnlyList<Landing> Fly(int seed)
    {
        var random = SeedStream.For(seed, "made base");
        var landings = new List<Landing>();
        var levels = new double[2, 3];
        for (var b = 0; b < 2; b++) for (var t = 0; t < 3; t++) levels[b, t] = Level(_rates[b, t], MissionSd);
        for (var s = 0; s < Spotters; s++)
        {
            var hard = (s + 0.5) / Spotters; // share of hard conditions, 0.06 to 0.94
            for (var m = 0; m < Missions; m++)
            {
                var band = random.NextDouble() < 0.2 + 0.6 * hard ? 1 : 0;
                var terrain = random.NextDouble() < hard ? random.NextDouble() < 0.7 ? 2 : 1 : random.NextDouble() < 0.7 ? 0 : 1;
                var drop = Made.Drop($"{s}-{m}", $"{s}-{m}", terrain: _terrains[terrain],
                    windSpeed: band == 0 ? 1 : 3.5) with { Spotter = $"S{s + 1}" };
                var shift = Normal.Sample(random, 0, MissionSd);
                var chance = 1 / (1 + Math.Exp(-(levels[band, terrain] + shift)));
                if (s == PlantedAt) chance = Math.Clamp(chance + Planted, 0, 1);
                for (var j = random.Next(1, 8); j > 0; j--) landings.Add(Made.Landing(drop, random.NextDouble() < chance ? 5 : 60, 0));
            }
        }
        return landings;
    }

    /// <summary>The log-odds whose mean chance, over missions, is a rate.</summary>
    private static double Level(double rate, double sd)
    {
        var (low, high) = (-10.0, 10.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            var mean = Enumerable.Range(-20, 41).Sum(k => Math.Exp(-k * k / 50.0) / (1 + Math.Exp(-(middle + sd * k / 5.0))))
                / Enumerable.Range(-20, 41).Sum(k => Math.Exp(-k * k / 50.0));
            if (mean < rate) low = middle;
            else high = middle;
        }
        return (low + high) / 2;
    }
}
