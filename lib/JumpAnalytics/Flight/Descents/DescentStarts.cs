namespace JumpAnalytics;

/// <summary>
/// First paths for the smoother. A noisy track of few turns has more than one circle that nearly fits its ground velocities, so several
/// are tried: circles by <see cref="VelocityCircle"/>, and winds set off from the mean ground velocity to all sides, as they are when a
/// canopy mostly held one heading.
/// </summary>
internal static class DescentStarts
{
    private const int N = CanopyState.Size;

    /// <summary>Seconds to either side over which ground velocities are taken.</summary>
    private static readonly double[] _reaches = [2.1, 3.1, 5.1];

    /// <summary>
    /// Forward speeds at which winds are set off from the mean ground velocity, m/s: those of round and of ram-air canopies.
    /// </summary>
    private static readonly double[] _offsets = [4, 9];

    /// <summary>Circles through the ground velocities.</summary>
    public static List<double[]> Circles(DescentBlocks blocks, FlownDescentOptions options) => Of(blocks, options, _reaches, false);

    /// <summary>Winds set off from the mean ground velocity: for tracks whose turns barely stand out.</summary>
    public static List<double[]> Offsets(DescentBlocks blocks, FlownDescentOptions options) => Of(blocks, options, [_reaches[1]], true);

    private static List<double[]> Of(DescentBlocks blocks, FlownDescentOptions options, double[] reaches, bool offsets)
    {
        var starts = new List<double[]>();
        foreach (var reach in reaches)
        {
            var velocities = blocks.Known.Select(i => (At: i, Velocity: blocks.Velocity(i, reach))).Where(v => v.Velocity is not null)
                .Select(v => (v.At, Velocity: v.Velocity!.Value)).ToList();
            if (velocities.Count < 10) continue;
            List<WindVector> all = [.. velocities.Select(v => v.Velocity)];
            List<double> heights = [.. velocities.Select(v => blocks.Heights[v.At])];
            foreach (var sheared in offsets ? [] : new[] { true, false })
            {
                if (VelocityCircle.Of(all, heights, sheared).Value is { ForwardSpeed: < 20 } circle && circle.Shear.Speed < 0.05)
                    starts.Add(Path(blocks, velocities, circle.At, options.ForwardSpeed ?? circle.ForwardSpeed));
            }
            if (!offsets) continue;
            var mean = 1.0 / all.Count * all.Aggregate((a, b) => a + b);
            foreach (var offset in options.ForwardSpeed is { } known ? [known] : _offsets)
            {
                for (var k = 0; k < 6; k++)
                {
                    var wind = mean + WindVector.FromDirection(offset, Bearing.FromDegrees(60 * k));
                    starts.Add(Path(blocks, velocities, _ => wind, offset));
                }
            }
        }
        return starts;
    }

    /// <summary>The path with a wind and a forward speed, headings being what is left of the ground velocities.</summary>
    private static double[] Path(DescentBlocks blocks, List<(int At, WindVector Velocity)> velocities,
        Func<double, WindVector> windAt, double speed)
    {
        var (count, next, heading) = (blocks.Seconds.Length, 0, 0.0);
        var states = new double[count * N];
        for (var i = 0; i < count; i++)
        {
            while (next < velocities.Count - 1 && velocities[next].At < i) next++;
            var wind = windAt(blocks.Heights[i]);
            var air = velocities[next].Velocity - wind;
            var now = Math.Atan2(air.East, air.North);
            heading = i == 0 ? now : heading + Math.IEEERemainder(now - heading, 2 * Math.PI);
            var x = states.AsSpan(i * N, N);
            (x[CanopyState.East], x[CanopyState.North]) = (blocks.East[i], blocks.North[i]);
            (x[CanopyState.Heading], x[CanopyState.WindEast], x[CanopyState.WindNorth], x[CanopyState.Speed]) =
                (heading, wind.East, wind.North, Math.Log(Math.Max(speed, 0.5)));
        }
        for (var i = 0; i < count; i++)
        {
            var (a, b) = (Math.Max(0, i - 1), Math.Min(count - 1, i + 1));
            states[i * N + CanopyState.Turn] = Math.Clamp((states[b * N + CanopyState.Heading] - states[a * N + CanopyState.Heading])
                / (blocks.Seconds[b] - blocks.Seconds[a]), -1.3, 1.3);
        }
        return states;
    }
}
