namespace JumpAnalytics;

/// <summary>
/// Misses of one pass: miss = bias + what the pass shares + the jumper's own + what is left of the exit's offset along the run. The shared
/// part is normal; the own part is normal, or now and then so many times as wide (a mixture of two spreads). Metres in the downwind frame.
/// </summary>
/// <param name="Bias">Mean miss, metres.</param>
/// <param name="SharedDownwind">Standard deviation along the drift of what a pass shares, metres, zero or more.</param>
/// <param name="SharedRight">The same across.</param>
/// <param name="OwnDownwind">Standard deviation along the drift of a jumper's own part, the narrow kind, metres, zero or more.</param>
/// <param name="OwnRight">The same across.</param>
/// <param name="WideShare">Share of landings whose own part is of the wide kind, from 0 to below 1.</param>
/// <param name="Widening">How many times as wide that is, 1 or more.</param>
[TypeFormatterSource]
public sealed partial record StickModel(
    PlaneVector Bias, double SharedDownwind, double SharedRight, double OwnDownwind, double OwnRight,
    double WideShare = 0, double Widening = 1)
{
    /// <summary>
    /// Steps of the integral per axis at the most; reached only where the own part is a small fraction of the shared one.
    /// </summary>
    private const int MostSteps = 301;

    /// <summary>The distribution of the number of jumpers inside the target radius.</summary>
    /// <param name="jumpers">Jumpers of the pass, one or more.</param>
    /// <param name="radius">Target radius, metres, zero or more.</param>
    /// <param name="step">
    /// What is left, in the landing, of the way from one exit to the next, metres; none unless said otherwise. The middle
    /// of the stick is on the plan.
    /// </param>
    /// <returns>Probabilities of none, one, … all inside.</returns>
    /// <remarks>
    /// Given the shared part landings are independent, each inside with its own probability by <see cref="DiscProbability"/>, and their
    /// number is a Poisson binomial by recursion. The mean over the shared part is a trapezoidal sum on a grid fine enough for the
    /// narrowest thing in it, which for a smooth integrand falls in error as exp(−2π²/step²) (Trefethen and Weideman 2014, SIAM Review
    /// 56:385-458): to 1e-8 as long as the own part is not below √n/20 of the shared one for n jumpers; below that the grid, of at most 301
    /// steps per axis, is too coarse for it, and without any own part the error can reach 1e-3.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Fewer than one jumper or more than 16, a radius below zero, or a step that is not finite.
    /// </exception>
    public double[] InsideCounts(int jumpers, double radius, PlaneVector step = default)
    {
        Guard.Within(jumpers, 1, StickOptions.MostJumpers);
        Guard.AtLeast(radius, 0, hint: "metres");
        if (!double.IsFinite(step.Along) || !double.IsFinite(step.Across)) throw Guard.Refused(nameof(step), step, "of finite length");
        return Counts(jumpers, radius, step, 20)[jumpers - 1];
    }

    /// <summary>Probability that at least so many jumpers of a pass are inside the target radius.</summary>
    /// <param name="inside">How many at least, zero or more.</param>
    /// <param name="jumpers">Jumpers of the pass, one or more.</param>
    /// <param name="radius">Target radius, metres.</param>
    /// <param name="step">As for <see cref="InsideCounts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="InsideCounts"/>; or fewer than none at least.</exception>
    public double ProbabilityAtLeast(int inside, int jumpers, double radius, PlaneVector step = default)
    {
        Guard.AtLeast(inside, 0);
        return inside > jumpers ? 0 : Math.Min(1, InsideCounts(jumpers, radius, step).Skip(inside).Sum());
    }

    /// <summary>Probability that the whole stick is inside the target radius.</summary>
    /// <param name="jumpers">Jumpers of the pass.</param>
    /// <param name="radius">Target radius, metres.</param>
    /// <param name="step">As for <see cref="InsideCounts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="InsideCounts"/>.</exception>
    public double ProbabilityAll(int jumpers, double radius, PlaneVector step = default) =>
        ProbabilityAtLeast(jumpers, jumpers, radius, step);

    /// <summary>Sticks of one jumper up to so many at once, on one grid.</summary>
    /// <param name="largest">The largest stick.</param>
    /// <param name="radius">Metres.</param>
    /// <param name="step">Metres from one jumper to the next.</param>
    /// <param name="digits">Natural logarithm of the inverse of the error aimed at.</param>
    internal double[][] Counts(int largest, double radius, PlaneVector step, double digits)
    {
        var along = Grid(SharedDownwind, OwnDownwind, largest, digits);
        var across = Grid(SharedRight, OwnRight, largest, digits);
        var result = Enumerable.Range(1, largest).Select(n => new double[n + 1]).ToArray();
        var places = 2 * largest - 1; // offsets in half steps: a stick of n holds 1 − n, 3 − n, … n − 1
        var negligible = 1e-3 * Math.Exp(-digits) / (along.Length * across.Length);
        Span<double> inside = stackalloc double[places];
        Span<double> counts = stackalloc double[largest + 1];
        foreach (var (a, weightA) in along)
        {
            foreach (var (c, weightC) in across)
            {
                if (weightA * weightC < negligible) continue;
                for (var p = 0; p < places; p++)
                {
                    var half = 0.5 * (p - (largest - 1));
                    inside[p] = p > 0 && step == default
                        ? inside[0] : Inside(radius, Bias.Along + a + half * step.Along, Bias.Across + c + half * step.Across);
                }
                for (var n = 1; n <= largest; n++)
                {
                    counts.Clear();
                    counts[0] = 1;
                    for (var j = 0; j < n; j++)
                    {
                        var hit = inside[largest - n + 2 * j];
                        for (var k = j + 1; k > 0; k--) counts[k] = counts[k] * (1 - hit) + counts[k - 1] * hit;
                        counts[0] *= 1 - hit;
                    }
                    for (var k = 0; k <= n; k++) result[n - 1][k] += weightA * weightC * counts[k];
                }
            }
        }
        return result;
    }

    private double Inside(double radius, double downwind, double right)
    {
        var (d, r) = (OwnDownwind * OwnDownwind, OwnRight * OwnRight);
        var narrow = DiscProbability.Inside(radius, downwind, right, d, r, 0);
        if (WideShare == 0) return narrow;
        var k = Widening * Widening;
        return (1 - WideShare) * narrow + WideShare * DiscProbability.Inside(radius, downwind, right, k * d, k * r, 0);
    }

    private static (double At, double Weight)[] Grid(double shared, double own, int jumpers, double digits)
    {
        if (shared == 0) return [(0, 1)];
        var reach = Math.Sqrt(2 * digits) + 0.5;
        var narrowest = 1 / Math.Sqrt(1 + jumpers * (shared / own) * (shared / own)); // in units of the shared part
        var step = 2 * Math.PI * narrowest / Math.Sqrt(2 * digits);
        var half = (int)Math.Min((MostSteps - 1) / 2, Math.Ceiling(reach / step));
        step = reach / half;
        var grid = Enumerable.Range(-half, 2 * half + 1)
            .Select(i => (At: i * step * shared, Weight: Math.Exp(-0.5 * i * step * i * step))).ToArray();
        var sum = grid.Sum(g => g.Weight);
        return [.. grid.Select(g => (g.At, g.Weight / sum))];
    }
}
