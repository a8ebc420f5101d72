using JumpAnalytics.Internals;

namespace JumpAnalytics;

/// <summary>The Rayleigh distribution of distances: those of misses that centre on the spot and spread alike in every direction.</summary>
/// <param name="StandardDeviation">Of the misses along any axis, metres.</param>
[TypeFormatterSource]
public sealed record RayleighDistance(double StandardDeviation) : IRadialModel
{
    /// <summary>Standard deviation of the misses along any axis, metres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is no finite number above zero.</exception>
    public double StandardDeviation { get; } = RadialProbability.Positive(StandardDeviation, nameof(StandardDeviation));

    /// <inheritdoc/>
    public string Name => "Rayleigh";

    /// <inheritdoc/>
    public double LogDensity(double distance)
    {
        var z = RadialProbability.Distance(distance, nameof(distance)) / StandardDeviation;
        return double.IsInfinity(z) ? double.NegativeInfinity : Math.Log(z / StandardDeviation) - z * z / 2;
    }

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius) => RadialProbability.Within(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius) => RadialProbability.Beyond(this, radius);

    /// <inheritdoc/>
    public double ProbabilityBetween(double low, double high) => RadialProbability.Between(this, low, high);

    /// <inheritdoc/>
    public double RadiusHolding(double probability) => StandardDeviation * Math.Sqrt(-2 * NearZero.LogOfRest(RadialProbability.Probability(probability)));

    /// <inheritdoc/>
    public double Draw(Random random) => StandardDeviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));

    double IRadialModel.LogBetween(double low, double high)
    {
        var near = low / StandardDeviation;
        return -near * near / 2 + NearZero.LogOfRestOfExp(-(high - low) / StandardDeviation * ((high + low) / StandardDeviation) / 2);
    }

    /// <summary>Fits by full likelihood, distances known only in part included.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>The fit, or the reason why there is none: no landing bounded from above, none from below, or one at exactly 0.</returns>
    public static Fit<ModelFit<RayleighDistance>> FitTo(DistanceSample sample)
    {
        if (RadialLikelihood.WhyNot(sample) is { } reason) return Fit<ModelFit<RayleighDistance>>.Refused(reason);
        var start = RadialStart.Of(sample);
        var unit = Math.Sqrt(start.SumOfSquares / (2 * start.Bounded)); // the maximum itself where all are measured or beyond
        return RadialLikelihood.Of(sample, x => unit * Math.Exp(x[0]) is > 0 and < double.PositiveInfinity and var sd ? new RayleighDistance(sd) : null)
            .Climb([0], [new("standard deviation", ParameterKind.Length, m => m.StandardDeviation)], []);
    }
}
