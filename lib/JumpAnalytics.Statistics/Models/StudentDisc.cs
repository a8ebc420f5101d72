namespace JumpAnalytics.Statistics;

/// <summary>
/// Probability of an elliptical t in a disc about the origin, as an integral along the rim. In coordinates in which the scatter is a
/// unit circle about 0, the field (1 − S(q)) y / (2π q), with q = |y|² and S(q) the probability beyond q, has the density as its
/// divergence; any other constant in place of the 1 gives the same as long as 0 lies outside the disc. Gauss-Legendre rules
/// on pieces of the rim that double in length away from where the integrand changes fastest.
/// </summary>
internal readonly struct StudentDisc
{
    private const int Order = 12;

    /// <summary>Pieces of a rim along which nothing changes quickly.</summary>
    private const int FewestPieces = 6;

    /// <summary>Pieces shorter than this, in radians, are not made smaller.</summary>
    private const double Shortest = 1e-18;

    private const int MostEnds = 512;

    /// <summary>Squares of a radius of more spreads than this would leave the range of a double.</summary>
    private const double LargestRadius = 1e140;

    /// <summary>Square of the spreads over which the tail of a normal changes by little.</summary>
    private const double NormalChange = 6;

    private static readonly Quadrature _rule = new(-1, 1, Order);
    private static readonly (double At, double Weight)[] _nodes = 
        [.. Enumerable.Range(0, Order).Select(i => (_rule.At(i), _rule.Weight(i)))];

    private readonly double _inverse, _radius, _distance, _inward, _perNormal, _perTangent, _turn, _major, _minor, _axis;

    /// <summary>A disc and a distribution.</summary>
    /// <param name="radius">Above zero, finite.</param>
    /// <param name="core">Centre relative to that of the disc, and scatter.</param>
    /// <param name="inverse">One through the degrees of freedom, above 0.</param>
    public StudentDisc(double radius, BivariateNormal core, double inverse)
    {
        // The frame: from the middle of the disc to the centre of the distribution, and across.
        _distance = double.Hypot(core.MeanAlong, core.MeanAcross);
        var (n1, n2) = _distance > 0 ? (core.MeanAlong / _distance, core.MeanAcross / _distance) : (1, 0);
        var (v1, v2, c, determinant) = (core.VarianceAlong, core.VarianceAcross, core.Covariance, core.Determinant());
        var normal = n1 * n1 * v1 + 2 * n1 * n2 * c + n2 * n2 * v2;
        var both = n1 * n2 * (v2 - v1) + (n1 - n2) * (n1 + n2) * c;
        _inverse = inverse;
        _turn = both / normal;
        _perNormal = 1 / Math.Sqrt(normal);
        _perTangent = Math.Sqrt(normal / determinant);
        _radius = Math.Min(radius, LargestRadius * (_distance + Math.Sqrt(v1 + v2)));
        _inward = _radius - _distance;
        var major = (v1 + v2) / 2 + double.Hypot((v1 - v2) / 2, c);
        (_major, _minor) = (Math.Sqrt(major), Math.Sqrt(determinant / major));
        _axis = 0.5 * Math.Atan2(2 * both, 2 * normal - v1 - v2);
    }

    /// <summary>Squared distance from the centre to the line that touches the rim nearest to it, in spreads.</summary>
    private double Depth => _inward * _perNormal * (_inward * _perNormal);

    /// <summary>Probability within the disc.</summary>
    public double Within() =>
        Math.Clamp(_inward >= 0 || (Depth < 1 && _distance <= 2 * _radius) ? Sum(RimFlow.FromCentre) : Sum(RimFlow.FromDisc), 0, 1);

    /// <summary>Probability beyond the disc.</summary>
    public double Beyond() => Math.Clamp(_inward > 0 && Depth >= 1 ? Sum(RimFlow.Outward) : 1 - Within(), 0, 1);

    /// <summary>
    /// What is summed: the flow from the centre, that less its strength at the middle of a disc that leaves the centre
    /// out, or what flows on outwards.
    /// </summary>
    private enum RimFlow
    {
        FromCentre,
        FromDisc,
        Outward,
    }

    private double Sum(RimFlow flow)
    {
        Span<double> ends = stackalloc double[MostEnds];
        ends = ends[..Ends(flow, ends)];
        ends.Sort();
        var sum = 0.0;
        for (var i = 0; i < ends.Length; i++)
        {
            var (from, to) = (ends[i], i + 1 < ends.Length ? ends[i + 1] : ends[0] + 2 * Math.PI);
            if (to == from) continue;
            var (middle, half) = ((from + to) / 2, (to - from) / 2);
            var piece = 0.0;
            foreach (var (at, weight) in _nodes) piece += weight * Integrand(flow, middle + half * at);
            sum += half * piece;
        }
        return sum / (2 * Math.PI);
    }

    /// <summary>
    /// Ends of the pieces, as angles from the direction of the centre. They lie closest where the rim is nearest to the centre and where
    /// the major axis meets it, since there the tail is highest, and q or 1 + q/ν vanishes not far off the real rim.
    /// </summary>
    private int Ends(RimFlow flow, Span<double> ends)
    {
        var count = 0;
        for (var piece = 0; piece < FewestPieces; piece++) ends[count++] = Math.PI * (2 * (piece + 0.5) / FewestPieces - 1);
        Refine(Math.Clamp(_turn * _inward / _radius, -1, 1), Change(flow, Depth) / (_perTangent * _radius), ends, ref count);

        var (sin, cos) = Math.SinCos(_axis);
        var (foot, across) = (_distance * cos, _distance * sin);
        var root = Math.Sqrt(Math.Max(0, (_radius - across) * (_radius + across)));
        var far = -(foot + (foot < 0 ? -root : root));
        var near = root == 0 ? far : -_inward * (_radius + _distance) / far;
        foreach (var along in (ReadOnlySpan<double>)[far, near])
        {
            Refine(Math.Atan2(along * sin, _distance + along * cos),
                Change(flow, Square(along / _major)) * _minor / _radius, ends, ref count);
        }
        return count;
    }

    /// <summary>Over how many spreads along the rim the integrand changes where the squared distance from the centre is q.</summary>
    private double Change(RimFlow flow, double q) =>
        Math.Sqrt(Math.Min((flow == RimFlow.FromCentre ? 1 / _inverse : 0) + q, NormalChange * (1 + _inverse * q)));

    private static void Refine(double place, double scale, Span<double> ends, ref int count)
    {
        if (!(scale < 1)) return;
        ends[count++] = place;
        for (var away = Math.Max(scale, Shortest); away < 1; away *= 2)
        {
            ends[count++] = Math.IEEERemainder(place - away, 2 * Math.PI);
            ends[count++] = Math.IEEERemainder(place + away, 2 * Math.PI);
        }
    }

    /// <summary>The integrand at an angle on the rim from the direction of the centre.</summary>
    private double Integrand(RimFlow flow, double angle)
    {
        var (sinHalf, cosHalf) = Math.SinCos(angle / 2);
        var versine = 2 * sinHalf * sinHalf;
        var (sin, cos) = (2 * sinHalf * cosHalf, 1 - versine);
        var outward = _radius * (_inward + _distance * versine) * _perNormal * _perTangent; // y × dy

        var normal = _inward - _radius * versine;
        var q = Square(normal * _perNormal) + Square((_radius * sin - _turn * normal) * _perTangent);
        if (flow == RimFlow.Outward) return Math.Exp(-0.5 * Grown(q)) / q * outward;
        if (flow == RimFlow.FromCentre) return q < 1e-290 ? 0.5 * outward : -Kernels.Expm1(-0.5 * Grown(q)) / q * outward;

        // The fall of S from the middle of the disc to the rim.
        var (m1, m2) = (-_distance * _perNormal, _turn * _distance * _perTangent);
        var (d1, d2) = (_radius * cos * _perNormal, _radius * (sin - _turn * cos) * _perTangent);
        var middle = m1 * m1 + m2 * m2;
        var rise = d1 * (d1 + 2 * m1) + d2 * (d2 + 2 * m2);
        var steps = 0.5 * Kernels.Log1p(_inverse * rise / (1 + _inverse * middle)) / _inverse;
        var fall = Math.Abs(steps) < 1
            ? -Math.Exp(-0.5 * Grown(middle)) * Kernels.Expm1(-steps)
            : Math.Exp(-0.5 * Grown(middle)) - Math.Exp(-0.5 * Grown(q));
        return fall / q * outward;
    }

    /// <summary>−2 log S(q).</summary>
    private double Grown(double q) => Kernels.Log1p(_inverse * q) / _inverse;

    private static double Square(double x) => x * x;
}
