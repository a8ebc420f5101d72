namespace JumpAnalytics;

public sealed partial class MagneticModel
{
    private const double ReferenceRadius = 6_371_200;
    private const double SemiMajorAxis = 6_378_137;
    private const double Flattening = 1 / 298.257223563;
    private const double EccentricitySquared = Flattening * (2 - Flattening);

    /// <summary>The field without any check of date, height or zone.</summary>
    internal MagneticField Synthesise(GeoPosition position, double height, double decimalYear)
    {
        var (sinLat, cosLat) = Math.SinCos(double.DegreesToRadians(position.Latitude));
        var (sinLon, cosLon) = Math.SinCos(double.DegreesToRadians(position.Longitude));

        // Geodetic to geocentric: distance from the axis, from the equator's plane, and from the centre.
        var n = SemiMajorAxis / Math.Sqrt(1 - EccentricitySquared * sinLat * sinLat);
        var axial = (n + height) * cosLat;
        var polar = (n * (1 - EccentricitySquared) + height) * sinLat;
        var radius = Math.Sqrt(axial * axial + polar * polar);
        var (sin, cos) = (polar / radius, axial / radius);

        var (field, rate) = Sum(sin, cos, sinLon, cosLon, ReferenceRadius / radius, decimalYear - _epoch);
        var (sinTilt, cosTilt) = (sin * cosLat - cos * sinLat, cos * cosLat + sin * sinLat);
        return new MagneticField(field.Tilted(sinTilt, cosTilt), rate.Tilted(sinTilt, cosTilt));
    }

    // Minus the gradient of the potential a sum (a/r)^(n+1) (g cos m lon + h sin m lon) P in geocentric north, east and
    // down, and its rate, order by order. P is the Schmidt semi-normalised Legendre function of the sine of the
    // latitude, here without a factor cos(latitude) for m > 0, so that the division by it in the east component never
    // happens and the poles need no case of their own; slope is the derivative of the whole P by colatitude. Both
    // follow from the recurrence
    //   root(n, m) P(n, m) = (2n - 1) sin(latitude) P(n - 1, m) - root(n - 1, m) P(n - 2, m),  root = sqrt(n^2 - m^2),
    // and its derivative.
    private (MagneticVector Field, MagneticVector Rate) Sum(
        double sin, double cos, double sinLon, double cosLon, double ratio, double years)
    {
        var (field, rate) = (default(MagneticVector), default(MagneticVector));
        var (sectoral, sinM, cosM) = (1.0, 0.0, 1.0);
        var orderPower = ratio * ratio;
        var next = 0;
        for (var m = 0; m <= Degree; m++)
        {
            var factor = m == 0 ? 1 : cos;
            var (p, pBefore) = (sectoral, 0.0);
            var (slope, slopeBefore) = (m * sin * sectoral, 0.0);
            var (power, rootBefore) = (orderPower, 0.0);
            for (var n = m; n <= Degree; n++)
            {
                ref readonly var term = ref _terms[next++];
                if (n > m)
                {
                    var step = 2 * n - 1;
                    (slope, slopeBefore) =
                        ((step * (sin * slope - cos * factor * p) - rootBefore * slopeBefore) / term.Root, slope);
                    (p, pBefore) = ((step * sin * p - rootBefore * pBefore) / term.Root, p);
                    rootBefore = term.Root;
                }

                var (g, h) = (term.G + years * term.GRate, term.H + years * term.HRate);
                var weight = new MagneticVector(power * slope, power * m * p, -power * (n + 1) * factor * p);
                field = field.Plus(weight, g * cosM + h * sinM, g * sinM - h * cosM);
                rate = rate.Plus(weight, term.GRate * cosM + term.HRate * sinM, term.GRate * sinM - term.HRate * cosM);
                power *= ratio;
            }

            orderPower *= ratio;
            sectoral *= m == 0 ? 1 : cos * Math.Sqrt((2 * m + 1) / (2.0 * m + 2));
            (sinM, cosM) = (sinM * cosLon + cosM * sinLon, cosM * cosLon - sinM * sinLon);
        }

        return (field, rate);
    }
}
