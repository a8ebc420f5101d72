namespace JumpAnalytics;

/// <summary>
/// Covariance of the error of an east/north vector: m² for a displacement, m²/s² for a wind. The default value is no error.
/// </summary>
/// <param name="East">Variance east.</param>
/// <param name="North">Variance north.</param>
/// <param name="EastNorth">Covariance of the two.</param>
[TypeFormatterSource]
public readonly record struct LocalCovariance(double East, double North, double EastNorth)
{
    /// <summary>The same variance in every direction.</summary>
    /// <param name="sd">Standard deviation per axis.</param>
    public static LocalCovariance Round(double sd) => new(sd * sd, sd * sd, 0);

    /// <summary>Standard deviations along the longest and the shortest axis.</summary>
    public (double Longest, double Shortest) AxisSds
    {
        get
        {
            var (mean, half) = ((East + North) / 2, double.Hypot((East - North) / 2, EastNorth));
            return (Math.Sqrt(Math.Max(mean + half, 0)), Math.Sqrt(Math.Max(mean - half, 0)));
        }
    }

    /// <summary>Standard deviation along a direction.</summary>
    /// <param name="direction">The direction; its opposite gives the same.</param>
    public double SdAlong(Bearing direction)
    {
        var (sin, cos) = Math.SinCos(direction.Radians);
        return Math.Sqrt(Math.Max(sin * sin * East + cos * cos * North + 2 * sin * cos * EastNorth, 0));
    }

    /// <summary>Covariance of the sum of two independent errors.</summary>
    public static LocalCovariance operator +(LocalCovariance a, LocalCovariance b) => new(a.East + b.East, a.North + b.North, a.EastNorth + b.EastNorth);

    /// <summary>The covariance scaled by a factor (the square of what the vector is scaled by).</summary>
    public static LocalCovariance operator *(double factor, LocalCovariance a) => new(factor * a.East, factor * a.North, factor * a.EastNorth);
}
