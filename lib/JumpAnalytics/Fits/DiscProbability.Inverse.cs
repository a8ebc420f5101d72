namespace JumpAnalytics;

public static partial class DiscProbability
{
    private const double RadiusTolerance = 1e-13;
    private const int MostIterations = 200;

    private static double Radius(double probability, in Ellipse ellipse)
    {
        var (_, _, minor, major) = ellipse;
        var distance = ellipse.MeanDistance;

        // A disc about the mean that holds the probability for a circle of the major spread lies inside the upper bound.
        // From below: the density's greatest value (or, along a line, the line density's) and the tail beyond a tangent.
        var upper = (distance + major * Math.Sqrt(-2 * double.LogP1(-probability))) * (1 + 1e-12);
        var lower = Math.Max(
            Math.Sqrt(2 * probability * minor * major),
            probability < 0.5 ? distance - major * Math.Sqrt(-2 * Math.Log(2 * probability)) : 0) * (1 - 1e-12);

        var target = Math.Log(probability);
        double b = lower, a = upper, fb = Excess(b, ellipse, target), fa = Excess(a, ellipse, target);
        if (fb >= 0)
            return b;
        if (fa <= 0)
            return a;

        double c = a, fc = fa;
        var t = 0.5;
        for (var i = 0; i < MostIterations; i++)
        {
            var x = a + t * (b - a);
            var fx = Excess(x, ellipse, target);
            if (fx > 0 == fa > 0)
                (c, fc) = (a, fa);
            else
                (c, fc, b, fb) = (b, fb, a, fa);
            (a, fa) = (x, fx);

            var (best, fbest) = Math.Abs(fa) < Math.Abs(fb) ? (a, fa) : (b, fb);
            var tolerance = RadiusTolerance * Math.Abs(best) / Math.Abs(b - a);
            if (fbest == 0 || tolerance > 0.5 || a == b)
                return best;

            // Inverse quadratic interpolation where the three points allow it, otherwise the middle.
            var xi = (a - b) / (c - b);
            var phi = (fa - fb) / (fc - fb);
            t = Square(phi) < xi && Square(1 - phi) < 1 - xi
                ? fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
                : 0.5;
            t = Math.Clamp(t, tolerance, 1 - tolerance);
        }

        return a;
    }

    // Logarithm of the probability less the target; the least double stands for zero so that it stays finite.
    private static double Excess(double radius, in Ellipse ellipse, double target) =>
        Math.Log(Math.Max(radius > 0 ? Inside(radius, ellipse) : 0, double.Epsilon)) - target;
}
