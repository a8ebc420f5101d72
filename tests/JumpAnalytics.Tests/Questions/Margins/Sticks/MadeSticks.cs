namespace JumpAnalytics.Tests;

/// <summary>Seasons drawn from a <see cref="StickModel"/>, with runs at every angle and exits along them.</summary>
internal static class MadeSticks
{
    public const double Gap = 60, Radius = 40;

    public static List<Landing> Season(Random random, StickModel model, int missions, double left, bool recorded = true)
    {
        var landings = new List<Landing>();
        for (var m = 0; m < missions; m++)
        {
            for (var p = 0; p < 2; p++)
            {
                var heading = 360 * random.NextDouble();
                var drop = Made.Drop($"d{m}-{p}", $"m{m}", targetRadius: Radius);
                if (recorded) drop = drop with { RunHeading = Bearing.FromDegrees(heading), GroundSpeed = Gap / 1.5, ExitSpacing = 1.5 };
                var run = LocalVector.FromPolar(left * Gap, Bearing.FromDegrees(heading));
                var (a, b) = StandardNormal.Pair(random);
                var stick = random.Next(1, 5);
                for (var j = 0; j < stick; j++)
                {
                    var (d, r) = StandardNormal.Pair(random);
                    var wide = random.NextDouble() < model.WideShare ? model.Widening : 1;
                    // The drift goes north: downwind is north, right is east.
                    var miss = new LocalVector(model.Bias.Across + model.SharedRight * b + wide * model.OwnRight * r,
                        model.Bias.Along + model.SharedDownwind * a + wide * model.OwnDownwind * d);
                    landings.Add(Made.Landing(drop, miss + (j - (stick - 1) / 2.0) * run, recorded ? j + 1 : null));
                }
            }
        }
        return landings;
    }
}
