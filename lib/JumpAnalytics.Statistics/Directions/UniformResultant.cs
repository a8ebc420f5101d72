namespace JumpAnalytics.Statistics;

/// <summary>
/// The exact law of the length of a sum of vectors of given lengths whose directions are independent and uniform, and of its
/// part along a fixed direction.
/// </summary>
/// <remarks>
/// <para>The sum lies within a disc whose radius is the sum c of the lengths, and its characteristic function at distance t is Π J0(l t).
/// A density on a disc is a Fourier-Bessel series with the characteristic function at its nodes as coefficients, so that with the zeros j
/// of J0 P(length ≤ r) = Σ Π J0(l j/c) · 2r J1(j r/c) / (c j J1(j)²); likewise a Fourier sine series for the part along a direction
/// (Greenwood and Durand 1955, Annals of Mathematical Statistics 26:233-246, for equal lengths). Absolute error about 1e-10 for five and
/// more vectors of like length.</para>
/// <para>Of two vectors the law is elementary; of three or four unequal or equal ones the series ends too slowly and the law follows from
/// that of one vector fewer, by integration over a disc about the end of the last.</para>
/// </remarks>
internal static class UniformResultant
{
    private static readonly Quadrature _rule = new(0, 1, 40);

    private const double Negligible = 1e-12;
    private const int MostTerms = 20_000, FewVectors = 4, Kept = 2000;

    // The first zeros of J0, with J1 there.
    private static readonly Lazy<(double Place, double First)[]> _zeros = new(() => [.. Enumerable.Range(1, Kept).Select(Zero)]);

    /// <summary>Probability of a length of r or more.</summary>
    /// <param name="lengths">Lengths of the vectors, above zero.</param>
    /// <param name="r">The length asked for.</param>
    public static double Above(IReadOnlyList<double> lengths, double r)
    {
        var all = lengths.Sum();
        if (r <= 0) return 1;
        if (r > all * (1 + 1e-12)) return 0;
        if (lengths.Count <= FewVectors) return Math.Clamp(1 - Below([.. lengths], Math.Min(r, all)), 0, 1);
        var sum = 0.0;
        foreach (var (j, first) in Zeros(lengths, all))
        {
            sum += Characteristic(lengths, j / all) * 2 * r * BesselJ.One(j * r / all) / (all * j * first * first);
        }
        return Math.Clamp(1 - sum, 0, 1);
    }

    /// <summary>Probability that the sum reaches r or more along a fixed direction.</summary>
    /// <param name="count">Number of vectors of length 1, five or more.</param>
    /// <param name="r">The part along the direction, of either sign.</param>
    public static double AboveAlong(int count, double r)
    {
        if (Math.Abs(r) >= count) return r > 0 ? 0 : 1;
        var sum = 0.5 - r / (2.0 * count);
        for (var k = 1; k <= MostTerms; k++)
        {
            var t = k * Math.PI / count;
            var size = Math.Pow(Math.Min(1, Math.Sqrt(2 / (Math.PI * t))), count);
            if (size / k < Negligible) break;
            sum -= Math.Pow(BesselJ.Zero(t), count) * Math.Sin(t * r) / (k * Math.PI);
        }
        return Math.Clamp(sum, 0, 1);
    }

    private static double Characteristic(IReadOnlyList<double> lengths, double t)
    {
        var (product, last, value) = (1.0, double.NaN, 0.0);
        foreach (var length in lengths)
        {
            if (length != last) (last, value) = (length, BesselJ.Zero(length * t));
            product *= value;
            if (Math.Abs(product) < 1e-300) return 0;
        }
        return product;
    }

    // Zeros of J0 until |J0(x)| ≤ √(2/(πx)) makes every later term negligible.
    private static IEnumerable<(double Place, double First)> Zeros(IReadOnlyList<double> lengths, double all)
    {
        var (n, fixedPart) = (lengths.Count, 0.0);
        var shortest = lengths.Min();
        foreach (var length in lengths) fixedPart += 0.5 * Math.Log(2 * all / (Math.PI * length));
        for (var k = 1; k <= MostTerms; k++)
        {
            var zero = k <= Kept ? _zeros.Value[k - 1] : Zero(k);
            var j = zero.Place;
            // Where every vector is past the first fall of its J0 the sum of the logarithms is one expression.
            var size = shortest * j > all * 2 / Math.PI
                ? fixedPart - 0.5 * n * Math.Log(j) : lengths.Sum(l => 0.5 * Math.Min(0, Math.Log(2 * all / (Math.PI * l * j))));
            if (Math.Exp(size) * Math.Sqrt(j) < Negligible && k > 3) yield break;
            yield return zero;
        }
    }

    /// <summary>The k-th positive zero of J0: McMahon's expansion (DLMF 10.21.19), made exact by Newton.</summary>
    private static (double Place, double First) Zero(int k)
    {
        var b = (k - 0.25) * Math.PI;
        var e = 1 / (8 * b);
        var x = b + e - 124.0 / 3 * e * e * e;
        for (var i = 0; i < (k < 5 ? 3 : 1); i++) x += BesselJ.Zero(x) / BesselJ.One(x);
        return (x, BesselJ.One(x));
    }

    private static double Below(double[] lengths, double r)
    {
        if (r <= 0) return 0;
        if (r >= lengths.Sum()) return 1;
        if (lengths is [var only]) return r >= only ? 1 : 0;
        if (lengths is [var a, var b])
        {
            var cos = (r * r - a * a - b * b) / (2 * a * b);
            return cos <= -1 ? 0 : cos >= 1 ? 1 : Math.Acos(-cos) / Math.PI;
        }
        // The sum of the others must end in a disc of radius r whose centre lies the last length away; seen from the beginning of
        // the sum, each direction passes the disc between two distances. The rim passes the bends of the others' law at known angles.
        var (others, last) = (lengths[..^1], lengths[^1]);
        var widest = r < last ? Math.Asin(r / last) : Math.PI;
        var bends = Bends(others).Where(d => d > 0).Select(d => (d * d + last * last - r * r) / (2 * d * last))
            .Where(c => Math.Abs(c) < 1).Select(Math.Acos);
        double[] ends = [.. bends.Where(a => a < widest).Append(0).Append(widest).Distinct().Order()];
        return ends.Zip(ends.Skip(1), (from, to) => Piece(from, to, angle =>
        {
            var (sin, cosine) = Math.SinCos(angle);
            var half = Math.Sqrt(Math.Max(0, r * r - last * last * sin * sin));
            return Below(others, last * cosine + half) - (r < last ? Below(others, last * cosine - half) : 0);
        })).Sum() / Math.PI;
    }

    // Lengths that the vectors have when all lie in one line.
    private static IEnumerable<double> Bends(double[] lengths) => lengths.Length == 1 ? lengths
        : Bends(lengths[..^1]).SelectMany(d => new[] { d + lengths[^1], Math.Abs(d - lengths[^1]) }).Distinct();

    // Smooth where the integrand has a root at an end: x = from + (to − from)·s²(3 − 2s).
    private static double Piece(double from, double to, Func<double, double> f) =>
        _rule.Of(s => f(from + (to - from) * s * s * (3 - 2 * s)) * (to - from) * 6 * s * (1 - s));
}
