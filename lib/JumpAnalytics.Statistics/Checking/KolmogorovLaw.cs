using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>
/// Distribution of Kolmogorov's D for n values of a distribution that was fixed beforehand: exact by matrix powers up to 500 values
/// (Marsaglia, Tsang and Wang 2003, Journal of Statistical Software 8/18), the expansion of Pelz and Good (1976, Journal of the Royal
/// Statistical Society B 38:152-156) beyond, and in the upper tail twice Smirnov's exact one-sided probability, which is right to a
/// relative 1e-10 there. The choice follows Simard and L'Ecuyer (2011, Journal of Statistical Software 39/11).
/// </summary>
internal static class KolmogorovLaw
{
    private const int MostExact = 500;
    private const double TailFrom = 4; // of n·d²
    private const double Pi2 = Math.PI * Math.PI;

    /// <summary>Probability of a D of at least d.</summary>
    public static double Tail(int n, double d)
    {
        if (d >= 1) return 0;
        if (2 * n * d <= 1) return 1;
        if (n * d * d >= TailFrom) return Math.Min(1, 2 * OneSided(n, d));
        return Math.Clamp(1 - (n <= MostExact ? Exact(n, d) : Expansion(n, d)), 0, 1);
    }

    /// <summary>Probability that the empirical function rises above the other by d or more: Smirnov's sum, all of its terms positive.</summary>
    private static double OneSided(int n, double d)
    {
        var sum = 0.0;
        var whole = SpecialFunctions.GammaLn(n + 1.0);
        for (var j = 0; j <= n * (1 - d); j++)
        {
            var left = 1 - d - (double)j / n;
            if (left <= 0) break;
            var choose = whole - SpecialFunctions.GammaLn(j + 1.0) - SpecialFunctions.GammaLn(n - j + 1.0);
            sum += Math.Exp(choose + (j - 1) * Math.Log(d + (double)j / n) + (n - j) * Math.Log(left));
        }
        return d * sum;
    }

    private static double Exact(int n, double d)
    {
        var k = (int)(n * d) + 1;
        var (size, h) = (2 * k - 1, k - n * d);
        var step = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++) step[i * size + j] = i - j + 1 >= 0 ? 1 : 0;
        }
        for (var i = 0; i < size; i++)
        {
            step[i * size] -= Math.Pow(h, i + 1);
            step[(size - 1) * size + i] -= Math.Pow(h, size - i);
        }
        step[(size - 1) * size] += 2 * h - 1 > 0 ? Math.Pow(2 * h - 1, size) : 0;
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                for (var g = 1; g <= i - j + 1; g++) step[i * size + j] /= g;
            }
        }
        var (power, exponent) = Power(step, size, n);
        var probability = power[(k - 1) * size + k - 1];
        for (var i = 1; i <= n; i++)
        {
            probability *= (double)i / n;
            if (probability < 1e-140) (probability, exponent) = (probability * 1e140, exponent - 140);
        }
        return probability * Math.Pow(10, exponent);
    }

    /// <summary>A power of a matrix as a matrix times a power of ten.</summary>
    private static (double[] Matrix, int Exponent) Power(double[] matrix, int size, int n)
    {
        if (n == 1) return (matrix, 0);
        var (half, exponent) = Power(matrix, size, n / 2);
        var product = Times(half, half, size);
        exponent *= 2;
        if (n % 2 == 1) product = Times(matrix, product, size);
        if (product[size / 2 * size + size / 2] > 1e140)
        {
            for (var i = 0; i < product.Length; i++) product[i] *= 1e-140;
            exponent += 140;
        }
        return (product, exponent);
    }

    private static double[] Times(double[] a, double[] b, int size)
    {
        var product = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            var row = product.AsSpan(i * size, size);
            for (var l = 0; l < size; l++)
            {
                var factor = a[i * size + l];
                if (factor == 0) continue;
                var other = b.AsSpan(l * size, size);
                for (var j = 0; j < size; j++) row[j] += factor * other[j];
            }
        }
        return product;
    }

    private static double Expansion(int n, double d)
    {
        var z = Math.Sqrt(n) * d;
        var (z2, z4, z6) = (z * z, Math.Pow(z, 4), Math.Pow(z, 6));
        double k0 = 0, k1 = 0, k2 = 0, k3 = 0;
        for (var k = 0; k < 40; k++)
        {
            // Each half-integer stands for itself and its negative.
            var h = Pi2 * (k + 0.5) * (k + 0.5);
            var e = 2 * Math.Exp(-h / (2 * z2));
            if (e == 0) break;
            k0 += e;
            k1 += (h - z2) * e;
            k2 += (6 * z6 + 2 * z4 + (2 * z4 - 5 * z2) * h + (1 - 2 * z2) * h * h) * e;
            k3 += ((5 - 30 * z2) * h * h * h + (212 * z4 - 60 * z2) * h * h + (135 * z4 - 96 * z6) * h - 30 * z6 - 90 * z4 * z4) * e;
        }
        double k2Whole = 0, k3Whole = 0;
        for (var k = 1; k < 40; k++)
        {
            var q = Pi2 * k * k;
            var e = 2 * Math.Exp(-q / (2 * z2));
            k2Whole += q * e;
            k3Whole += (3 * q * z2 - q * q) * e;
        }
        var root = Math.Sqrt(Math.PI / 2);
        return root / z * k0
            + root / (6 * z4) * k1 / Math.Sqrt(n)
            + root * (k2 / (72 * z6 * z) - k2Whole / (36 * z2 * z)) / n
            + root * (k3 / (6480 * z4 * z6) + k3Whole / (216 * z6)) / (n * Math.Sqrt(n));
    }
}
