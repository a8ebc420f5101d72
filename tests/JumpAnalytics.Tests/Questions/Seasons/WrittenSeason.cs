using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>
/// Seasons whose true rate and radii are known, written down as crews do: to 10 yards and 5 degrees, or with far landings left out.
/// </summary>
internal static class WrittenSeason
{
    private const double Yard = 0.9144;

    /// <summary>Target radii, yards: on the step, between steps, and off both.</summary>
    private static readonly double[] _radii = [30, 40, 45, 50, 42];

    private static readonly double[] _spreads = [17, 21, 25, 28, 22];

    /// <summary>Standard deviation of what a mission's jumpers share, as a share of the whole variance.</summary>
    private const double SharedVariance = 0.2;

    /// <summary>Share of landings inside their target radius: misses are circular normal, all terrains alike often.</summary>
    public static double TrueRate { get; } = _radii.Zip(_spreads, (r, s) => 1 - Math.Exp(-r * r / (2 * s * s))).Average();

    /// <summary>Metres that a share of landings does not pass, by bisection of the mixture.</summary>
    public static double TrueRadius(double share)
    {
        var (low, high) = (0.0, 500.0);
        for (var i = 0; i < 100; i++)
        {
            var middle = (low + high) / 2;
            if (_spreads.Average(s => 1 - Math.Exp(-middle * middle / (2 * s * s))) < share) low = middle;
            else high = middle;
        }
        return low * Yard;
    }

    /// <param name="seed">Seed of the season.</param>
    /// <param name="missions">Missions of 1 to 8 jumpers.</param>
    /// <param name="rounded">Whether distances are written to 10 yards.</param>
    /// <param name="leftOut">Chance that a landing beyond its target radius is not written down.</param>
    public static (IReadOnlyList<Drop> Drops, IReadOnlyList<Landing> Landings) Of(int seed, int missions, bool rounded, double leftOut = 0)
    {
        var random = SeedStream.For(seed, "a season written down");
        var (drops, landings) = (new List<Drop>(), new List<Landing>());
        for (var m = 0; m < missions; m++)
        {
            var kind = random.Next(_radii.Length);
            var drop = Made.Drop($"d{m}", $"m{m}", terrain: $"t{kind}", targetRadius: _radii[kind] * Yard);
            drops.Add(drop);
            var (shared, own) = (_spreads[kind] * Math.Sqrt(SharedVariance), _spreads[kind] * Math.Sqrt(1 - SharedVariance));
            var (east, north) = (Normal.Sample(random, 0, shared), Normal.Sample(random, 0, shared));
            var stick = 1 + random.Next(8);
            for (var j = 1; j <= stick; j++)
            {
                var miss = new LocalVector(east + Normal.Sample(random, 0, own), north + Normal.Sample(random, 0, own));
                if (leftOut > 0 && miss.Length > _radii[kind] && random.NextDouble() < leftOut) continue;
                var distance = rounded ? 10 * Math.Round(miss.Length / 10) : miss.Length;
                var bearing = miss.Direction!.Value.Degrees;
                if (rounded) bearing = 5 * Math.Round(bearing / 5) % 360;
                var place = LocalVector.FromPolar(distance * Yard, Bearing.FromDegrees(bearing));
                landings.Add(Made.Landing(drop, place, j) with { MissDistance = distance * Yard });
            }
        }
        return (drops, landings);
    }
}
