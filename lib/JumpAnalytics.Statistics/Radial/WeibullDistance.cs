using JumpAnalytics.Internals;
using MathNet.Numerics;

namespace JumpAnalytics;

/// <summary>The Weibull distribution of distances; with shape 2 it is Rayleigh's, with less its tail is longer.</summary>
/// <param name="Scale">The distance that 63.2 % of landings lie within, metres.</param>
/// <param name="Shape">How fast the share beyond a distance falls; a number above zero.</param>
[TypeFormatterSource]
public sealed record WeibullDistance(double Scale, double Shape) : IRadialModel
{
    /// <summary>The distance that 63.2 % (1 − 1/e) of landings lie within, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Scale { get; } = RadialProbability.Positive(Scale, nameof(Scale));

    /// <summary>The power of the distance that is distributed exponentially.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double Shape { get; } = RadialProbability.Positive(Shape, nameof(Shape));

    /// <inheritdoc/>
    public string Name => "Weibull";

    /// <inheritdoc/>
    public double LogDensity(double distance)
    {
        var ratio = RadialProbability.Distance(distance, nameof(distance)) / Scale;
        if (double.IsInfinity(ratio)) return double.NegativeInfinity;
        var rise = Shape == 1 ? 0 : (Shape - 1) * Math.Log(ratio);
        return Math.Log(Shape / Scale) + rise - Math.Pow(ratio, Shape);
    }

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => Scale * Math.Pow(-NearZero.LogOfRest(RadialProbability.Probability(probability)), 1 / Shape);

    /// <inheritdoc/>
    public double Draw(Random random) => Scale * Math.Pow(-Math.Log(1 - random.NextDouble()), 1 / Shape);

    double IRadialModel.LogBetween(double low, double high)
    {
        var near = Math.Pow(low / Scale, Shape);
        var growth = Shape * SpecialFunctions.Log1p((high - low) / low); // of the logarithm of the power
        var more = growth < 0.7 ? near * NearZero.ExpLess1(growth) : Math.Pow(high / Scale, Shape) - near;
        return -near + NearZero.LogOfRestOfExp(-more);
    }

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>
    /// The fit, or the reason why there is none: as for Rayleigh's, or one distance that would agree with every reading, or none that
    /// is known from both sides.
    /// </returns>
    public static Fit<ModelFit<WeibullDistance>> FitTo(DistanceSample sample)
    {
        if (RadialLikelihood.WhyNoSpread(sample, unlimited: true) is { } reason) return Fit<ModelFit<WeibullDistance>>.Refused(reason);
        var start = RadialStart.Of(sample);
        var (scale, shape) = (start.Median, 1.28 / start.LogSpread); // π/√6 is the deviation of the logarithm at shape 1
        return RadialLikelihood.Of(sample, At).Climb([0, 0],
        [
            new("scale", ParameterKind.Length, m => m.Scale),
            new("shape", ParameterKind.Number, m => m.Shape),
        ], []);

        WeibullDistance? At(double[] x) => RadialLikelihood.InRange(scale * Math.Exp(x[0] / shape), shape * Math.Exp(x[1]), (s, k) => new WeibullDistance(s, k));
    }
}
