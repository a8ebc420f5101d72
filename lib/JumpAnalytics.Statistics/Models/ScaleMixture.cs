namespace JumpAnalytics.Statistics;

/// <summary>
/// Two normals about one centre and of one shape, the second some times as wide: mostly good days and some bad ones. Each point is of
/// either kind by itself. Metres and square metres.
/// </summary>
/// <param name="Core">The narrow normal: centre and scatter of the good days.</param>
/// <param name="WideShare">Share of points that are of the wide kind, between 0 and 1.</param>
/// <param name="Widening">How many times the narrow spread the wide one is, above 1.</param>
/// <exception cref="ArgumentOutOfRangeException">
/// The scatter is not positive definite, a number is not finite, a share is not between 0 and 1, or the second part is not wider.
/// </exception>
[TypeFormatterSource]
public sealed partial record ScaleMixture(BivariateNormal Core, double WideShare, double Widening) : IPlaneModel
{
    private readonly double _logScale = -Math.Log(2 * Math.PI) - 0.5 * Math.Log(Core.Determinant());

    /// <summary>The narrow normal: centre and scatter of the good days.</summary>
    public BivariateNormal Core { get; } = Core.RequireArea(nameof(Core));

    /// <summary>Share of points that are of the wide kind, between 0 and 1.</summary>
    public double WideShare { get; } = Guard.Share(WideShare);

    /// <summary>How many times the narrow spread the wide one is, above 1.</summary>
    public double Widening { get; } = Guard.Above(Guard.Finite(Widening), 1, nameof(Widening));

    /// <inheritdoc/>
    public string Name => "mixture of two spreads";

    /// <summary>The wide normal.</summary>
    public BivariateNormal Wide => Core.Widened(Widening * Widening);

    /// <inheritdoc/>
    public double? LogDensity(PlaneVector point) => _logScale + new WideTail(WideShare, Widening).LogAt(Core.SquaredDistance(point));

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius, PlaneVector centre = default) =>
        (1 - WideShare) * Core.ProbabilityWithin(radius, centre) + WideShare * Wide.ProbabilityWithin(radius, centre);

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius, PlaneVector centre = default) =>
        (1 - WideShare) * Core.ProbabilityBeyond(radius, centre) + WideShare * Wide.ProbabilityBeyond(radius, centre);

    /// <inheritdoc/>
    public double RadiusHolding(double probability, PlaneVector centre = default) =>
        RadiusSearch.Holding(this, probability, centre, Core.Reach(centre));

    /// <inheritdoc/>
    public PlaneVector Draw(Random random) => (random.NextDouble() < WideShare ? Wide : Core).Draw(random);

    /// <summary>
    /// Probability that the points of one cluster were all of the wide kind rather than all of the narrow one: that it was a bad day.
    /// Both kinds have their shares as prior probabilities. The model itself lets each point be of either kind, so this is a reading of
    /// it and not a fit to clusters.
    /// </summary>
    /// <param name="points">The placed points of the cluster; for none it is the share.</param>
    public double WideProbability(IReadOnlyList<PlaneVector> points)
    {
        var odds = Kernels.Logit(WideShare);
        foreach (var point in points) odds += 0.5 * (1 - 1 / (Widening * Widening)) * Core.SquaredDistance(point) - 2 * Math.Log(Widening);
        return Kernels.Logistic(odds);
    }
}
