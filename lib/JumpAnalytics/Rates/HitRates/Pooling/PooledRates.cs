namespace JumpAnalytics;

/// <summary>
/// Hit rates of the cells of wind band and terrain, partially pooled by a logistic mixed model: a cell with many missions keeps its own
/// rate, one with few is drawn towards what its band and its terrain say.
/// </summary>
/// <remarks>
/// <para>Log-odds of a hit: fixed part (intercept, wind band, terrain, or a level for each cell) + effect of the cell + effect of the
/// mission, the effects normal about zero. Fitted by maximum likelihood: mission effects are integrated out by adaptive Gauss-Hermite
/// quadrature, cell effects after them by Laplace's approximation. With one node both are integrated out at once by Laplace's
/// approximation. The likelihoods without cell effects, and with one node, are those of lme4 (Bates, Mächler, Bolker and Walker 2015,
/// Journal of Statistical Software 67(1)).</para>
/// <para>Standard errors of fixed effects and spreads are those of the curvature of the log-likelihood in all of them together. A spread
/// whose likelihood is highest at zero is zero, with a warning.</para>
/// <para>Where hits and misses part, so that an effect has no bound (a terrain without a miss), the levels of the cells are held to their
/// mean by a normal pull of standard deviation 5 (log-odds), with a warning.</para>
/// <para>Rates of cells are medians of what the landings leave possible: averaged over the spread between cells, weighted by its likelihood
/// and a half-normal density of standard deviation 1 (log-odds), and over the rest by a normal approximation on the log-odds. They need not
/// lie between the counted rate and that of the model: a counted rate also has in it which missions happened to fly there.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record PooledRates
{
    internal PooledRates()
    {
    }

    /// <summary>What was asked for.</summary>
    public required PoolingOptions Options { get; init; }

    /// <summary>Number of missions.</summary>
    public required int Missions { get; init; }

    /// <summary>Number of landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Hits among them.</summary>
    public required int Hits { get; init; }

    /// <summary>The fixed effects.</summary>
    public required IReadOnlyList<FixedEffect> FixedEffects { get; init; }

    /// <summary>Standard deviation between missions, log-odds.</summary>
    public required PooledSpread BetweenMissions { get; init; }

    /// <summary>Standard deviation between cells beyond band and terrain, log-odds; null in a model without cell effects.</summary>
    public required PooledSpread? BetweenCells { get; init; }

    /// <summary>
    /// Natural logarithm of the likelihood, mission and cell effects integrated out, of the landings one by one: without binomial
    /// coefficients, so that it does not depend on how landings are grouped.
    /// </summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Number of parameters that were fitted: fixed effects and spreads.</summary>
    public required int FreeParameters { get; init; }

    /// <summary>Every combination of band and terrain: those with landings first.</summary>
    public required IReadOnlyList<PooledCell> Cells { get; init; }

    /// <summary>Every mission, in the order of its first count.</summary>
    public required IReadOnlyList<PooledMission> MissionEffects { get; init; }

    /// <summary>What to know before the rates are used.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>The cell of a band and a terrain.</summary>
    /// <param name="windBand">Label of the band.</param>
    /// <param name="terrain">Terrain class.</param>
    /// <exception cref="KeyNotFoundException">There is no such cell.</exception>
    public PooledCell Cell(string windBand, string terrain) =>
        Cells.FirstOrDefault(c => c.Cell == new Cell(windBand, terrain))
        ?? throw new KeyNotFoundException($"There is no cell '{windBand}' by '{terrain}'.");

    /// <summary>Pools the rates of counts by mission and cell.</summary>
    /// <param name="counts">The counts; the first band and the first terrain to appear are those the fixed effects compare with.</param>
    /// <param name="options">The model, the way it is fitted, and the coverage of intervals.</param>
    /// <exception cref="ArgumentException">A count that can't be, or quadrature asked for in a model with cell effects.</exception>
    public static Fit<PooledRates> Of(IReadOnlyList<PooledCount> counts, PoolingOptions options) => PooledFitting.Of(counts, options);
}
