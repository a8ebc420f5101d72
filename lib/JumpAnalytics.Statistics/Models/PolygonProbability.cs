namespace JumpAnalytics.Statistics;

/// <summary>Probability that a point of an elliptical distribution lies inside a polygon.</summary>
/// <remarks>
/// The plane is turned and stretched until the distribution is round. Then the polygon is a sum of triangles from the centre to its
/// edges, each with its sign, and the probability of a triangle is one integral over its angle of the probability within the distance
/// of the edge. For the normal these are the T of Owen (1956, Annals of Mathematical Statistics 27:1075-1090). Adaptive
/// Gauss-Legendre, absolute error about 1e-12. A normal that lies on one line, or at one place, has the probability of the pieces of the
/// line in the polygon, or of the place, edge included.
/// </remarks>
internal static class PolygonProbability
{
    private const double Tolerance = 1e-13;
    private const int MostPanels = 20_000; // of one edge; a hundred are many

    private static readonly Quadrature _rule = new(-1, 1, 16);

    /// <summary>The probability under a normal, a t or a mixture of two spreads.</summary>
    /// <param name="model">The distribution.</param>
    /// <param name="corners">Corners in order, metres; three or more, no two edges crossing.</param>
    /// <exception cref="ArgumentException">Another kind of distribution.</exception>
    public static double Inside(IPlaneModel model, IReadOnlyList<PlaneVector> corners) => model switch
    {
        BivariateNormal { HasArea: false } line => OnLine(line, corners),
        BivariateNormal normal => Inside(normal, corners, NormalBeyond),
        BivariateT t => Inside(t.Core, corners,
            squared => Math.Exp(-t.DegreesOfFreedom / 2 * double.Log(1 + squared / t.DegreesOfFreedom))),
        ScaleMixture mixture => (1 - mixture.WideShare) * Inside(mixture.Core, corners, NormalBeyond)
            + mixture.WideShare * Inside(mixture.Wide, corners, NormalBeyond),
        _ => throw new ArgumentException($"A polygon has a probability under a normal, a t or a mixture, not under a {model.Name}.",
            nameof(model)),
    };

    private static double NormalBeyond(double squared) => Math.Exp(-squared / 2);

    private static double Inside(BivariateNormal core, IReadOnlyList<PlaneVector> corners, Func<double, double> beyond)
    {
        // Cholesky: the first axis first.
        var sd = Math.Sqrt(core.VarianceAlong);
        var slope = core.Covariance / core.VarianceAlong;
        var rest = Math.Sqrt(core.Determinant() / core.VarianceAlong);
        var round = corners.Select(c => (X: (c.Along - core.MeanAlong) / sd,
            Y: (c.Across - core.MeanAcross - slope * (c.Along - core.MeanAlong)) / rest)).ToArray();
        var sum = 0.0;
        for (var i = 0; i < round.Length; i++) sum += Triangle(round[i], round[(i + 1) % round.Length], beyond);
        return Math.Clamp(Math.Abs(sum), 0, 1);
    }

    /// <summary>Probability of the triangle of the centre and an edge, negative where the edge runs clockwise.</summary>
    private static double Triangle((double X, double Y) a, (double X, double Y) b, Func<double, double> beyond)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var length = double.Hypot(dx, dy);
        var cross = a.X * b.Y - a.Y * b.X;
        if (length == 0 || cross == 0) return 0;
        var height = Math.Abs(cross) / length;
        var (from, to) = (Math.Atan2((a.X * dx + a.Y * dy) / length, height), Math.Atan2((b.X * dx + b.Y * dy) / length, height));
        var left = MostPanels;
        var outside = Integral(phi => beyond(Square(height / Math.Cos(phi))), from, to, ref left);
        return Math.Sign(cross) * (to - from - outside) / (2 * Math.PI);
    }

    /// <summary>Halved until the halves agree with the whole, or the panels are used up.</summary>
    private static double Integral(Func<double, double> f, double from, double to, ref int left)
    {
        var whole = Panel(f, from, to);
        var middle = (from + to) / 2;
        var halves = Panel(f, from, middle) + Panel(f, middle, to);
        return Math.Abs(whole - halves) <= Tolerance || middle == from || middle == to || --left <= 0
            ? halves : Integral(f, from, middle, ref left) + Integral(f, middle, to, ref left);
    }

    /// <summary>The line in units of the normal's spread, from crossing to crossing with an edge.</summary>
    private static double OnLine(BivariateNormal line, IReadOnlyList<PlaneVector> corners)
    {
        var (along, across) = (Math.Sqrt(line.VarianceAlong), Math.CopySign(Math.Sqrt(line.VarianceAcross), line.Covariance));
        var (length, size) = (double.Hypot(along, across), corners.Max(c => c.Length));
        if (!(length > 1e-300)) return Holds(corners, new(line.MeanAlong, line.MeanAcross), 1e-12 * size) ? 1 : 0;
        var (ux, uy) = (along / length, across / length);
        var placed = corners.Select(c => (X: c.Along - line.MeanAlong, Y: c.Across - line.MeanAcross))
            .Select(c => (At: c.X * ux + c.Y * uy, Side: c.Y * ux - c.X * uy)).ToArray();
        var crossings = new List<double>();
        for (var i = 0; i < placed.Length; i++)
        {
            var (a, b) = (placed[i], placed[(i + 1) % placed.Length]);
            if (a.Side > 0 != b.Side > 0) crossings.Add((a.At * b.Side - b.At * a.Side) / (b.Side - a.Side) / length);
        }
        crossings.Sort();
        return Enumerable.Range(0, crossings.Count / 2)
            .Sum(k => NormalInterval.Below(crossings[2 * k + 1]) - NormalInterval.Below(crossings[2 * k]));
    }

    /// <summary>Whether a place is in a polygon or as near to an edge as rounding: edges above it are counted.</summary>
    private static bool Holds(IReadOnlyList<PlaneVector> corners, PlaneVector place, double near)
    {
        var inside = false;
        for (var i = 0; i < corners.Count; i++)
        {
            var (a, b) = (corners[i], corners[(i + 1) % corners.Count]);
            var (dx, dy, x, y) = (b.Along - a.Along, b.Across - a.Across, place.Along - a.Along, place.Across - a.Across);
            var squared = dx * dx + dy * dy;
            var share = squared > 0 ? Math.Clamp((x * dx + y * dy) / squared, 0, 1) : 0;
            if (double.Hypot(x - share * dx, y - share * dy) <= near) return true;
            if (a.Across > place.Across != b.Across > place.Across && x * dy < y * dx == dy > 0) inside = !inside;
        }
        return inside;
    }

    private static double Panel(Func<double, double> f, double from, double to)
    {
        var (half, centre, sum) = ((to - from) / 2, (from + to) / 2, 0.0);
        for (var i = 0; i < _rule.Order; i++) sum += _rule.Weight(i) * f(centre + half * _rule.At(i));
        return half * sum;
    }

    private static double Square(double x) => x * x;
}
