namespace JumpAnalytics.Statistics;

/// <summary>
/// Scores a model of points by where points were observed, in the plane: the energy score, in metres, less is better. Made once for a
/// model and
/// used for many points; immutable.
/// </summary>
/// <remarks>
/// The mean distance from a point of the model to the observed one, less half the mean distance of two points of the model (Gneiting and
/// Raftery 2007, JASA 102:359-378, equation 21); proper, and the plane's counterpart of the CRPS. For a normal, a t, a mixture of two
/// spreads, and for points as they were (to 5,000), both means are exact to about 1e-12 of the distances (a t with 1.05 degrees of
/// freedom or fewer apart). For any other model the first is the integral over r of its probability beyond r of the observed place, by
/// quadrature to about 1e-10 of the distances; the second (<see cref="SelfDistance"/>) is found from seeded draws, with its standard
/// error told. It is the same for all points, so differences between points of one model are free of chance; two models under one seed
/// are drawn from the same random numbers.
/// </remarks>
[TypeFormatterSource]
public sealed class EnergyScorer
{
    /// <summary>Points as they were up to which all pairs are summed.</summary>
    private const int MostPairs = 5000;

    private readonly IPlaneModel _model;

    private EnergyScorer(IPlaneModel model, double selfDistance, double selfDistanceError) =>
        (_model, SelfDistance, SelfDistanceError) = (model, selfDistance, selfDistanceError);

    /// <summary>Half the mean distance of two points of the model, metres.</summary>
    public double SelfDistance { get; }

    /// <summary>
    /// Standard error of <see cref="SelfDistance"/> and so of every score by the draws, metres; 0 where nothing is drawn.
    /// </summary>
    public double SelfDistanceError { get; }

    /// <summary>Prepares the scores of a model.</summary>
    /// <param name="model">A distribution of points.</param>
    /// <param name="draws">
    /// Pairs of points drawn, at least 100; 20,000 make the standard error about 0.4 % of it. Not used where both means are exact.
    /// </param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 100 draws.</exception>
    public static EnergyScorer For(IPlaneModel model, int draws = 20_000, int seed = 1)
    {
        Guard.AtLeast(draws, 100);
        switch (model)
        {
            case BivariateNormal n: return new EnergyScorer(model, OfTwo(n, Math.Sqrt(2)), 0);
            case ScaleMixture m: return new EnergyScorer(model, OfTwo(m.Core, SpreadNodes.MeanRootOfTwo(SpreadNodes.Of(m))), 0);
            case BivariateT t when IsNormal(t): return new EnergyScorer(model, OfTwo(t.Core, Math.Sqrt(2)), 0);
            case BivariateT t when IsExact(t):
                return new EnergyScorer(model, OfTwo(t.Core, SpreadNodes.MeanRootOfTwo(SpreadNodes.Of(t))), 0);
        }
        if (model is EmpiricalPoints { Whole: { Length: <= MostPairs } points })
            return new EnergyScorer(model, EmpiricalDistances.HalfMeanDistance(points.Span), 0);
        var random = SeedStream.For(seed, "energy score");
        var (mean, squares) = (0.0, 0.0);
        for (var i = 1; i <= draws; i++)
        {
            var (a, b) = (model.Draw(random), model.Draw(random));
            var half = double.Hypot(a.Along - b.Along, a.Across - b.Across) / 2;
            var step = half - mean;
            mean += step / i;
            squares += step * (half - mean);
        }
        return new EnergyScorer(model, mean, Math.Sqrt(squares / (draws - 1.0) / draws));
    }

    /// <summary>The score of a point, metres.</summary>
    /// <param name="point">The observed point.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    public double Score(PlaneVector point) => double.IsFinite(point.Along) && double.IsFinite(point.Across)
        ? MeanDistance(point) - SelfDistance
        : throw new ArgumentException($"A point of finite coordinates; found {point}.", nameof(point));

    private double MeanDistance(PlaneVector point) => _model switch
    {
        EmpiricalPoints { Whole: { } points } => EmpiricalDistances.MeanDistance(points.Span, point),
        BivariateNormal n => From(n, new MeanLength.NormalSize(), point),
        ScaleMixture m => From(m.Core, new MeanLength.MixtureSize(m.WideShare, m.Widening), point),
        BivariateT t when IsNormal(t) => From(t.Core, new MeanLength.NormalSize(), point),
        BivariateT t when IsExact(t) => From(t.Core, new MeanLength.StudentSize(t.DegreesOfFreedom), point),
        _ => new RadialIntegral(_model, point, r => _model.ProbabilityBeyond(r, point)).UpTo(double.PositiveInfinity),
    };

    /// <summary>Beyond this a t is a normal in all the digits of a double.</summary>
    private static bool IsNormal(BivariateT t) => t.DegreesOfFreedom > 1e15;

    private static bool IsExact(BivariateT t) => t.DegreesOfFreedom > SpreadNodes.LeastFreedom;

    private static double From<TSize>(BivariateNormal core, TSize size, PlaneVector point) where TSize : struct, IMeanSize =>
        MeanLength.Of(size, core.MeanAlong - point.Along, core.MeanAcross - point.Across, core.VarianceAlong,
            core.VarianceAcross, core.Covariance);

    private static double OfTwo(BivariateNormal core, double spread) =>
        spread / 2 * MeanLength.Of(new MeanLength.NormalSize(), 0, 0, core.VarianceAlong, core.VarianceAcross, core.Covariance);
}
