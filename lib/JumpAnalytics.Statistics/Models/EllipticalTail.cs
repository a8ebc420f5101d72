namespace JumpAnalytics.Statistics;

/// <summary>
/// How the density of an elliptical distribution falls with the squared distance q from the centre: its logarithm is
/// LogAt(q) − ½ log |scatter| − log 2π.
/// </summary>
internal interface IEllipticalTail
{
    double LogAt(double q);

    /// <summary>Slopes of <see cref="LogAt"/> by q and by up to two coordinates of the tail.</summary>
    void SlopesAt(double q, out TailSlopes slopes);
}

/// <summary>First and second derivatives by the squared distance (Q) and by the first and second coordinate of the tail (A, B).</summary>
internal struct TailSlopes
{
    public double Q, QQ, A, B, QA, QB, AA, AB, BB;
}

/// <summary>
/// The tail of the t in two dimensions, (1 + q/ν)^(−(ν + 2)/2), by a coordinate whose square is 1/ν: zero for the normal, and the same
/// on both sides of it, so that the search need not end there.
/// </summary>
internal readonly struct StudentTail(double root) : IEllipticalTail
{
    /// <summary>One through the degrees of freedom.</summary>
    public double Inverse { get; } = root * root;

    /// <summary>
    /// Below this 1/ν times q, slopes by 1/ν come from their series: its error and the rounding of the closed form are below 1e-10.
    /// </summary>
    private const double Small = 0.01;

    public double LogAt(double q) => -(0.5 + Inverse) * Grown(q);

    public void SlopesAt(double q, out TailSlopes slopes)
    {
        var t = Inverse * q;
        var share = 1 / (1 + t);
        var half = 0.5 + Inverse;
        var grown = Grown(q);
        double first, second; // of grown by 1/ν
        if (t < Small)
        {
            first = q * q * (-1 / 2.0 + t * (2 / 3.0 + t * (-3 / 4.0 + t * (4 / 5.0 + t * (-5 / 6.0 + t * (6 / 7.0))))));
            second = q * q * q * (2 / 3.0 + t * (-6 / 4.0 + t * (12 / 5.0 + t * (-20 / 6.0 + t * (30 / 7.0 + t * (-42 / 8.0))))));
        }
        else
        {
            first = (q * share - grown) / Inverse;
            second = -(q * share * q * share + 2 * first) / Inverse;
        }
        var bySquare = -grown - half * first;
        slopes = new TailSlopes
        {
            Q = -half * share,
            QQ = half * Inverse * share * share,
            A = 2 * root * bySquare,
            QA = 2 * root * (half * q * share - 1) * share,
            AA = 2 * bySquare - 4 * Inverse * (2 * first + half * second),
        };
    }

    private double Grown(double q) => Inverse > 0 ? Kernels.Log1p(Inverse * q) / Inverse : q;
}

/// <summary>
/// The tail of two normals about one centre, the second some times as wide: by the logits of its share and by the logarithm of what its
/// widening has above one.
/// </summary>
internal readonly struct WideTail(double share, double widening) : IEllipticalTail
{
    private readonly double _kappa = 1 / (widening * widening);

    public double Share => share;

    public double Widening => widening;

    public double LogAt(double q) => -0.5 * _kappa * q + Math.Log((1 - share) * Math.Exp(-0.5 * (1 - _kappa) * q) + share * _kappa);

    public void SlopesAt(double q, out TailSlopes slopes)
    {
        var wide = share * _kappa;
        wide /= wide + (1 - share) * Math.Exp(-0.5 * (1 - _kappa) * q); // probability of the wide part, given q
        var (both, less, excess) = (wide * (1 - wide), 1 - _kappa, 1 / _kappa - 0.5 * q);
        var per = 1 / widening;
        var (first, second) = (-2 * per * per * (1 - per), 2 * per * per * (2 - 3 * per) * (1 - per)); // of kappa by its coordinate
        slopes = new TailSlopes
        {
            Q = -0.5 * (1 - wide * less),
            QQ = 0.25 * both * less * less,
            A = wide - share,
            AA = both - share * (1 - share),
            QA = 0.5 * less * both,
            B = first * wide * excess,
            BB = second * wide * excess + first * first * (both * excess * excess - wide / (_kappa * _kappa)),
            QB = 0.5 * first * (both * excess * less - wide),
            AB = first * both * excess,
        };
    }
}
