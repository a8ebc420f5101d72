using System.Runtime.Intrinsics;
namespace JumpAnalytics.Statistics;

public static partial class DiscProbability
{
    // In major standard deviations: the sum over a smaller disc loses digits where it lies off the mean.
    private const double LeastRadius = 0.05;

    // Squared distance, in standard deviations, from which on the rim is clear of the mean: the probability beyond the
    // rim is then summed itself, without its complement's rounding, and the pole at the mean is far enough.
    private const double Clear = 17;

    // So far from the rim the least exponentials that matter are no longer normal doubles.
    private const double TooFar = 2 * (ExpLanes.Deepest - 50);

    // Stands for a squared distance of zero, where the turn is zero too.
    private const double OnTheMean = 1e-280;

    // Polar coordinates about the mean, lengths in standard deviations. Of all directions from there, those to the piece
    // of rim at the angle x on the disc are the part w dx / (2 pi), w = (R - mean . (cos x, sin x)) R / (minor major s),
    // s the squared distance of the piece; exp(-s/2) of the probability in them lies beyond the rim. The average over x
    // of w (1 - exp(-s/2)) is the probability inside; that of w exp(-s/2) is the one outside for a mean inside, and less
    // the one inside for a mean outside, where as many directions leave the disc as enter it. False where even angles
    // would not do; both answers are then to be found by the chords.
    private static bool TryRim(double radius, in Ellipse ellipse, out double inside, out double outside)
    {
        var (meanMinor, meanMajor, distance, minor, major) = ellipse;
        double semiMinor = radius / minor, semiMajor = radius / major;
        double u = meanMinor / minor, v = meanMajor / major;
        var twice = 0.25 * (semiMinor - semiMajor) * (semiMinor + semiMajor);
        var once = Math.Sqrt(Square(semiMinor * u) + Square(semiMajor * v));
        (inside, outside) = (0, 0);
        if (semiMajor < LeastRadius || EvenAngles.For(twice, once) is not { } angles)
            return false;

        Vector256<double> semiX = Vector256.Create(semiMinor), semiY = Vector256.Create(semiMajor);
        Vector256<double> meanX = Vector256.Create(-u), meanY = Vector256.Create(-v);
        Vector256<double> awayX = Vector256.Create(-meanMinor / radius), awayY = Vector256.Create(-meanMajor / radius);
        Vector256<double> within = default, beyond = default, nearest = Vector256.Create(double.MaxValue);
        foreach (var (cos, sin) in angles.Lanes)
        {
            var x = Vector256.FusedMultiplyAdd(semiX, cos, meanX);
            var y = Vector256.FusedMultiplyAdd(semiY, sin, meanY);
            var square = Vector256.FusedMultiplyAdd(x, x, y * y);
            nearest = Vector256.Min(nearest, square);
            var ahead = Vector256.FusedMultiplyAdd(awayY, sin, Vector256<double>.One);
            var turn = Vector256.FusedMultiplyAdd(awayX, cos, ahead) / Vector256.Max(square, Vector256.Create(OnTheMean));
            var fall = ExpLanes.Fall(square * 0.5, out var lost);
            within = Vector256.FusedMultiplyAdd(turn, lost, within);
            beyond = Vector256.FusedMultiplyAdd(turn, fall, beyond);
        }

        var scale = semiMinor * semiMajor / angles.Count;
        var least = Math.Min(Math.Min(nearest[0], nearest[1]), Math.Min(nearest[2], nearest[3]));
        if (least > Clear)
        {
            var tail = Math.Abs(Sum(beyond)) * scale;
            (inside, outside) = distance < radius ? (1 - tail, tail) : (tail, 1 - tail);
        }
        else
        {
            inside = Math.Min(1, Sum(within) * scale);
            outside = 1 - inside;
        }

        return least < TooFar;
    }

    // In one order, whatever the processor.
    private static double Sum(Vector256<double> four) => four[0] + four[2] + (four[1] + four[3]);
}
