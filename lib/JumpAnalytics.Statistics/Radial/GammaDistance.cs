using JumpAnalytics.Internals;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>The gamma distribution of distances: between Rayleigh's short tail and the lognormal's long one.</summary>
/// <param name="Mean">Mean distance, metres.</param>
/// <param name="Shape">How close the distances lie about their mean; a number above zero, the inverse square of their coefficient of variation.</param>
[TypeFormatterSource]
public sealed record GammaDistance(double Mean, double Shape) : IRadialModel
{
    private readonly double _top = GammaKernel.Top(RadialProbability.Positive(Shape, nameof(Shape)));

    /// <summary>Mean distance, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Mean { get; } = RadialProbability.Positive(Mean, nameof(Mean));

    /// <summary>The inverse square of the coefficient of variation.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Shape { get; } = RadialProbability.Positive(Shape, nameof(Shape));

    /// <inheritdoc/>
    public string Name => "gamma";

    /// <inheritdoc/>
    public double LogDensity(double distance)
    {
        if (RadialProbability.Distance(distance, nameof(distance)) == 0)
            return Shape < 1 ? double.PositiveInfinity : Shape > 1 ? double.NegativeInfinity : -Math.Log(Mean);
        return double.IsInfinity(distance) ? double.NegativeInfinity : _top + GammaKernel.Fall(Shape, Math.Log(distance / Mean)) - Math.Log(distance);
    }

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => Mean * Math.Exp(GammaKernel.Quantile(Shape, RadialProbability.Probability(probability)));

    /// <inheritdoc/>
    public double Draw(Random random) => Gamma.Sample(random, Shape, Shape / Mean);

    double IRadialModel.LogBetween(double low, double high) =>
        GammaKernel.Integral(Shape).LogBetween(Math.Log(low / Mean), Math.Log(high / Mean), SpecialFunctions.Log1p((high - low) / low));

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>The fit, or the reason why there is none: the same as for Weibull's.</returns>
    public static Fit<ModelFit<GammaDistance>> FitTo(DistanceSample sample)
    {
        if (RadialLikelihood.WhyNoSpread(sample, unlimited: true) is { } reason) return Fit<ModelFit<GammaDistance>>.Refused(reason);
        var start = RadialStart.Of(sample);
        var shape = 1 / (start.LogSpread * start.LogSpread);
        return RadialLikelihood.Of(sample, At).Climb([0, 0],
        [
            new("mean", ParameterKind.Length, m => m.Mean),
            new("shape", ParameterKind.Number, m => m.Shape),
        ], []);

        GammaDistance? At(double[] x) =>
            RadialLikelihood.InRange(start.Mean * Math.Exp(x[0] * start.LogSpread), shape * Math.Exp(x[1]), (m, k) => new GammaDistance(m, k));
    }
}
