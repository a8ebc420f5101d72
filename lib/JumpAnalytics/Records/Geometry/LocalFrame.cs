namespace JumpAnalytics;

/// <summary>The tangent plane of the WGS 84 ellipsoid at a place: turns positions into metres east and north of it.</summary>
/// <remarks>
/// Both points are taken at the same height above the ellipsoid; the difference of their earth-centred coordinates is
/// rotated to east, north, up (the topocentric conversion, EPSG method 9837) and "up", millimetres within a few hundred
/// metres, is left out. Ellipsoid: a = 6 378 137 m, 1/f = 298.257 223 563 (WGS 84).
/// </remarks>
[TypeFormatterSource]
public sealed class LocalFrame
{
    private const double SemiMajorAxis = 6378137.0;
    private const double Flattening = 1 / 298.257223563;
    private const double EccentricitySquared = Flattening * (2 - Flattening);

    private readonly double _height;
    private readonly double _sinLat, _cosLat, _sinLon, _cosLon;
    private readonly (double X, double Y, double Z) _origin;

    /// <summary>Makes the plane at a place.</summary>
    /// <param name="origin">Where the plane touches; the spot.</param>
    /// <param name="height">Metres above the ellipsoid at which both points lie. At 2,000 m distances grow by 0.03 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">The height is not finite.</exception>
    public LocalFrame(GeoPosition origin, double height = 0)
    {
        Origin = origin;
        _height = Guard.Finite(height, hint: "metres");
        (_sinLat, _cosLat) = Math.SinCos(double.DegreesToRadians(origin.Latitude));
        (_sinLon, _cosLon) = Math.SinCos(double.DegreesToRadians(origin.Longitude));
        _origin = EarthCentred(origin);
    }

    /// <summary>Where the plane touches the ellipsoid.</summary>
    public GeoPosition Origin { get; }

    /// <summary>Metres east and north of the origin.</summary>
    /// <param name="position">A place within some kilometres; farther away the plane departs from the ground.</param>
    public LocalVector ToLocal(GeoPosition position)
    {
        var (x, y, z) = EarthCentred(position);
        var (dx, dy, dz) = (x - _origin.X, y - _origin.Y, z - _origin.Z);
        return new LocalVector(
            East: -_sinLon * dx + _cosLon * dy,
            North: -_sinLat * _cosLon * dx - _sinLat * _sinLon * dy + _cosLat * dz);
    }

    private (double X, double Y, double Z) EarthCentred(GeoPosition p)
    {
        var (sinLat, cosLat) = Math.SinCos(double.DegreesToRadians(p.Latitude));
        var (sinLon, cosLon) = Math.SinCos(double.DegreesToRadians(p.Longitude));
        var n = SemiMajorAxis / Math.Sqrt(1 - EccentricitySquared * sinLat * sinLat);
        return ((n + _height) * cosLat * cosLon,
                (n + _height) * cosLat * sinLon,
                (n * (1 - EccentricitySquared) + _height) * sinLat);
    }
}
