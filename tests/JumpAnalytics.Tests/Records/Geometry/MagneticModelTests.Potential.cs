using System.Globalization;

namespace JumpAnalytics.Tests.Geometry;

public partial class MagneticModelTests
{
    // The model's scalar potential and its numerical gradient, by another way than the library's: Legendre functions from
    // their explicit polynomials, points and differences in earth-centred coordinates.
    private sealed class Potential
    {
        private const double Radius = 6_371_200;

        private readonly double[][] _rows = ReferenceFiles.Rows("magnetic/wmm2025-coefficients.csv")
            .Select(row => row.Values.Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray())
            .ToArray();

        public (double North, double East, double Down) Field(GeoPosition position, double height, double year)
        {
            const double flattening = 1 / 298.257223563;
            var (sinLat, cosLat) = Math.SinCos(double.DegreesToRadians(position.Latitude));
            var (sinLon, cosLon) = Math.SinCos(double.DegreesToRadians(position.Longitude));
            var polarToEquatorial = (1 - flattening) * (1 - flattening);
            var n = 6_378_137 / Math.Sqrt(cosLat * cosLat + polarToEquatorial * sinLat * sinLat);
            double[] centre = [
                (n + height) * cosLat * cosLon,
                (n + height) * cosLat * sinLon,
                (polarToEquatorial * n + height) * sinLat];
            return (
                Along([-sinLat * cosLon, -sinLat * sinLon, cosLat]),
                Along([-sinLon, cosLon, 0]),
                Along([-cosLat * cosLon, -cosLat * sinLon, -sinLat]));

            // Minus the derivative: central differences of fourth order.
            double Along(double[] direction)
            {
                const double step = 2000;
                return (At(2) - At(-2) - 8 * (At(1) - At(-1))) / (12 * step);

                double At(int steps) => Value(
                    centre[0] + steps * step * direction[0],
                    centre[1] + steps * step * direction[1],
                    centre[2] + steps * step * direction[2],
                    year - 2025);
            }
        }

        private double Value(double x, double y, double z, double years)
        {
            var r = Math.Sqrt(x * x + y * y + z * z);
            var longitude = Math.Atan2(y, x);
            var sum = 0.0;
            foreach (var row in _rows)
            {
                var (n, m) = ((int)row[0], (int)row[1]);
                var (sin, cos) = Math.SinCos(m * longitude);
                sum += Math.Pow(Radius / r, n + 1) * Legendre(n, m, z / r, Math.Sqrt(x * x + y * y) / r)
                    * ((row[2] + years * row[4]) * cos + (row[3] + years * row[5]) * sin);
            }

            return Radius * sum;
        }

        // Schmidt semi-normalised, from the m-th derivative of the Legendre polynomial written out in powers of the sine.
        private static double Legendre(int n, int m, double sin, double cos)
        {
            var sum = 0.0;
            for (var k = 0; 2 * k <= n - m; k++)
            {
                sum += (k % 2 == 0 ? 1 : -1) * Factorial(2 * n - 2 * k) * Math.Pow(sin, n - m - 2 * k)
                    / (Factorial(k) * Factorial(n - k) * Factorial(n - m - 2 * k));
            }

            var norm = m == 0 ? 1 : Math.Sqrt(2 * Factorial(n - m) / Factorial(n + m));
            return norm * Math.Pow(cos, m) * sum / Math.Pow(2, n);
        }

        private static double Factorial(int n) => Enumerable.Range(1, n).Aggregate(1.0, (product, k) => product * k);
    }
}
