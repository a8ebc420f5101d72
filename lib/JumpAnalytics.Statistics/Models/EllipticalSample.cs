using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Places in coordinates in which their centre is 0 and their scatter the unit circle, and the slopes of the log-likelihood of
/// elliptical distributions over them in closed form. Coordinates of a distribution: its centre (0, 1), the logarithms of the
/// diagonal of the lower triangle that takes its scatter to the unit circle (2, 3), the element below them (4), those of its tail.
/// </summary>
internal sealed class EllipticalSample
{
    /// <summary>Number of coordinates of centre and scatter.</summary>
    public const int Axes = 5;

    /// <summary>Monomials of the two deviations up to the fourth degree.</summary>
    private const int Monomials = 15;

    /// <summary>Where the monomial of two deviations' powers stands: 1, x, y, xx, xy, yy, xxx, ...</summary>
    private static int Place(int x, int y) => (x + y) * (x + y + 1) / 2 + y;

    private static readonly (int X, int Y)[] _powers = [(1, 0), (0, 1), (2, 0), (1, 1), (0, 2)];

    private readonly double[] _first, _second;
    private readonly double _mean1, _mean2, _t11, _t21, _t22;

    /// <summary>Places seen from about their own centre and scatter.</summary>
    /// <param name="points">The points.</param>
    /// <param name="core">Centre and scatter.</param>
    public EllipticalSample(ReadOnlySpan<PlaneVector> points, BivariateNormal core)
    {
        (_mean1, _mean2) = (core.MeanAlong, core.MeanAcross);
        _t11 = 1 / Math.Sqrt(core.VarianceAlong);
        _t22 = Math.Sqrt(core.VarianceAlong / core.Determinant());
        _t21 = -core.Covariance / core.VarianceAlong * _t22;
        (_first, _second) = (new double[points.Length], new double[points.Length]);
        for (var i = 0; i < points.Length; i++)
        {
            var (d, r) = (points[i].Along - _mean1, points[i].Across - _mean2);
            (_first[i], _second[i]) = (_t11 * d, _t21 * d + _t22 * r);
        }
    }

    /// <summary>Centre and scatter at some coordinates; null where they are no numbers.</summary>
    public BivariateNormal? Core(double[] x)
    {
        var (u11, u22) = (Math.Exp(x[2]) * _t11, Math.Exp(x[3]) * _t22);
        var u21 = x[4] * _t11 + Math.Exp(x[3]) * _t21;
        var (variance, slope) = (1 / (u11 * u11), -u21 / u22);
        var (along, across) = (_mean1 + x[0] / _t11, _mean2 + (x[1] - _t21 / _t11 * x[0]) / _t22);
        var (other, both) = (slope * slope * variance + 1 / (u22 * u22), slope * variance);
        if (!(double.IsFinite(along + across) && double.IsFinite(variance + other) && double.IsFinite(both))) return null;
        var core = new BivariateNormal(along, across, variance, other, both);
        return core.HasArea && core.Determinant() is > 0 and < double.PositiveInfinity ? core : null;
    }

