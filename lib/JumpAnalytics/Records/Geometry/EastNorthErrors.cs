namespace JumpAnalytics;

/// <summary>Errors of east/north vectors by direction: the first axis of their covariance is east, the second north.</summary>
public static class EastNorthErrors
{
    /// <summary>Standard deviation along a direction.</summary>
    /// <param name="error">Covariance of the error of an east/north vector.</param>
    /// <param name="direction">The direction; its opposite gives the same.</param>
    public static double SdAlong(this PlaneCovariance error, Bearing direction)
    {
        var (sin, cos) = Math.SinCos(direction.Radians);
        return error.SdAlong(sin, cos);
    }
}
