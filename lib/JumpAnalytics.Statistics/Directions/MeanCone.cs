namespace JumpAnalytics.Statistics;

/// <summary>
/// The directions that the mean of vectors may have: those across which the mean can't be told from zero (Fieller's argument).
/// </summary>
internal static class MeanCone
{
    /// <summary>Limits of the direction, radians clockwise from axis 1, about the direction of the mean.</summary>
    /// <param name="first">First coordinate of each independent vector.</param>
    /// <param name="second">Second coordinate.</param>
    /// <param name="critical">Two-sided quantile of t.</param>
    /// <returns>Null when no cone of less than a half turn holds them.</returns>
    public static Interval? Of(double[] first, double[] second, double critical)
    {
        var n = first.Length;
        var (m1, m2) = (first.Average(), second.Average());
        double s11 = 0, s12 = 0, s22 = 0;
        for (var i = 0; i < n; i++)
        {
            var (a, b) = (first[i] - m1, second[i] - m2);
            s11 += a * a;
            s12 += a * b;
            s22 += b * b;
        }
        var scale = (n - 1.0) * n;
        return Of(m1, m2, s11 / scale, s12 / scale, s22 / scale, critical);
    }

    /// <summary>The same from the mean and the covariance of its error.</summary>
    public static Interval? Of(double m1, double m2, double v11, double v12, double v22, double critical)
    {
        var (t2, square) = (critical * critical, m1 * m1 + m2 * m2);
        if (!(square > 0)) return null;
        // Turned so that axis 1 is the mean: v along it, u across, w between them.
        var mean = Math.Atan2(m2, m1);
        var (sin, cos) = Math.SinCos(mean);
        var v = v11 * cos * cos + 2 * v12 * sin * cos + v22 * sin * sin;
        var u = v11 * sin * sin - 2 * v12 * sin * cos + v22 * cos * cos;
        var w = (v22 - v11) * sin * cos + v12 * (cos * cos - sin * sin);
        // Across the direction at angle d from it the mean is |m| sin d, its variance v sin² d − 2w sin d cos d + u cos² d.
        var lead = square - t2 * v;
        if (!(lead > 0)) return null;
        var middle = -t2 * w / lead;
        var half = Math.Sqrt(middle * middle + t2 * u / lead);
        return new Interval(mean + Math.Atan(middle - half), mean + Math.Atan(middle + half));
    }
}
