namespace JumpAnalytics.Statistics;

/// <summary>
/// Scores a model of points by the distances from the origin that were observed: the continuous ranked probability score (CRPS), in
/// metres, less is
/// better. Made once for a model and used for many points; immutable.
/// </summary>
/// <remarks>
/// With F(r) the model's probability of a point within r of the origin, the score of a distance d is the integral over r from 0 of
/// (F(r) − 1{r ≥ d})² (Matheson and Winkler 1976, Management Science 22:1087-1096; Gneiting and Raftery 2007, JASA 102:359-378, section
/// 4.2). It is proper: whoever forecasts the true distribution scores best in the mean. Distances alone are judged; a model that is
/// wrong in direction only is found by <see cref="EnergyScorer"/>.
/// </remarks>
[TypeFormatterSource]
public sealed class DistanceScorer
{
    private readonly Lazy<(RadialIntegral Within, RadialIntegral Beyond, double AllBeyond)> _integrals;
    private readonly EmpiricalDistances? _asTheyWere;

    private DistanceScorer(IPlaneModel model)
    {
        Model = model;
        _asTheyWere = model is EmpiricalPoints { Whole: { } points } ? new EmpiricalDistances(points.Span) : null;
        _integrals = new(() =>
        {
            var beyond = new RadialIntegral(model, default, r => Square(model.ProbabilityBeyond(r)));
            return (new RadialIntegral(model, default, r => Square(model.ProbabilityWithin(r))), beyond,
                beyond.UpTo(double.PositiveInfinity));
        });
    }

    /// <summary>The model that is scored.</summary>
    public IPlaneModel Model { get; }

    /// <summary>Prepares the scores of a model.</summary>
    /// <param name="model">A distribution of points.</param>
    public static DistanceScorer For(IPlaneModel model) => new(model);

    /// <summary>
    /// The score of a point, metres; its integral is found by quadrature to about 1e-10 of the radius that holds all but 1 in 10,000.
    /// </summary>
    /// <param name="distance">The observed distance, metres.</param>
    /// <param name="upTo">
    /// Metres up to which the model is judged: the integral ends there (threshold-weighted score: Gneiting and Ranjan 2011, Journal of
    /// Business and Economic Statistics 29:411-422). Without an end unless said otherwise.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A distance that is negative or not finite, or an end that is negative or NaN.
    /// </exception>
    public double Crps(double distance, double upTo = double.PositiveInfinity)
    {
        Guard.NotNegative(distance);
        Guard.AtLeast(upTo, 0);
        if (_asTheyWere is not null && double.IsPositiveInfinity(upTo)) return _asTheyWere.Crps(distance);
        var (within, beyond, allBeyond) = _integrals.Value;
        if (distance >= upTo) return within.UpTo(upTo);
        var rest = double.IsPositiveInfinity(upTo) ? allBeyond : beyond.UpTo(upTo);
        return within.UpTo(distance) + Math.Max(0, rest - beyond.UpTo(distance));
    }

    /// <summary>
    /// The score, metres, of a point known only as beyond a distance: judged up to that distance, what the model said there is all that
    /// can be. It equals <see cref="Crps"/> with that end, whatever the true distance.
    /// </summary>
    /// <remarks>
    /// In a mean over points the score stays proper when all are judged up to the same distance, the placed ones too (pass it as
    /// upTo). With an end for the lost ones alone, only placed points judge what the model says farther out, and they favour
    /// models that put nothing there.
    /// </remarks>
    /// <param name="distance">Metres; the point lies farther and its place is unknown.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or not finite.</exception>
    public double CrpsBeyond(double distance) => Crps(distance, distance);

    private static double Square(double x) => x * x;
}
