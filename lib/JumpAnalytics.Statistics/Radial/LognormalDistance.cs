using JumpAnalytics.Internals;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>The lognormal distribution of distances: their logarithms are normal; a long tail, and hardly a landing near the spot.</summary>
/// <param name="Median">The distance that half of the landings lie within, metres.</param>
/// <param name="LogSpread">Standard deviation of the natural logarithm of the distance.</param>
[TypeFormatterSource]
public sealed record LognormalDistance(double Median, double LogSpread) : IRadialModel
{
    private static readonly double _logRoot2Pi = 0.5 * Math.Log(2 * Math.PI);
    private static readonly TailIntegral _normal = new(z => -z * z / 2 - _logRoot2Pi, double.NegativeInfinity, 0, z => 20 / (Math.Abs(z) + Math.Sqrt(z * z + 20)));

    /// <summary>The distance that half of the landings lie within, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Median { get; } = RadialProbability.Positive(Median, nameof(Median));

    /// <summary>Standard deviation of the natural logarithm of the distance.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double LogSpread { get; } = RadialProbability.Positive(LogSpread, nameof(LogSpread));

    /// <inheritdoc/>
    public string Name => "lognormal";

    /// <inheritdoc/>
    public double LogDensity(double distance)
    {
        if (RadialProbability.Distance(distance, nameof(distance)) == 0 || double.IsInfinity(distance)) return double.NegativeInfinity;
        var z = Score(distance);
        return -z * z / 2 - _logRoot2Pi - Math.Log(LogSpread) - Math.Log(distance);
    }

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => Median * Math.Exp(LogSpread * Normal.InvCDF(0, 1, RadialProbability.Probability(probability)));

    /// <inheritdoc/>
    public double Draw(Random random) => Median * Math.Exp(LogSpread * StandardNormal.Pair(random).First);

    double IRadialModel.LogBetween(double low, double high) => _normal.LogBetween(Score(low), Score(high), SpecialFunctions.Log1p((high - low) / low) / LogSpread);

    private double Score(double distance) => Math.Log(distance / Median) / LogSpread;

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>The fit, or the reason why there is none: the same as for Weibull's.</returns>
    public static Fit<ModelFit<LognormalDistance>> FitTo(DistanceSample sample)
    {
        if (RadialLikelihood.WhyNoSpread(sample, unlimited: true) is { } reason) return Fit<ModelFit<LognormalDistance>>.Refused(reason);
        var start = RadialStart.Of(sample);
        return RadialLikelihood.Of(sample, At).Climb([0, 0],
        [
            new("median", ParameterKind.Length, m => m.Median),
            new("spread of the logarithm", ParameterKind.Number, m => m.LogSpread),
        ], []);

        LognormalDistance? At(double[] x) =>
            RadialLikelihood.InRange(start.Median * Math.Exp(x[0] * start.LogSpread), start.LogSpread * Math.Exp(x[1]), (m, s) => new LognormalDistance(m, s));
    }
}
