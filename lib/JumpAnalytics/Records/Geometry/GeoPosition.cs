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
        if (!(Math.Abs(latitude) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "Latitude is between -90 and 90 degrees.");
        if (!(Math.Abs(longitude) <= 180))
            throw new ArgumentOutOfRangeException(nameof(longitude), longitude, "Longitude is between -180 and 180 degrees.");
        Latitude = latitude;
        Longitude = longitude;
    }

    /// <summary>Degrees, positive north.</summary>
    public double Latitude { get; }

    /// <summary>Degrees, positive east.</summary>
    public double Longitude { get; }

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Latitude:0.000000}, {Longitude:0.000000}");
}
