namespace JumpAnalytics.Statistics;

/// <summary>
/// Directions of equal weight, for instance one for each cluster: their mean, how close they keep to it, and its interval.
/// </summary>
/// <remarks>
/// <para>An angle may be relative to the first axis of a frame (0 = along it, clockwise: 90° = to its right) or a compass bearing; all
/// angles are in radians, clockwise.</para>
/// <para>Definitions: Mardia and Jupp (2000, Directional Statistics, chapter 2) and Fisher (1993, Statistical
/// Analysis of Circular Data).</para>
/// <para>Interval of the mean direction: those directions φ towards which the sines sin(θ − φ) have a mean that Student's t on n − 1
/// degrees does not tell from zero, on the side of the mean (Fieller's argument; Fisher's large-sample interval with t in place of the
/// normal quantile and without his expansion). It assumes independent directions and no von Mises distribution. Where every direction
/// passes, or more than a half turn, there is no interval.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record DirectionSummary
{
    /// <summary>Fewest directions for an interval.</summary>
    public const int FewestForInterval = 5;

    private DirectionSummary()
    {
    }

    /// <summary>The directions, radians in [0, 2π).</summary>
    public required IReadOnlyList<double> Directions { get; init; }

    /// <summary>Number of directions.</summary>
    public int Count => Directions.Count;

    /// <summary>Mean direction, radians in [0, 2π). Where <see cref="MeanResultant"/> is small it says little.</summary>
    public required double Mean { get; init; }

    /// <summary>
    /// Limits of the mean direction, radians, in clockwise order about <see cref="Mean"/> (they may pass 0 or 2π);
    /// null when none can be given.
    /// </summary>
    public Interval? MeanRange { get; init; }

    /// <summary>Why the mean direction has no interval; null when it has one.</summary>
    public string? WhyNoRange { get; init; }

    /// <summary>Mean resultant length R̄: 1 when all directions are the same, 0 when they cancel.</summary>
    public required double MeanResultant { get; init; }

    /// <summary>Circular variance, 1 − R̄.</summary>
    public double CircularVariance => 1 - MeanResultant;

    /// <summary>Circular standard deviation √(−2 ln R̄), radians; infinite when the directions cancel.</summary>
    public double CircularSd => Math.Sqrt(-2 * Math.Log(MeanResultant));

    /// <summary>Angular deviation √(2(1 − R̄)), radians: 0 to √2 (Zar 2010, equation 26.20).</summary>
    public double AngularDeviation => Math.Sqrt(2 * CircularVariance);

    /// <summary>
    /// Median direction, radians in [0, 2π): the one with the least mean angle to the directions, a direction itself, or of an
    /// even number the middle of two neighbours (Mardia and Jupp 2000, section 2.3.2; Fisher 1993, section 2.3.2). Of several such
    /// the one nearest to the mean.
    /// </summary>
    public required double Median { get; init; }

    /// <summary>
    /// Concentration κ of the von Mises distribution of greatest likelihood; infinite when all directions are the same.
    /// Too large for few directions.
    /// </summary>
    public required double Concentration { get; init; }

    /// <summary>Summarises directions.</summary>
    /// <param name="radians">Angles, clockwise, radians; any finite number.</param>
    /// <param name="confidence">Coverage of the interval of the mean direction.</param>
    /// <returns>The summary, or the reason why there is none: no direction, or directions that cancel.</returns>
    /// <exception cref="ArgumentException">An angle is not finite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<DirectionSummary> Of(IReadOnlyList<double> radians, double confidence = 0.95)
    {
        Guard.Confidence(confidence);
        DirectionTests.Check(radians);
        if (radians.Count == 0) return Fit<DirectionSummary>.Refused("no direction");
        var turned = radians.Select(Turned).ToArray();
        var (cos, sin) = DirectionTests.Sum(turned);
        var length = Math.Min(1, double.Hypot(cos, sin) / turned.Length);
        if (length < 1e-12) return Fit<DirectionSummary>.Refused("the directions cancel: there is no mean direction");
        var mean = Turned(Math.Atan2(sin, cos));
        var (range, why) = MeanInterval(turned, mean, confidence);
        return Fit<DirectionSummary>.Made(new DirectionSummary
        {
            Directions = turned,
            Mean = mean,
            MeanRange = range,
            WhyNoRange = why,
            MeanResultant = length,
            Median = MedianOf(turned, mean),
            Concentration = length > 1 - 1e-15 ? double.PositiveInfinity : BesselRatio.Inverse(length),
        });
    }

    /// <summary>Brought into [0, 2π).</summary>
    internal static double Turned(double angle)
    {
        var turned = angle % Math.Tau;
        if (turned < 0) turned += Math.Tau;
        return turned >= Math.Tau ? 0 : turned;
    }

    private static (Interval?, string?) MeanInterval(double[] angles, double mean, double confidence)
    {
        if (angles.Length < FewestForInterval)
            return (null, $"{angles.Length} direction{(angles.Length == 1 ? "" : "s")}; an interval is given from {FewestForInterval} on");
        var turned = angles.Select(a => a - mean).ToArray();
        var t = QuantileOf.T(angles.Length - 1, TailShare.Middle(confidence));
        var limits = MeanCone.Of([.. turned.Select(Math.Cos)], [.. turned.Select(Math.Sin)], t);
        return limits is { } l
            ? (new Interval(mean + l.Low, mean + l.High), null)
            : (null, "the directions are too scattered: any direction may be the mean one");
    }

    private static double MedianOf(double[] angles, double mean)
    {
        var sorted = angles.Order().ToArray();
        var middles = sorted.Select((a, i) => i + 1 < sorted.Length ? (a + sorted[i + 1]) / 2 : Turned((a + sorted[0] + Math.Tau) / 2));
        var candidates = (angles.Length % 2 == 1 ? sorted : middles).ToList();
        return candidates.Select(c => (Angle: c, Mean: angles.Sum(a => Math.Abs(Gap(a, c)))))
            .OrderBy(c => Math.Round(c.Mean, 10)).ThenBy(c => Math.Round(Math.Abs(Gap(c.Angle, mean)), 10)).First().Angle;
    }

    /// <summary>The turn from b to a, −π to π.</summary>
    internal static double Gap(double a, double b)
    {
        var gap = Turned(a - b);
        return gap > Math.PI ? gap - Math.Tau : gap;
    }
}
