namespace JumpAnalytics.Statistics;

public static partial class DiscProbability
{
    // Chords are left out where the density is below exp(-Cut) of its greatest value in what is summed.
    private const double Cut = 35;

    // Spacing of the chords: one part in (root of the exponent's curvature + Extra), times Spacing. A spacing of 0.8
    // leaves an error of 2 exp(-2 pi^2 / 0.8^2) = 8e-14 for a plain normal density, 0.78 leaves 2e-14.
    private const double Spacing = 0.78;
    private const double Extra = 2;

    // The chord integral: density along the minor axis times the normal probability of the chord.
    private static double ChordsInside(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, _, minor, major) = ellipse;
        var toEnd = ToEnd(radius, ellipse);
        var reach = toEnd + Surely * minor;
        if (reach <= 0 || meanMajor - Math.Sqrt(reach * (radius + meanMinor)) >= Surely * major)
            return 0;

        var chords = new Chords(radius, toEnd, ellipse, minor * Math.Sqrt(GreatestDensity(radius, toEnd, ellipse) + 2 * Cut));
        var sum = 0.0;
        for (var k = 0; k < chords.Count; k++)
        {
            var (z, near, half, _) = chords.Next();
            sum += Math.Exp(-0.5 * z * z) * half * NormalInterval.From(near, half);
        }

        return Math.Min(1, sum * chords.Step * NormalInterval.InverseSqrt2Pi * (major / minor));
    }

    // The rim integral for a mean inside, over both ends of each chord.
    private static double ChordsOutside(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, _, minor, major) = ellipse;
        var toEnd = ToEnd(radius, ellipse);
        var nearest = (Math.Sqrt(toEnd * (radius + meanMinor)) - meanMajor) / major;
        var chords = new Chords(radius, toEnd, ellipse, minor * Math.Sqrt(Square(nearest) + 2 * Cut));
        double semiMajor = radius / major, elongation = major / minor;
        var sum = 0.0;
        for (var k = 0; k < chords.Count; k++)
        {
            var (z, near, half, sin) = chords.Next();
            double alongMajor = semiMajor * sin, alongMinor = half * elongation;
            sum += Beyond(z, -near, alongMajor, alongMinor) + Beyond(z, near + 2 * half, alongMajor, alongMinor);
        }

        return sum * chords.Step / Math.Tau;

        // At the point (x, y) of the rim from the mean, which moves by so much with the angle: x along the minor axis.
        static double Beyond(double x, double y, double alongMajor, double alongMinor)
        {
            var square = x * x + y * y;
            return Math.Exp(-0.5 * square) * (x * alongMajor + y * alongMinor) / square;
        }
    }

    // Distance along the minor axis from the mean to the end of the disc. Within the disc's width it follows from the
    // distance inward of the rim, which has every digit where it matters.
    private static double ToEnd(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, _, _) = ellipse;
        return meanMajor > radius
            ? radius - meanMinor
            : ((radius - distance) * (radius + distance) + meanMajor * meanMajor) / (radius + meanMinor);
    }

    // Twice the size of an exponent that the density reaches inside the disc: the better of two points of its
    // rim, one toward the origin, one on the mean's own chord.
    private static double GreatestDensity(double radius, double toEnd, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        if (distance <= radius)
            return 0;

        var shrink = (distance - radius) / distance;
        var radial = Square(shrink * meanMinor / minor) + Square(shrink * meanMajor / major);
        var chord = Math.Sqrt(Math.Max(0, toEnd) * (radius + meanMinor));
        var level = Square(Math.Max(0, -toEnd) / minor) + Square(Math.Max(0, meanMajor - chord) / major);
        return Math.Min(radial, level);
    }

    // The chords across the minor axis that lie within a window about the mean. They are placed by an angle from an
    // anchor on the rim, so that their distance from the mean keeps its digits in a narrow window: the end of the disc
    // if the window reaches it (the integrand is even about it), otherwise the mean.
    private ref struct Chords
    {
        private readonly double _radius, _offset, _sinAnchor, _cosAnchor, _anchorToMean, _perMinor, _perMajor, _alpha, _beta;
        private double _sinHalf, _cosHalf;

        public Chords(double radius, double toEnd, in Ellipse ellipse, double window)
        {
            var (meanMinor, meanMajor, distance, minor, major) = ellipse;
            var reachesEnd = window >= toEnd;
            var whole = window >= radius + meanMinor;

            _radius = radius;
            (_perMinor, _perMajor) = (1 / minor, 1 / major);
            _sinAnchor = reachesEnd ? 1 : meanMinor / radius;
            _cosAnchor = reachesEnd ? 0 : Math.Sqrt(toEnd * (radius + meanMinor)) / radius;
            _offset = reachesEnd ? toEnd : 0;
            _anchorToMean = reachesEnd
                ? meanMajor
                : (distance - radius) * (distance + radius) / (meanMajor + radius * _cosAnchor);
            var upper = reachesEnd ? radius : meanMinor + window;
            var lower = whole ? -radius : meanMinor - window;
            var cosLower = whole ? 0 : Math.Sqrt((toEnd + window) * (radius + lower)) / radius;
            var cosUpper = reachesEnd ? 0 : Math.Sqrt((toEnd - window) * (radius + upper)) / radius;
            var below = whole ? Math.PI : 2 * Math.Atan((_offset + window) / radius / (_cosAnchor + cosLower));
            var above = reachesEnd ? 0 : 2 * Math.Atan(window / radius / (_cosAnchor + cosUpper));

            // The exponent's curvature at its greatest: along the minor axis, along the major axis, and of a far mean.
            var curvature = Square(radius / minor) * (lower <= 0 ? 1 : Square(cosLower))
                + Square(upper / major)
                + Math.Max(0, -toEnd) / minor * (radius / minor)
                + Math.Max(0, meanMajor - radius) / major * (radius / major);
            Step = Spacing / (Math.Sqrt(curvature) + Extra);
            Count = (int)Math.Ceiling((below + above) / Step);
            if (whole)
                Step = Math.PI / Count;

            // From the anchor's side away; half angles turn by a recurrence that adds small corrections.
            var first = reachesEnd ? -0.5 * Step : above;
            (_sinHalf, _cosHalf) = Math.SinCos(0.5 * first);
            _alpha = 2 * Square(Math.Sin(0.25 * Step));
            _beta = Math.Sin(0.5 * Step);
        }

        /// <summary>Number of chords.</summary>
        public int Count { get; }

        /// <summary>Angle from one chord's end to the next, radians.</summary>
        public double Step { get; }

        /// <summary>
        /// The next chord: distance from the mean along the minor axis, near end from the mean and half length along the
        /// major axis, each in its standard deviations; sine of the angle of its end.
        /// </summary>
        public (double Z, double Near, double Half, double Sin) Next()
        {
            var sin = 2 * _sinHalf * _cosHalf;
            var versine = 2 * _sinHalf * _sinHalf;
            var forward = _cosAnchor * sin - _sinAnchor * versine;
            var shortening = _radius * (_cosAnchor * versine + _sinAnchor * sin);
            (_sinHalf, _cosHalf) = (
                _sinHalf - (_alpha * _sinHalf + _beta * _cosHalf),
                _cosHalf - (_alpha * _cosHalf - _beta * _sinHalf));
            return (
                Z: (_offset + _radius * forward) * _perMinor,
                Near: (_anchorToMean + shortening) * _perMajor,
                Half: (_radius * _cosAnchor - shortening) * _perMajor,
                Sin: _sinAnchor + forward);
        }
    }
}
