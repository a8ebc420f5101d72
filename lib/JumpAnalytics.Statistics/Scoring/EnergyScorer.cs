namespace JumpAnalytics;

/// <summary>
/// Scores a model of misses by where landings were, in the plane: the energy score, in metres, less is better. Made once for a model and
/// used for many landings; immutable.
/// </summary>
/// <remarks>
/// The mean distance from a miss of the model to the observed one, less half the mean distance of two misses of the model (Gneiting and
/// Raftery 2007, JASA 102:359-378, equation 21); proper, and the plane's counterpart of the CRPS. For a normal, a t, a mixture of two spreads, and for landings as they
/// were (to 5,000), both means are exact to about 1e-12 of the distances (a t with 1.05 degrees of freedom or fewer apart). For any other model the first is the integral over r of its
/// probability beyond r of the observed place, by quadrature to about 1e-10 of the distances; the second (<see cref="SelfDistance"/>) is found from seeded draws, with its
/// standard error told. It is the same for all landings, so differences between landings of one model are free of chance; two models under one seed are drawn from the
/// same random numbers.
/// </remarks>
[TypeFormatterSource]
public sealed class EnergyScorer
{
    /// <summary>Landings as they were up to which all pairs are summed.</summary>
    private const int MostPairs = 5000;

    private readonly IMissModel _model;

    private EnergyScorer(IMissModel model, double selfDistance, double selfDistanceError) => (_model, SelfDistance, SelfDistanceError) = (model, selfDistance, selfDistanceError);

    /// <summary>Half the mean distance of two misses of the model, metres.</summary>
    public double SelfDistance { get; }

    /// <summary>Standard error of <see cref="SelfDistance"/> and so of every score by the draws, metres; 0 where nothing is drawn.</summary>
    public double SelfDistanceError { get; }

    /// <summary>Prepares the scores of a model.</summary>
    /// <param name="model">A distribution of misses.</param>
    /// <param name="draws">Pairs of misses drawn, at least 100; 20,000 make the standard error about 0.4 % of it. Not used where both means are exact.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 100 draws.</exception>
    public static EnergyScorer For(IMissModel model, int draws = 20_000, int seed = 1)
    {
        if (draws < 100) throw new ArgumentOutOfRangeException(nameof(draws), draws, "At least 100 draws.");
        switch (model)
        {
            case BivariateNormal n: return new EnergyScorer(model, OfTwo(n, Math.Sqrt(2)), 0);
            case ScaleMixture m: return new EnergyScorer(model, OfTwo(m.Core, SpreadNodes.MeanRootOfTwo(SpreadNodes.Of(m))), 0);
            case BivariateT t when IsNormal(t): return new EnergyScorer(model, OfTwo(t.Core, Math.Sqrt(2)), 0);
            case BivariateT t when IsExact(t): return new EnergyScorer(model, OfTwo(t.Core, SpreadNodes.MeanRootOfTwo(SpreadNodes.Of(t))), 0);
        }
        if (model is EmpiricalMisses { Whole: { Length: <= MostPairs } misses }) return new EnergyScorer(model, EmpiricalDistances.HalfMeanDistance(misses.Span), 0);
        var random = SeedStream.For(seed, "energy score");
        var (mean, squares) = (0.0, 0.0);
        for (var i = 1; i <= draws; i++)
        {
            var (a, b) = (model.Draw(random), model.Draw(random));
            var half = double.Hypot(a.Downwind - b.Downwind, a.Right - b.Right) / 2;
            var step = half - mean;
            mean += step / i;
            squares += step * (half - mean);
        }
        return new EnergyScorer(model, mean, Math.Sqrt(squares / (draws - 1.0) / draws));
    }

    /// <summary>The score of a landing, metres.</summary>
    /// <param name="miss">The observed miss in the downwind frame.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    public double Score(DownwindVector miss) => double.IsFinite(miss.Downwind) && double.IsFinite(miss.Right)
        ? MeanDistance(miss) - SelfDistance
        : throw new ArgumentException($"A miss of finite coordinates; found {miss}.", nameof(miss));

    private double MeanDistance(DownwindVector miss) => _model switch
    {
        EmpiricalMisses { Whole: { } misses } => EmpiricalDistances.MeanDistance(misses.Span, miss),
        BivariateNormal n => From(n, new MeanLength.NormalSize(), miss),
        ScaleMixture m => From(m.Core, new MeanLength.MixtureSize(m.WideShare, m.Widening), miss),
        BivariateT t when IsNormal(t) => From(t.Core, new MeanLength.NormalSize(), miss),
        BivariateT t when IsExact(t) => From(t.Core, new MeanLength.StudentSize(t.DegreesOfFreedom), miss),
        _ => new RadialIntegral(_model, miss, r => _model.ProbabilityBeyond(r, miss)).UpTo(double.PositiveInfinity),
    };

    /// <summary>Beyond this a t is a normal in all the digits of a double.</summary>
    private static bool IsNormal(BivariateT t) => t.DegreesOfFreedom > 1e15;

    private static bool IsExact(BivariateT t) => t.DegreesOfFreedom > SpreadNodes.LeastFreedom;

    private static double From<TSize>(BivariateNormal core, TSize size, DownwindVector miss) where TSize : struct, IMeanSize =>
        MeanLength.Of(size, core.MeanDownwind - miss.Downwind, core.MeanRight - miss.Right, core.VarianceDownwind, core.VarianceRight, core.Covariance);

    private static double OfTwo(BivariateNormal core, double spread) => spread / 2 * MeanLength.Of(new MeanLength.NormalSize(), 0, 0, core.VarianceDownwind, core.VarianceRight, core.Covariance);
}
