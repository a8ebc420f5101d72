namespace JumpAnalytics;

/// <summary>
/// Probability integral transforms: where a landing falls in the forecast distribution, as a share from 0 to 1. Over many landings they
/// are uniform if the forecasts are right (Dawid 1984, JRSS A 147:278-292). Landings of one mission are not independent, so neither are
/// their shares.
/// </summary>
public static class PitValues
{
    /// <summary>The share of landings that the model puts nearer to the spot.</summary>
    /// <param name="model">The forecast distribution of misses.</param>
    /// <param name="distance">The observed miss distance, metres.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or NaN.</exception>
    public static double Distance(IMissModel model, double distance) => model.ProbabilityWithin(distance);

    /// <summary>The shares that a landing known only as beyond a distance may have.</summary>
    /// <param name="model">The forecast distribution of misses.</param>
    /// <param name="beyond">Metres; the landing lies farther and its place is unknown.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or NaN.</exception>
    public static Interval DistanceBeyond(IMissModel model, double beyond) => new(model.ProbabilityWithin(beyond), 1);

    /// <summary>
    /// Box's transform in the plane: the probability that the model gives to places where its density is higher than at the observed miss
    /// (Box 1980, JRSS A 143:383-430; Gneiting and others 2008, Test 17:211-235). Near 0 the miss lies where the model expects most.
    /// </summary>
    /// <param name="model">The forecast distribution of misses.</param>
    /// <param name="misses">Observed misses in the downwind frame.</param>
    /// <param name="draws">Misses drawn from the model, at least 100: each share is one of as many steps. Not used for a bivariate normal.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <returns>
    /// For each miss 1 − exp(−q/2), q its squared Mahalanobis distance, under a bivariate normal; for another model its rank among seeded
    /// draws by density. Refused for a model without a density.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 100 draws.</exception>
    public static Fit<IReadOnlyList<double>> Box(IMissModel model, IReadOnlyList<DownwindVector> misses, int draws = 10_000, int seed = 1)
    {
        if (draws < 100) throw new ArgumentOutOfRangeException(nameof(draws), draws, "At least 100 draws.");
        if (model is BivariateNormal normal)
            return Fit<IReadOnlyList<double>>.Made([.. misses.Select(m => Filled(normal.SquaredDistance(m) / 2))]);
        var random = SeedStream.For(seed, "Box transform");
        var densities = new double[draws];
        for (var i = 0; i < draws; i++)
        {
            if (model.LogDensity(model.Draw(random)) is not { } density) return Fit<IReadOnlyList<double>>.Refused($"{model.Name} has no density");
            densities[i] = density;
        }
        Array.Sort(densities);
        return Fit<IReadOnlyList<double>>.Made([.. misses.Select(m => (Higher(model.LogDensity(m)!.Value) + 0.5) / (draws + 1))]);

        static double Filled(double half) => 2 * Math.Exp(-half / 2) * Math.Sinh(half / 2); // 1 − exp(−half), without loss where it is small

        int Higher(double density)
        {
            var (low, high) = (0, draws); // the first draw that is denser
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (densities[middle] > density) high = middle;
                else low = middle + 1;
            }
            return draws - low;
        }
    }
}
