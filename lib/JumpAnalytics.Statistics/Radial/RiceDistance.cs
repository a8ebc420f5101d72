using JumpAnalytics.Internals;

namespace JumpAnalytics;

/// <summary>The Rice distribution of distances: those of misses that centre on a place off the spot and spread alike in every direction.</summary>
/// <param name="Bias">Distance from the spot to the place that the misses centre on, metres; 0 makes it Rayleigh's.</param>
/// <param name="StandardDeviation">Of the misses along any axis, metres.</param>
[TypeFormatterSource]
public sealed record RiceDistance(double Bias, double StandardDeviation) : IRadialModel
{
    private static readonly ParameterOf<RiceDistance>[] _parameters =
    [
        new("bias", ParameterKind.Length, m => m.Bias),
        new("standard deviation", ParameterKind.Length, m => m.StandardDeviation),
    ];

    /// <summary>Distance from the spot to the place that the misses centre on, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is negative or no finite number.</exception>
    public double Bias { get; } = RadialProbability.NotNegative(Bias, nameof(Bias));

    /// <summary>Standard deviation of the misses along any axis, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double StandardDeviation { get; } = RadialProbability.Positive(StandardDeviation, nameof(StandardDeviation));

    /// <inheritdoc/>
    public string Name => "Rice";

    private double Offset => Bias / StandardDeviation;

    /// <inheritdoc/>
    public double LogDensity(double distance) => double.IsInfinity(RadialProbability.Distance(distance, nameof(distance)))
        ? double.NegativeInfinity
        : LogStandardDensity(distance / StandardDeviation, Offset) - Math.Log(StandardDeviation);

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => StandardDeviation * DiscProbability.Radius(RadialProbability.Probability(probability), Offset, 0, 1, 1, 0);

    /// <inheritdoc/>
    public double Draw(Random random)
    {
        var (first, second) = StandardNormal.Pair(random);
        return double.Hypot(Bias + StandardDeviation * first, StandardDeviation * second);
    }

    double IRadialModel.LogBetween(double low, double high)
    {
        var offset = Offset;
        return new TailIntegral(z => LogStandardDensity(z, offset), 0, (offset + Math.Sqrt(offset * offset + 4)) / 2, Smooth)
            .LogBetween(low / StandardDeviation, high / StandardDeviation, (high - low) / StandardDeviation);

        double Smooth(double z) => 20 / (Math.Abs(z - offset) + Math.Sqrt((z - offset) * (z - offset) + 20));
    }

    private static double LogStandardDensity(double z, double offset) =>
        Math.Log(z * BesselI0.Scaled(z * offset)) - (z - offset) * (z - offset) / 2;

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>
    /// The fit; with bias 0, Rayleigh's likelihood and a warning where no bias makes the distances likelier (the fourth powers of
    /// measured ones average twice the squared mean square or more); or the reason why there is none: as for Rayleigh's, or one distance
    /// that would agree with every reading.
    /// </returns>
    public static Fit<ModelFit<RiceDistance>> FitTo(DistanceSample sample)
    {
        if (RadialLikelihood.WhyNoSpread(sample, unlimited: false) is { } reason) return Fit<ModelFit<RiceDistance>>.Refused(reason);
        var rayleigh = RayleighDistance.FitTo(sample);
        if (!rayleigh.Success) return Fit<ModelFit<RiceDistance>>.Refused(rayleigh.Reason);

        // Free are the root mean square and the ratio of bias² to 2 sd², which is smooth across 0: no reading's likelihood changes with
        // it to the first order there, so that the search may run into 0 and past it, where it is mirrored.
        var peakedness = RadialStart.Of(sample).Peakedness;
        var part = peakedness < 2 ? Math.Min(Math.Sqrt(2 - peakedness), 1 - 1e-15) : 0.3; // of the bias in the mean square, by moments
        var (unit, step) = (rayleigh.Value.Model.StandardDeviation, Math.Sqrt(1 - part));
        var likelihood = RadialLikelihood.Of(sample, At);
        var top = Climb.To(likelihood.At, [0, Math.Asinh(part / (1 - part))]);
        if (RadialLikelihood.Exceeds(top.Value, rayleigh.Value.LogLikelihood!.Value))
            return likelihood.Climb(top.At, _parameters, []);
        return top.Converged
            ? RadialLikelihood.Of(sample, x => RadialLikelihood.InRange(unit * Math.Exp(x[0]), 1, (sd, _) => new RiceDistance(0, sd)))
                .Climb([0], _parameters, ["no bias makes the distances likelier than none: this is Rayleigh's distribution, and errors hold for a bias of 0"], onBoundary: 1)
            : Fit<ModelFit<RiceDistance>>.Refused(Likelihood<RiceDistance>.NoMaximum);

        RiceDistance? At(double[] x)
        {
            var ratio = Math.Sinh(Math.Abs(x[1]));
            var sd = unit * Math.Exp(x[0] * step) / Math.Sqrt(1 + ratio);
            return RadialLikelihood.InRange(sd, sd * Math.Sqrt(2 * ratio), (s, bias) => new RiceDistance(bias, s));
        }
    }
}
