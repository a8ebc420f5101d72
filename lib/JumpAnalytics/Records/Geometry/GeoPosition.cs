using System.Globalization;

namespace JumpAnalytics;

/// <summary>A place on the WGS 84 ellipsoid in decimal degrees. The default value is 0° N 0° E.</summary>
[TypeFormatterSource]
public readonly record struct GeoPosition
{
    /// <summary>Makes a position.</summary>
    /// <param name="latitude">Degrees, positive north, −90 to 90.</param>
    /// <param name="longitude">Degrees, positive east, −180 to 180.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite or outside its range.</exception>
    public GeoPosition(double latitude, double longitude)
    {
        Latitude = Guard.Within(latitude, -90, 90, hint: "degrees");
        Longitude = Guard.Within(longitude, -180, 180, hint: "degrees");
    }

    /// <summary>Degrees, positive north.</summary>
    public double Latitude { get; }

    /// <summary>Degrees, positive east.</summary>
    public double Longitude { get; }

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Latitude:0.000000}, {Longitude:0.000000}");
}
