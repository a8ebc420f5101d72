namespace JumpAnalytics.Statistics;

public static partial class DiscProbability
{
    // Of the logarithm of the radius: relative tolerance of the radius, and room for rounding outside the bounds.
    private const double Tolerance = 1e-13;
    private const double Margin = 1e-12;
    private const int MostIterations = 200;

    private static double Radius(double probability, in Ellipse ellipse)
    {
        var (_, _, distance, minor, major) = ellipse;

        // The upper bound's disc covers one about the mean that holds the probability for a circle of the major spread.
        // From below: the density's greatest value, the strip of the disc's width, the half plane up to its tangent.
        var exponent = probability < 0.5 ? probability / (1 - probability) : -Math.Log(1 - probability);
        var upper = distance + major * Math.Sqrt(2 * exponent);
        var density = Math.Sqrt(2 * probability * minor * major);
        var strip = probability * major * Math.Sqrt(0.5 * Math.PI);
        var tangent = probability < 0.5 ? distance - major * Math.Sqrt(-2 * Math.Log(2 * probability)) : 0;
        var lower = Math.Max(density, Math.Max(strip, tangent));

        // Solved in the logarithm of the radius, in which a small disc's log probability is a straight line.
        double b = Math.Log(Math.Max(lower, double.Epsilon)) - Margin, a = Math.Log(upper) + Margin;
        double fb = Excess(b, ellipse, probability), fa = Excess(a, ellipse, probability);
        if (fb >= 0)
            return Math.Exp(b);
        if (fa <= 0)
            return Math.Exp(a);

        double c = a, fc = fa;
        var t = 0.5;
        for (var i = 0; i < MostIterations; i++)
        {
            var x = a + t * (b - a);
            var fx = Excess(x, ellipse, probability);
            if (fx > 0 == fa > 0)
                (c, fc) = (a, fa);
            else
                (c, fc, b, fb) = (b, fb, a, fa);
            (a, fa) = (x, fx);

            var (best, fbest) = Math.Abs(fa) < Math.Abs(fb) ? (a, fa) : (b, fb);
            var tolerance = Tolerance / Math.Abs(b - a);
            if (fbest == 0 || tolerance > 0.5 || a == b)
                return Math.Exp(best);

            // Inverse quadratic interpolation where the three points allow it, otherwise the middle.
            var xi = (a - b) / (c - b);
            var phi = (fa - fb) / (fc - fb);
            t = Square(phi) < xi && Square(1 - phi) < 1 - xi
                ? fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
                : 0.5;
            t = Math.Clamp(t, tolerance, 1 - tolerance);
        }

        return Math.Exp(a);
    }

    // Logarithm of the probability less the wanted one, or for more than a half that of the wanted complement less the
    // complement; the least double stands for zero so that it stays finite.
    private static double Excess(double logRadius, in Ellipse ellipse, double probability)
    {
        var radius = Math.Exp(logRadius);
        return probability <= 0.5
            ? Math.Log(Math.Max(Inside(radius, ellipse), double.Epsilon) / probability)
            : -Math.Log(Math.Max(Outside(radius, ellipse), double.Epsilon) / (1 - probability));
    }
}
