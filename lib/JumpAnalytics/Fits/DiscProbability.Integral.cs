using JumpAnalytics.Internals;

namespace JumpAnalytics;

public static partial class DiscProbability
{
    // In standard deviations of the major axis: further inside than this the probability rounds to 1, further outside
    // it is below the least double.
    private const double SurelyInside = 8.7;
    private const double SurelyOutside = 39;

    // The rim counts as straight when it bends by less than this part of the spread across it.
    private const double Straight = 1e-7;

    // Chords are left out where the density is below exp(-Cut) of its greatest value in the disc.
    private const double Cut = 35;

    // Spacing of the chords: one part in (root of the exponent's curvature + Extra), times Spacing. A spacing of 0.8
    // leaves an error of 2 exp(-2 pi^2 / 0.8^2) = 8e-14 for a plain normal density, 0.78 leaves 2e-14.
    private const double Spacing = 0.78;
    private const double Extra = 2;

    private static double Inside(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        var inward = radius - distance;
        if (inward >= SurelyInside * major)
            return 1;
        if (inward <= -SurelyOutside * major || radius == 0)
            return 0; // Scaling may take a least radius to zero.

        // Spread across the rim where the mean is nearest to it, in units of the major standard deviation.
        var ratio = minor / major;
        var across = Math.Sqrt(Square(ratio * (meanMinor / distance)) + Square(meanMajor / distance));
        if (radius / major * across > 1 / Straight)
            return HalfPlane(radius / major, inward / major, across, ratio, meanMinor / distance, meanMajor / distance);

        if (minor == 0)
        {
            var chord = Math.Sqrt(Math.Max(0, radius - meanMinor)) * Math.Sqrt(radius + meanMinor);
            return NormalInterval.From((meanMajor - chord) / major, chord / major);
        }

        // Distance along the minor axis from the mean to the end of the disc. Within the disc's width it follows from
        // the distance inward of the rim, which has every digit where it matters.
        var toEnd = meanMajor > radius
            ? radius - meanMinor
            : (inward * (radius + distance) + meanMajor * meanMajor) / (radius + meanMinor);
        var reach = toEnd + SurelyOutside * minor;
        if (reach <= 0 || meanMajor - Math.Sqrt(reach * (radius + meanMinor)) >= SurelyOutside * major)
            return 0;

        return Math.Min(1, ChordSum(radius, toEnd, ellipse));
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

    // The integral over the chords across the minor axis that lie within a window about the mean. Chords are placed by
    // an angle from an anchor on the rim, so that their distance from the mean keeps its digits in a narrow window: the
    // end of the disc if the window reaches it (the integrand is even about it), otherwise the mean.
    private static double ChordSum(double radius, double toEnd, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        var window = minor * Math.Sqrt(GreatestDensity(radius, toEnd, ellipse) + 2 * Cut);
        var reachesEnd = window >= toEnd;
        var whole = window >= radius + meanMinor;

        var sinAnchor = reachesEnd ? 1 : meanMinor / radius;
        var cosAnchor = reachesEnd ? 0 : Math.Sqrt(toEnd * (radius + meanMinor)) / radius;
        var offset = reachesEnd ? toEnd : 0;
        var anchorToMean = reachesEnd
            ? meanMajor
            : (distance - radius) * (distance + radius) / (meanMajor + radius * cosAnchor);
        var upper = reachesEnd ? radius : meanMinor + window;
        var lower = whole ? -radius : meanMinor - window;
        var cosLower = whole ? 0 : Math.Sqrt((toEnd + window) * (radius + lower)) / radius;
        var cosUpper = reachesEnd ? 0 : Math.Sqrt((toEnd - window) * (radius + upper)) / radius;
        var below = whole ? Math.PI : 2 * Math.Atan((offset + window) / radius / (cosAnchor + cosLower));
        var above = reachesEnd ? 0 : 2 * Math.Atan(window / radius / (cosAnchor + cosUpper));

        // The exponent's curvature at its greatest: along the minor axis, along the major axis, and of a far mean.
        var curvature = Square(radius / minor) * (lower <= 0 ? 1 : Square(cosLower))
            + Square(upper / major)
            + Math.Max(0, -toEnd) / minor * (radius / minor)
            + Math.Max(0, meanMajor - radius) / major * (radius / major);
        var step = Spacing / (Math.Sqrt(curvature) + Extra);
        var count = (int)Math.Ceiling((below + above) / step);
        if (whole)
            step = Math.PI / count;

        // From the anchor's side away; half angles turn by a recurrence that adds small corrections.
        var first = reachesEnd ? -0.5 * step : above;
        var (sinHalf, cosHalf) = Math.SinCos(0.5 * first);
        var alpha = 2 * Square(Math.Sin(0.25 * step));
        var beta = Math.Sin(0.5 * step);
        double perMinor = 1 / minor, perMajor = 1 / major;
        var sum = 0.0;
        for (var k = 0; k < count; k++)
        {
            var sin = 2 * sinHalf * cosHalf;
            var versine = 2 * sinHalf * sinHalf;
            var z = (offset + radius * (cosAnchor * sin - sinAnchor * versine)) * perMinor;
            var shortening = radius * (cosAnchor * versine + sinAnchor * sin);
            var half = (radius * cosAnchor - shortening) * perMajor;
            var near = (anchorToMean + shortening) * perMajor;
            sum += Math.Exp(-0.5 * z * z) * half * NormalInterval.From(near, half);
            (sinHalf, cosHalf) = (
                sinHalf - (alpha * sinHalf + beta * cosHalf),
                cosHalf - (alpha * cosHalf - beta * sinHalf));
        }

        return sum * step * NormalInterval.InverseSqrt2Pi * (major / minor);
    }

    // All but straight rim, lengths in units of the major standard deviation: the normal probability up to the rim,
    // which the mean square deviation along it, given a point on it, pulls inward.
    private static double HalfPlane(
        double radius, double inward, double across, double ratio, double normalMinor, double normalMajor)
    {
        var slope = (1 - ratio * ratio) * normalMinor * normalMajor / (across * across);
        var along = Square(slope * inward) + Square(ratio / across);
        return NormalInterval.Below((inward - 0.5 * along / radius) / across);
    }

    private static double Square(double x) => x * x;
}
