namespace JumpAnalytics.Statistics;

/// <summary>What the checks need of a fitted model of points, or of distances from the origin alone.</summary>
/// <param name="Name">What the distribution is called.</param>
/// <param name="Within">Probability of a point within a distance of the origin, metres.</param>
/// <param name="Beyond">Probability of a point farther off.</param>
/// <param name="RadiusHolding">The distance that holds a share of points, metres.</param>
/// <param name="Draw">Draws a point; a model of distances may lay it in any direction.</param>
internal sealed record ModelUnderTest(
    string Name, Func<double, double> Within, Func<double, double> Beyond, Func<double, double> RadiusHolding,
    Func<Random, PlaneVector> Draw)
{
    public static ModelUnderTest Of(IPlaneModel model) =>
        new(model.Name, r => model.ProbabilityWithin(r), r => model.ProbabilityBeyond(r), p => model.RadiusHolding(p), model.Draw);
}