    /// <summary>Slope and curvature of the log-likelihood of the points.</summary>
    /// <param name="x">Coordinates of centre and scatter, then those of the tail.</param>
    /// <param name="tail">The tail.</param>
    public (double[] Gradient, Matrix<double> Curvature) Slopes<TTail>(double[] x, TTail tail) where TTail : struct, IEllipticalTail
    {
        // Sums of monomials of the deviations, weighted by the slopes of the tail.
        Span<double> q = stackalloc double[Monomials], qq = stackalloc double[Monomials], qa = stackalloc double[Monomials],
            qb = stackalloc double[Monomials];
        Span<double> m = stackalloc double[Monomials];
        q.Clear(); qq.Clear(); qa.Clear(); qb.Clear();
        var (sa, sb, saa, sab, sbb) = (0.0, 0.0, 0.0, 0.0, 0.0);
        var (a, b, c) = (Math.Exp(x[2]), Math.Exp(x[3]), x[4]);
        var tails = x.Length - Axes;
        for (var i = 0; i < _first.Length; i++)
        {
            var (d1, d2) = (_first[i] - x[0], _second[i] - x[1]);
            var (u1, u2) = (a * d1, b * d2 + c * d1);
            tail.SlopesAt(u1 * u1 + u2 * u2, out var s);
            var (xx, xy, yy) = (d1 * d1, d1 * d2, d2 * d2);
            (m[0], m[1], m[2], m[3], m[4], m[5]) = (1, d1, d2, xx, xy, yy);
            (m[6], m[7], m[8], m[9]) = (d1 * xx, d2 * xx, d1 * yy, d2 * yy);
            (m[10], m[11], m[12], m[13], m[14]) = (xx * xx, xx * xy, xx * yy, xy * yy, yy * yy);
            for (var k = 0; k < 6; k++) q[k] += s.Q * m[k];
            for (var k = 3; k < Monomials; k++) qq[k] += s.QQ * m[k];
            if (tails == 0) continue;
            for (var k = 0; k < 6; k++) qa[k] += s.QA * m[k];
            sa += s.A;
            saa += s.AA;
            if (tails == 1) continue;
            for (var k = 0; k < 6; k++) qb[k] += s.QB * m[k];
            (sb, sab, sbb) = (sb + s.B, sab + s.AB, sbb + s.BB);
        }

        var turn = Turn(a, b, c);
        var gradient = new double[x.Length];
        var curvature = Bend(a, b, c, q, x.Length);
        for (var i = 0; i < Axes; i++)
        {
            for (var k = 0; k < Axes; k++)
            {
                var (px, py) = _powers[k];
                gradient[i] += turn[i, k] * q[Place(px, py)];
                if (tails > 0) curvature[i, Axes] += turn[i, k] * qa[Place(px, py)];
                if (tails > 1) curvature[i, Axes + 1] += turn[i, k] * qb[Place(px, py)];
                for (var j = 0; j <= i; j++)
                    for (var l = 0; l < Axes; l++)
                        curvature[j, i] += turn[i, k] * turn[j, l] * qq[Place(px + _powers[l].X, py + _powers[l].Y)];
            }
        }
        gradient[2] += _first.Length;
        gradient[3] += _first.Length;
        if (tails > 0) (gradient[Axes], curvature[Axes, Axes]) = (sa, saa);
        if (tails > 1) (gradient[Axes + 1], curvature[Axes, Axes + 1], curvature[Axes + 1, Axes + 1]) = (sb, sab, sbb);
        for (var i = 0; i < x.Length; i++)
            for (var j = 0; j < i; j++) curvature[i, j] = curvature[j, i];
        return (gradient, curvature);
    }

    /// <summary>Slopes of the squared distance by the axes, as sums of the monomials d1, d2, d1², d1 d2, d2².</summary>
    private static double[,] Turn(double a, double b, double c) => new[,]
    {
        { -2 * (a * a + c * c), -2 * b * c, 0, 0, 0 },
        { -2 * b * c, -2 * b * b, 0, 0, 0 },
        { 0, 0, 2 * a * a, 0, 0 },
        { 0, 0, 0, 2 * b * c, 2 * b * b },
        { 0, 0, 2 * c, 2 * b, 0 },
    };

    /// <summary>Upper half of the sum of second derivatives of the squared distance, weighted by the slope of the tail.</summary>
    private static Matrix<double> Bend(double a, double b, double c, ReadOnlySpan<double> q, int size)
    {
        var (one, d1, d2, xx, xy, yy) = (q[0], q[1], q[2], q[3], q[4], q[5]);
        var bend = Matrix<double>.Build.Dense(size, size);
        (bend[0, 0], bend[0, 1], bend[1, 1]) = (2 * (a * a + c * c) * one, 2 * b * c * one, 2 * b * b * one);
        (bend[0, 2], bend[0, 3], bend[0, 4]) = (-4 * a * a * d1, -2 * b * c * d2, -2 * (2 * c * d1 + b * d2));
        (bend[1, 3], bend[1, 4]) = (-2 * (b * c * d1 + 2 * b * b * d2), -2 * b * d1);
        bend[2, 2] = 4 * a * a * xx;
        (bend[3, 3], bend[3, 4], bend[4, 4]) = (4 * b * b * yy + 2 * b * c * xy, 2 * b * xy, 2 * xx);
        return bend;
    }
}
