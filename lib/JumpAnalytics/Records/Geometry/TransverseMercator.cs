using System.Numerics;

namespace JumpAnalytics;

/// <summary>The transverse Mercator projection of the WGS 84 ellipsoid about a central meridian, without false origin.</summary>
/// <remarks>
/// Krüger's series to sixth order in the third flattening n, with the coefficients of Karney (2011), "Transverse Mercator
/// with an accuracy of a few nanometers", Journal of Geodesy 85, 475-485: equations 7 to 14 and 35 forward, 15 to 21 and
/// 36 back. Within a UTM zone the truncation is far below the rounding of doubles, about 2e-9 m at a northing of 10 000 km.
/// </remarks>
internal static class TransverseMercator
{
    private const double SemiMajorAxis = 6378137.0;
    private const double Flattening = 1 / 298.257223563;
    private const double EccentricitySquared = Flattening * (2 - Flattening);
    private const double N = Flattening / (2 - Flattening);

    // Karney (2011), equation 14: the radius of the circle as long as a meridian.
    private const double RectifyingRadius =
        SemiMajorAxis / (1 + N) * (1 + N * N * (1.0 / 4 + N * N * (1.0 / 64 + N * N / 256)));

    private static readonly double Eccentricity = Math.Sqrt(EccentricitySquared);

    // Equation 35, one row per multiple of the angle, in powers of n from the multiple on.
    private static readonly double[] Alpha = Series(
        [1.0 / 2, -2.0 / 3, 5.0 / 16, 41.0 / 180, -127.0 / 288, 7891.0 / 37800],
        [13.0 / 48, -3.0 / 5, 557.0 / 1440, 281.0 / 630, -1983433.0 / 1935360],
        [61.0 / 240, -103.0 / 140, 15061.0 / 26880, 167603.0 / 181440],
        [49561.0 / 161280, -179.0 / 168, 6601661.0 / 7257600],
        [34729.0 / 80640, -3418889.0 / 1995840],
        [212378941.0 / 319334400]);

    // Equation 36.
    private static readonly double[] Beta = Series(
        [1.0 / 2, -2.0 / 3, 37.0 / 96, -1.0 / 360, -81.0 / 512, 96199.0 / 604800],
        [1.0 / 48, 1.0 / 15, -437.0 / 1440, 46.0 / 105, -1118711.0 / 3870720],
        [17.0 / 480, -37.0 / 840, -209.0 / 4480, 5569.0 / 90720],
        [4397.0 / 161280, -11.0 / 504, -830251.0 / 7257600],
        [4583.0 / 161280, -108847.0 / 3991680],
        [20648693.0 / 638668800]);

    /// <summary>Metres east of the central meridian and north of the equator, at scale 1 on the meridian.</summary>
    /// <param name="latitude">Degrees, positive north, not a pole.</param>
    /// <param name="longitude">Degrees east of the central meridian, within a few tens of degrees.</param>
    public static (double X, double Y) Forward(double latitude, double longitude)
    {
        var tau = Math.Tan(double.DegreesToRadians(latitude));
        var conformal = Conformal(tau);
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(longitude));
        var sphere = new Complex(
            Math.Atan2(conformal, cos),
            Math.Asinh(sin / double.Hypot(conformal, cos)));
        var plane = RectifyingRadius * (sphere + Sum(Alpha, sphere));
        return (plane.Imaginary, plane.Real);
    }

    /// <summary>Latitude and degrees east of the central meridian: the inverse of <see cref="Forward"/>.</summary>
    /// <param name="x">Metres east of the central meridian, within some thousand kilometres.</param>
    /// <param name="y">Metres north of the equator, short of the pole.</param>
    public static (double Latitude, double Longitude) Inverse(double x, double y)
    {
        var plane = new Complex(y / RectifyingRadius, x / RectifyingRadius);
        var sphere = plane - Sum(Beta, plane);
        var (sin, cos) = Math.SinCos(sphere.Real);
        var across = Math.Sinh(sphere.Imaginary);
        var tau = FromConformal(sin / double.Hypot(across, cos));
        return (double.RadiansToDegrees(Math.Atan(tau)), double.RadiansToDegrees(Math.Atan2(across, cos)));
    }

    // Tangent of the conformal latitude from that of the latitude: equations 7 to 9.
    private static double Conformal(double tau)
    {
        var secant = double.Hypot(1, tau);
        var sigma = Math.Sinh(Eccentricity * Math.Atanh(Eccentricity * tau / secant));
        return tau * double.Hypot(1, sigma) - sigma * secant;
    }

    // Newton's method on the equation above: equations 19 to 21. Two steps reach the rounding; the third confirms it.
    private static double FromConformal(double conformal)
    {
        var tau = conformal / (1 - EccentricitySquared);
        for (var step = 0; step < 3; step++)
        {
            var found = Conformal(tau);
            tau += (conformal - found) / double.Hypot(1, found)
                * (1 + (1 - EccentricitySquared) * tau * tau) / ((1 - EccentricitySquared) * double.Hypot(1, tau));
        }

        return tau;
    }

    private static Complex Sum(double[] coefficients, Complex angle)
    {
        var sum = Complex.Zero;
        for (var j = coefficients.Length; j > 0; j--)
            sum += coefficients[j - 1] * Complex.Sin(2 * j * angle);
        return sum;
    }

    private static double[] Series(params double[][] rows) =>
        [.. rows.Select((row, j) => Math.Pow(N, j + 1) * row.Reverse().Aggregate(0.0, (sum, term) => sum * N + term))];
}
