namespace JumpAnalytics;

/// <summary>
/// The circle that ground velocities lie on when a canopy turns: its centre is the wind, its radius the forward speed. The wind may
/// change with height in proportion.
/// </summary>
/// <remarks>
/// Start: Taubin's algebraic circle (1991, IEEE PAMI 13:1115-1138) by Newton's method on its characteristic polynomial (Chernov 2010,
/// Circular and Linear Regression, chapter 5; both from memory). Then geometric distances are made least by Gauss and Newton's method,
/// damped (Levenberg, Marquardt). Errors are those of least squares with the residuals' own scatter, times <c>inflation</c> for velocities
/// that share places. Noise of velocities makes a circle look larger than it is: σ²/(2R) is taken off the radius.
/// </remarks>
internal sealed record VelocityCircle
{
    /// <summary>Wind at the reference height, m/s.</summary>
    public required WindVector Wind { get; init; }

    /// <summary>Change of the wind for each metre of height; zero when it was not fitted.</summary>
    public required WindVector Shear { get; init; }

    /// <summary>Height the wind belongs to, metres.</summary>
    public required double Height { get; init; }

    /// <summary>Forward speed, m/s.</summary>
    public required double ForwardSpeed { get; init; }

    /// <summary>Covariance of the wind's error, m²/s².</summary>
    public required PlaneCovariance Error { get; init; }

    /// <summary>Standard deviation of the forward speed.</summary>
    public required double ForwardSpeedSd { get; init; }

    /// <summary>Root mean square distance of the velocities from the circle, m/s.</summary>
    public required double Scatter { get; init; }

    /// <summary>The wind at a height.</summary>
    public WindVector At(double height) => Wind + (height - Height) * Shear;

    /// <summary>Fits a circle.</summary>
    /// <param name="velocities">Ground velocities.</param>
    /// <param name="heights">Their heights, metres.</param>
    /// <param name="withShear">Whether the wind may change with height.</param>
    /// <param name="inflation">Variance of the result over that of independent velocities, 1 or more.</param>
    public static Fit<VelocityCircle> Of(IReadOnlyList<WindVector> velocities, IReadOnlyList<double> heights,
        bool withShear, double inflation = 1)
    {
        var (n, parameters) = (velocities.Count, withShear ? 5 : 3);
        if (n < parameters + 2) return Fit<VelocityCircle>.Refused($"{Rounding.Count(n)} velocities are too few for a circle");
        var middle = heights.Average();
        if (Taubin(velocities) is not { } start)
            return Fit<VelocityCircle>.Refused("the velocities lie on a line: the canopy did not turn");
        double[] x = withShear ? [start.East, start.North, start.Radius, 0, 0] : [start.East, start.North, start.Radius];
        var cost = Cost(x, velocities, heights, middle);
        var damping = 1e-3;
        MathNet.Numerics.LinearAlgebra.Matrix<double>? normal = null;
        for (var round = 0; round < 60; round++)
        {
            (normal, var slope) = Normal(x, velocities, heights, middle);
            var damped = normal.Clone();
            for (var i = 0; i < parameters; i++) damped[i, i] += damping * Math.Max(normal[i, i], 1e-12);
            var step = damped.Solve(slope);
            if (!step.All(double.IsFinite)) return Fit<VelocityCircle>.Refused("the velocities do not tell a circle");
            double[] tried = [.. x.Select((v, i) => v + step[i])];
            var triedCost = Cost(tried, velocities, heights, middle);
            if (triedCost <= cost)
            {
                var gain = cost - triedCost;
                (x, cost, damping) = (tried, triedCost, Math.Max(damping / 5, 1e-9));
                if (gain <= 1e-10 * (1 + cost)) break;
            }
            else if ((damping *= 5) > 1e9)
            {
                break;
            }
        }
        var variance = cost / (n - parameters);
        var covariance = Normal(x, velocities, heights, middle).Normal.PseudoInverse() * variance * inflation;
        if (!(x[2] > 0) || !covariance.Enumerate().All(double.IsFinite))
            return Fit<VelocityCircle>.Refused("the velocities do not tell a circle");
        return Fit<VelocityCircle>.Made(new VelocityCircle
        {
            Wind = new WindVector(x[0], x[1]), Shear = withShear ? new WindVector(x[3], x[4]) : default, Height = middle,
            ForwardSpeed = Math.Max(x[2] / 2, x[2] - variance / (2 * x[2])),
            Error = new PlaneCovariance(covariance[0, 0], covariance[1, 1], covariance[0, 1]),
            ForwardSpeedSd = Math.Sqrt(Math.Max(0, covariance[2, 2])), Scatter = Math.Sqrt(cost / n),
        });
    }

