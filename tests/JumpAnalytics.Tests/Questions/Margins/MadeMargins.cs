using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>Bases made for margins: one by hand, and random ones whose true radii are known.</summary>
internal static class MadeMargins
{
    public static readonly string[] Terrains = ["meadow", "ridge", "timber"];
    private static readonly double[] _winds = [1, 3, 5.5, 8]; // m/s, one in each usual band

    /// <summary>
    /// Two terrains. Eight missions of four in each of the three calmer bands, farther out the stronger the wind; above 15 mph two missions
    /// on the meadow and three in timber, nearer to the spot than in any calmer wind.
    /// </summary>
    public static List<Landing> ThinInStrongWind()
    {
        var landings = new List<Landing>();
        foreach (var terrain in (string[])["meadow", "timber"])
        {
            for (var b = 0; b < 4; b++)
            {
                for (var m = 0; m < (b < 3 ? 8 : terrain == "meadow" ? 2 : 3); m++)
                {
                    var drop = Made.Drop($"{terrain}{b}-{m}", $"{terrain}{b}-{m}", terrain: terrain, windSpeed: _winds[b]);
                    for (var j = 0; j < 4; j++)
                        landings.Add(Made.Landing(drop, 0, (b < 3 ? 12.3 + 5.1 * b : 9.7) * (0.41 + 0.173 * ((m * 5 + j * 3) % 11))));
                }
            }
        }
        return landings;
    }

    /// <summary>How the misses of a random base are distributed.</summary>
    public enum Law
    {
        Normal, Skewed, SkewedByTerrain,
    }

    /// <summary>A part of a miss: of unit variance along each axis, along the drift an exponential one where it is skewed.</summary>
    private static PlaneVector Part(Random random, Law law, int terrain)
    {
        var skewed = law == Law.Skewed || (law == Law.SkewedByTerrain && terrain == 2);
        return new(skewed ? -Math.Log(1 - random.NextDouble()) - 1 : Normal.Sample(random, 0, 1), Normal.Sample(random, 0, 1));
    }

    private static PlaneVector Miss(PlaneVector shared, PlaneVector own) => new(
        Math.Sqrt(0.3) * shared.Along + Math.Sqrt(0.7) * own.Along, Math.Sqrt(0.3) * shared.Across + Math.Sqrt(0.7) * own.Across);

    /// <summary>Spread of a cell, metres.</summary>
    public static double ScaleOf(int band, int terrain) => 22 * Math.Exp(0.1 * band + 0.1 * terrain);

    /// <summary>Seasons of a base, each of so many missions of two to five over twelve cells, stronger wind the rarer.</summary>
    /// <param name="random">Numbers.</param>
    /// <param name="law">Distribution of the misses.</param>
    /// <param name="seasons">How many.</param>
    /// <param name="missions">Of each.</param>
    /// <param name="step">Metres; distances are written to it. 0: as they are.</param>
    public static List<Landing> Base(Random random, Law law, int seasons, int missions, double step = 0)
    {
        var landings = new List<Landing>();
        for (var m = 0; m < seasons * missions; m++)
        {
            var (band, terrain) = (new[] { 0, 0, 0, 1, 1, 1, 1, 2, 2, 3 }[random.Next(10)], random.Next(3));
            var drop = Made.Drop($"{m}", $"{m}", $"{2031 + m / missions}", Terrains[terrain], windSpeed: _winds[band]);
            var shared = Part(random, law, terrain);
            for (var j = 2 + random.Next(4); j > 0; j--)
            {
                var distance = ScaleOf(band, terrain) * Miss(shared, Part(random, law, terrain)).Length;
                landings.Add(Made.Landing(drop, 0, step > 0 ? step * Math.Round(distance / step) : distance));
            }
        }
        return landings;
    }

    /// <summary>Radii of a terrain at scale 1, of 400,000 misses: error about 0.2 % of the radius.</summary>
    public static double[] TrueRadii(Law law, int terrain, IReadOnlyList<double> shares)
    {
        var random = new Random(17);
        var sorted = Enumerable.Range(0, 400_000).Select(_ => Miss(Part(random, law, terrain), Part(random, law, terrain)).Length).Order()
            .ToArray();
        return [.. shares.Select(s => sorted[(int)(s * sorted.Length)])];
    }

    /// <summary>Quantile of type 8 (Hyndman and Fan 1996), by its definition.</summary>
    public static double Type8(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToArray();
        var at = (sorted.Length + 1 / 3.0) * share + 1 / 3.0;
        var below = Math.Clamp((int)Math.Floor(at), 1, sorted.Length - 1);
        return sorted[below - 1] + Math.Clamp(at - below, 0, 1) * (sorted[below] - sorted[below - 1]);
    }
}
