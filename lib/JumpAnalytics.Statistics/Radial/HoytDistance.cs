using JumpAnalytics.Internals;

namespace JumpAnalytics;

/// <summary>The Hoyt distribution of distances: those of misses that centre on the spot and spread along an ellipse, whichever way it lies.</summary>
/// <param name="Larger">Standard deviation of the misses along the ellipse, metres.</param>
/// <param name="Smaller">Standard deviation across it, metres, no more than the larger one; equal to it for Rayleigh's distribution, 0 for misses along a line.</param>
[TypeFormatterSource]
public sealed record HoytDistance(double Larger, double Smaller) : IRadialModel
{
    private static readonly double _logRoot2OverPi = 0.5 * Math.Log(2 / Math.PI);

    private static readonly ParameterOf<HoytDistance>[] _parameters =
    [
        new("larger standard deviation", ParameterKind.Length, m => m.Larger),
        new("smaller standard deviation", ParameterKind.Length, m => m.Smaller),
    ];

    /// <summary>Standard deviation of the misses along the ellipse, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Larger { get; } = RadialProbability.Positive(Larger, nameof(Larger));

    /// <summary>Standard deviation of the misses across the ellipse, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is negative, no number, or larger than the other.</exception>
    public double Smaller { get; } = RadialProbability.NotNegative(Smaller, nameof(Smaller)) <= Larger
        ? Smaller
        : throw new ArgumentOutOfRangeException(nameof(Smaller), Smaller, "The smaller standard deviation must not exceed the larger one.");

    /// <inheritdoc/>
    public string Name => "Hoyt";

    /// <summary>Ratio of the two; what is next to nothing is nothing, so that its square has a double.</summary>
    private double Ratio => Smaller / Larger is > 1e-100 and var ratio ? ratio : 0;

    /// <inheritdoc/>
    public double LogDensity(double distance) => double.IsInfinity(RadialProbability.Distance(distance, nameof(distance)))
        ? double.NegativeInfinity
        : LogStandardDensity(distance / Larger, Ratio) - Math.Log(Larger);

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => Larger * DiscProbability.Radius(RadialProbability.Probability(probability), 0, 0, 1, Ratio * Ratio, 0);

    /// <inheritdoc/>
    public double Draw(Random random)
    {
        var (first, second) = StandardNormal.Pair(random);
        return double.Hypot(Larger * first, Smaller * second);
    }

    double IRadialModel.LogBetween(double low, double high)
    {
        var ratio = Ratio;
        return new TailIntegral(z => LogStandardDensity(z, ratio), 0, ratio * (1.8 - 0.8 * ratio), Smooth)
            .LogBetween(low / Larger, high / Larger, (high - low) / Larger);

        // Near the spot the density rises within the smaller deviation; farther out it changes over distances of the order of its own.
        double Smooth(double z) => Math.Min(ratio > 0 ? Math.Max(3 * ratio, z) : 5, 20 / (z + Math.Sqrt(z * z + 20)));
    }

    /// <summary>Logarithm of the density for a larger deviation of 1: (z / q) exp(-z² / 2) exp(-x) I0(x), x = z² (1 / q² - 1) / 4.</summary>
    private static double LogStandardDensity(double z, double ratio)
    {
        if (ratio == 0) return _logRoot2OverPi - z * z / 2;
        var t = z / ratio;
        return Math.Log(t * BesselI0.Scaled(t * t * (1 - ratio) * (1 + ratio) / 4)) - z * z / 2;
    }

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>
    /// The fit; with equal deviations, Rayleigh's likelihood and a warning where no ellipse makes the distances likelier, or with a
    /// smaller deviation of 0 and a warning where landings counted in rings crowd on the spot more than on any ellipse (measured distances
    /// always have a smaller one, if only of the size of the least); or the reason why there is none: the same as for Rayleigh's.
    /// </returns>
    public static Fit<ModelFit<HoytDistance>> FitTo(DistanceSample sample)
    {
        var rayleigh = RayleighDistance.FitTo(sample);
        if (!rayleigh.Success) return Fit<ModelFit<HoytDistance>>.Refused(rayleigh.Reason);

        // Free are the root mean square and an angle whose cosine and sine give the two deviations: both circle and line lie within its
        // range, and the likelihood is symmetric about either, so that no search ends at a border. Near the line the angle is searched
        // on the scale of its logarithm, down to one that makes the smaller deviation the least of the distances.
        var (unit, start) = (rayleigh.Value.Model.StandardDeviation * Math.Sqrt(2), RadialStart.Of(sample));
        var finest = Math.Clamp(start.Least / unit, 1e-12, 1);
        var lengthening = Math.Sqrt(Math.Clamp(start.Peakedness - 2, 0.01, 0.95)); // difference of the variances over their sum, by moments
        var likelihood = RadialLikelihood.Of(sample, x => finest * Math.Sinh(x[1]) is var angle && Math.Abs(angle) < 10 ? At(x[0], Math.Abs(Math.Cos(angle)), Math.Abs(Math.Sin(angle))) : null);
        var top = Climb.To(likelihood.At, [0, Math.Asinh(Math.Acos(lengthening) / 2 / finest)]);

        if (likelihood.Build(top.At) is { } model && model.Smaller < 0.01 * model.Larger)
        {
            var line = On(0, "no ellipse makes the distances likelier than a line: the smaller standard deviation is 0, and errors hold for that");
            if (line.Success && !RadialLikelihood.Exceeds(top.Value, line.Value.LogLikelihood!.Value)) return line;
        }
        return RadialLikelihood.Exceeds(top.Value, rayleigh.Value.LogLikelihood!.Value) || !top.Converged
            ? likelihood.Climb(top.At, _parameters, [])
            : On(1, "no ellipse makes the distances likelier than a circle: this is Rayleigh's distribution, and errors hold for equal standard deviations");

        Fit<ModelFit<HoytDistance>> On(double ratio, string warning) => RadialLikelihood
            .Of(sample, x => At(x[0], 1 / Math.Sqrt(1 + ratio), ratio / Math.Sqrt(1 + ratio)))
            .Climb([0], _parameters, [warning], onBoundary: 1);

        HoytDistance? At(double x, double one, double other) => RadialLikelihood.InRange(unit * Math.Exp(x), 1, (rms, _) => new HoytDistance(rms * Math.Max(one, other), rms * Math.Min(one, other)));
    }
}
