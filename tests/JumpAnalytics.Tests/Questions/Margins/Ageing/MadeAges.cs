namespace JumpAnalytics.Tests;

/// <summary>
/// Seasons whose passes age: a mission's part of 8 m, a pass's part whose variance is 36 + 64·growth·(age / 10 min)^power m², an own part
/// of 8 m, of which 8 % are five times as wide.
/// </summary>
internal static class MadeAges
{
    private const double Mission = 64, Pass = 36, Growing = 64, Own = 64, WideShare = 0.08, Wide = 25;

    public static List<Landing> Season(Random random, int missions, double growth, double power)
    {
        var landings = new List<Landing>();
        for (var m = 0; m < missions; m++)
        {
            var (ma, mb) = StandardNormal.Pair(random);
            var age = 180 - 500 * Math.Log(1 - random.NextDouble());
            for (var p = 0; p < 2; p++, age += 240)
            {
                var drop = Made.Drop($"d{m}-{p}", $"m{m}", targetRadius: 35,
                    windSpeed: 1 + 5 * random.NextDouble()) with { StreamerAge = Math.Min(age, 2700) };
                var sd = Math.Sqrt(Pass + Growing * growth * Math.Pow(drop.StreamerAge!.Value / 600, power));
                var (a, b) = StandardNormal.Pair(random);
                for (var j = 0; j < 2; j++)
                {
                    var (c, d) = StandardNormal.Pair(random);
                    var own = Math.Sqrt(Own * (random.NextDouble() < WideShare ? Wide : 1));
                    landings.Add(Made.Landing(drop, 8 * ma + sd * a + own * c, 8 * mb + sd * b + own * d));
                }
            }
        }
        return landings;
    }

    /// <summary>
    /// The radius that holds 90 % at 20 min over that at 5 min, less one: of the mixture of two normals, by bisection of its closed form.
    /// </summary>
    public static double RadiusGrowth(double growth, double power) => Radius(1200, growth, power) / Radius(300, growth, power) - 1;

    private static double Radius(double age, double growth, double power)
    {
        var shared = Mission + Pass + Growing * growth * Math.Pow(age / 600, power);
        var (low, high) = (0.0, 1000.0);
        while (high - low > 1e-9)
        {
            var r = (low + high) / 2;
            var outside = (1 - WideShare) * Math.Exp(-r * r / (2 * (shared + Own)))
                + WideShare * Math.Exp(-r * r / (2 * (shared + Wide * Own)));
            if (outside > 0.1) low = r;
            else high = r;
        }
        return low;
    }
}
