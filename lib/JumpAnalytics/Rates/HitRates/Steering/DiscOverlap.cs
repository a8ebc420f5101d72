namespace JumpAnalytics;

/// <summary>The part of the plane that several discs have in common, and how near to and far from the origin it comes.</summary>
internal static class DiscOverlap
{
    /// <summary>Share of the radius by which a point may lie outside a disc and still count as on its rim.</summary>
    private const double Rim = 1e-9;

    /// <summary>Least and greatest distance from the origin within all discs; null when they have no point in common.</summary>
    /// <remarks>
    /// Both are reached on a rim or at the origin: the distance is convex, so the greatest stands at a corner of the overlap or at the
    /// farthest point of one disc, the least at the origin, at a corner, or at the nearest point of one disc.
    /// </remarks>
    public static Interval? Distances(IReadOnlyList<(LocalVector Centre, double Radius)> discs)
    {
        var (least, most, any) = (double.PositiveInfinity, 0.0, false);
        Try(default);
        for (var i = 0; i < discs.Count; i++)
        {
            var (centre, radius) = discs[i];
            if (centre.Direction is { } outward)
            {
                Try(centre + LocalVector.FromPolar(radius, outward));
                Try(centre + LocalVector.FromPolar(-radius, outward));
            }
            else
            {
                Try(centre + new LocalVector(0, radius)); // every point of the rim is as far
            }
            for (var j = 0; j < i; j++)
            {
                foreach (var corner in Corners(discs[i], discs[j])) Try(corner);
            }
        }
        return any ? new Interval(least, most) : null;

        void Try(LocalVector point)
        {
            foreach (var (centre, radius) in discs)
            {
                if ((point - centre).Length > radius + Rim * (1 + radius)) return;
            }
            (least, most, any) = (Math.Min(least, point.Length), Math.Max(most, point.Length), true);
        }
    }

    /// <summary>Where two rims cross.</summary>
    private static LocalVector[] Corners((LocalVector Centre, double Radius) a, (LocalVector Centre, double Radius) b)
    {
        var between = b.Centre - a.Centre;
        var d = between.Length;
        if (d == 0 || d > a.Radius + b.Radius || d < Math.Abs(a.Radius - b.Radius)) return [];
        var along = (a.Radius * a.Radius - b.Radius * b.Radius + d * d) / (2 * d);
        var across = Math.Sqrt(Math.Max(0, a.Radius * a.Radius - along * along));
        var (foot, side) = (a.Centre + (along / d) * between, (across / d) * new LocalVector(between.North, -between.East));
        return [foot + side, foot - side];
    }
}
