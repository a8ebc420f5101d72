namespace JumpAnalytics.Statistics;

public static partial class DiscProbability
{
    // In standard deviations of the major axis from the rim: further inside than the first the probability rounds to 1,
    // further than the second on either side the smaller of the two probabilities is below the least double.
    private const double SurelyInside = 8.7;
    private const double Surely = 39;

    // The rim counts as straight when it bends by less than this part of the spread across it.
    private const double Straight = 1e-7;

    // Down to here the complement of the chord sum keeps enough digits; below, the rim is clear of the mean.
    private const double Complement = 1e-5;

    private static double Inside(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        var inward = radius - distance;
        if (inward >= SurelyInside * major)
            return 1;
        if (inward <= -Surely * major || radius == 0)
            return 0; // Scaling may take a least radius to zero.
        if (IsStraight(radius, ellipse, out var depth))
            return NormalInterval.Below(depth);
        if (minor == 0)
        {
            var chord = HalfChord(radius, meanMinor);
            return NormalInterval.From((meanMajor - chord) / major, chord / major);
        }

        return TryRim(radius, ellipse, out var inside, out _) ? inside : ChordsInside(radius, ellipse);
    }

    private static double Outside(double radius, in Ellipse ellipse)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        var inward = radius - distance;
        if (inward >= Surely * major)
            return 0;
        if (!(inward > 0))
            return 1 - Inside(radius, ellipse); // half of it or more
        if (IsStraight(radius, ellipse, out var depth))
            return NormalInterval.Below(-depth);
        if (minor == 0)
        {
            var chord = HalfChord(radius, meanMinor);
            return NormalInterval.Below((meanMajor - chord) / major) + NormalInterval.Below((-meanMajor - chord) / major);
        }

        if (TryRim(radius, ellipse, out _, out var outside))
            return outside;
        var complement = 1 - ChordsInside(radius, ellipse);
        return complement > Complement ? complement : ChordsOutside(radius, ellipse);
    }

    // All but straight rim: the probability is that of a half plane up to the rim, which the mean square deviation along
    // it, given a point on it, pulls inward. Depth of the mean in it, in standard deviations across.
    private static bool IsStraight(double radius, in Ellipse ellipse, out double depth)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        depth = 0;
        if (radius <= major / Straight)
            return false;

        double ratio = minor / major, normalMinor = meanMinor / distance, normalMajor = meanMajor / distance;
        var across = Math.Sqrt(Square(ratio * normalMinor) + Square(normalMajor));
        if (!(radius / major * across > 1 / Straight))
            return false;

        var inward = (radius - distance) / major;
        var slope = (1 - ratio * ratio) * normalMinor * normalMajor / (across * across);
        var along = Square(slope * inward) + Square(ratio / across);
        depth = (inward - 0.5 * along / (radius / major)) / across;
        return true;
    }

    private static double HalfChord(double radius, double meanMinor) =>
        Math.Sqrt(Math.Max(0, radius - meanMinor)) * Math.Sqrt(radius + meanMinor);

    private static double Square(double x) => x * x;
}
