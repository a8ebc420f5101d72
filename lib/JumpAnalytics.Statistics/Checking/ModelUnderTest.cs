namespace JumpAnalytics;

/// <summary>What the checks need of a fitted model of misses, or of distances from the spot alone.</summary>
/// <param name="Name">What the distribution is called.</param>
/// <param name="Within">Probability of a landing within a distance of the spot, metres.</param>
/// <param name="Beyond">Probability of a landing farther off.</param>
/// <param name="RadiusHolding">The distance that holds a share of landings, metres.</param>
/// <param name="Draw">Draws a miss; a model of distances may lay it in any direction.</param>
internal sealed record ModelUnderTest(
    string Name, Func<double, double> Within, Func<double, double> Beyond, Func<double, double> RadiusHolding, Func<Random, DownwindVector> Draw)
{
    public static ModelUnderTest Of(IMissModel model) =>
        new(model.Name, r => model.ProbabilityWithin(r), r => model.ProbabilityBeyond(r), p => model.RadiusHolding(p), model.Draw);
}