    private static (double East, double North, double Radius)? Taubin(IReadOnlyList<WindVector> v)
    {
        var (meanEast, meanNorth) = (v.Average(p => p.East), v.Average(p => p.North));
        double xx = 0, yy = 0, xy = 0, xz = 0, yz = 0, zz = 0;
        foreach (var p in v)
        {
            var (x, y) = (p.East - meanEast, p.North - meanNorth);
            var z = x * x + y * y;
            (xx, yy, xy, xz, yz, zz) = (xx + x * x, yy + y * y, xy + x * y, xz + x * z, yz + y * z, zz + z * z);
        }
        (xx, yy, xy, xz, yz, zz) = (xx / v.Count, yy / v.Count, xy / v.Count, xz / v.Count, yz / v.Count, zz / v.Count);
        var (mz, cov) = (xx + yy, xx * yy - xy * xy);
        var a3 = 4 * mz;
        var a2 = -3 * mz * mz - zz;
        var a1 = zz * mz + 4 * cov * mz - xz * xz - yz * yz - mz * mz * mz;
        var a0 = xz * xz * yy + yz * yz * xx - zz * cov - 2 * xz * yz * xy + mz * mz * cov;
        var (root, value) = (0.0, double.PositiveInfinity);
        for (var i = 0; i < 50; i++)
        {
            var now = a0 + root * (a1 + root * (a2 + root * a3));
            if (Math.Abs(now) > Math.Abs(value)) break;
            value = now;
            var slope = a1 + root * (2 * a2 + root * 3 * a3);
            var next = root - now / slope;
            if (!double.IsFinite(next) || next < 0 || Math.Abs(next - root) <= 1e-12 * Math.Abs(next)) break;
            root = next;
        }
        var determinant = root * root - root * mz + cov;
        if (!(Math.Abs(determinant) > 1e-12 * mz * mz)) return null;
        var (east, north) = ((xz * (yy - root) - yz * xy) / determinant / 2, (yz * (xx - root) - xz * xy) / determinant / 2);
        return (east + meanEast, north + meanNorth, Math.Sqrt(east * east + north * north + mz));
    }

    private static double Cost(double[] x, IReadOnlyList<WindVector> v, IReadOnlyList<double> heights, double middle)
    {
        var sum = 0.0;
        for (var i = 0; i < v.Count; i++)
        {
            var (east, north) = From(x, v[i], heights[i] - middle);
            var off = double.Hypot(east, north) - x[2];
            sum += off * off;
        }
        return sum;
    }

    private static (double East, double North) From(double[] x, WindVector v, double height) =>
        x.Length == 3 ? (v.East - x[0], v.North - x[1]) : (v.East - x[0] - height * x[3], v.North - x[1] - height * x[4]);

    private static (MathNet.Numerics.LinearAlgebra.Matrix<double> Normal, MathNet.Numerics.LinearAlgebra.Vector<double> Slope) Normal(
        double[] x, IReadOnlyList<WindVector> v, IReadOnlyList<double> heights, double middle)
    {
        var normal = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(x.Length, x.Length);
        var slope = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(x.Length);
        Span<double> row = stackalloc double[5];
        for (var i = 0; i < v.Count; i++)
        {
            var height = heights[i] - middle;
            var (east, north) = From(x, v[i], height);
            var distance = Math.Max(double.Hypot(east, north), 1e-9);
            (row[0], row[1], row[2], row[3], row[4]) =
                (east / distance, north / distance, 1, height * east / distance, height * north / distance);
            for (var a = 0; a < x.Length; a++)
            {
                slope[a] += row[a] * (distance - x[2]);
                for (var b = 0; b < x.Length; b++) normal[a, b] += row[a] * row[b];
            }
        }
        return (normal, slope);
    }
}
