namespace JumpAnalytics;

/// <summary>
/// One spotter's landings beside what the other spotters would have had in the same wind bands, on the same terrains
/// and with the same target radii.
/// </summary>
[TypeFormatterSource]
public sealed record ComparedSpotter
{
    internal ComparedSpotter()
    {
    }

    /// <summary>Code of the spotter.</summary>
    public required string Spotter { get; init; }

    /// <summary>Missions with a landing told a hit or a miss.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings told a hit or a miss.</summary>
    public required int Landings { get; init; }

    /// <summary>Hits among them.</summary>
    public required int Hits { get; init; }

    /// <summary>Landing rate as counted, with its between-mission interval; or why it is not given.</summary>
    public required Fit<ClusteredProportion> Counted { get; init; }

    /// <summary>Rate the other spotters would have had, 0 to 1, with the uncertainty of that expectation.</summary>
    public required Fit<Estimate> Expected { get; init; }

    /// <summary>
    /// Counted less expected, as a difference of rates (0.05 is five points; below zero: fewer hits than expected). Its
    /// interval holds both uncertainties.
    /// </summary>
    public required Fit<Estimate> Difference { get; init; }

    /// <summary>
    /// The same difference drawn towards none by as much as the record is thin: the median of what is left open, with its interval. Over
    /// all spotters together these lie nearer the truth.
    /// </summary>
    public required Fit<Estimate> Shrunken { get; init; }

    /// <summary>
    /// Chance of a difference as large or larger, either way, if the spotter did not differ from the others; null
    /// where no difference is given.
    /// </summary>
    public double? P { get; init; }

    /// <summary>
    /// The same after Holm's (1979, Scandinavian Journal of Statistics 6:65-70) allowance for all looks: the spotters compared, or all that
    /// is looked at in the review that the comparison is part of.
    /// </summary>
    public double? PAdjusted { get; init; }

    /// <summary>
    /// Probability, from the shrunken difference, that the true one is larger than
    /// <see cref="FairComparisonSettings.NamedDifference"/>, either way.
    /// </summary>
    public double? ProbabilityLarger { get; init; }

    /// <summary>
    /// Independent landings at the base's overall rate that would tell as much of the difference: the horizontal place in a funnel.
    /// </summary>
    public double? EffectiveLandings { get; init; }

    /// <summary>
    /// Variance of the spotter's hits over that of independent landings, from the spotter's own missions and the
    /// base's together; 1 or more.
    /// </summary>
    public double Dispersion { get; init; }

    /// <summary>Share of the landings in cells of wind band and terrain in which no other spotter has one.</summary>
    public double OnlyHere { get; init; }

    /// <summary>
    /// Missions after which the interval would be about ten points to either side; null when the expectation alone
    /// is less certain than that.
    /// </summary>
    public int? MissionsForTenPoints { get; init; }

    /// <summary>Hits expected; null where no difference is given.</summary>
    public double? ExpectedHits => Expected.Value is { } rate ? rate.Value * Landings : null;

    /// <summary>The difference in landings; null where none is given.</summary>
    public Estimate? DifferenceInLandings => Difference.Value?.Select(d => d * Landings);

    /// <summary>What to know beside the numbers.</summary>
    public string? Note => Difference.Reason ?? (OnlyHere >= 0.005 ? $"{Rounding.Percent(OnlyHere)} of the landings in wind bands and "
        + "terrains no other spotter flew: expected there by wind band and terrain apart" : null);
}

/// <summary>How much spotters differ in the same conditions.</summary>
/// <param name="Sd">
/// Standard deviation between spotters, log-odds of a hit (restricted likelihood), with its interval by the Q-profile.
/// </param>
/// <param name="SdPoints">The same as a standard deviation of rates about the base's rate, at most 50 points.</param>
/// <param name="Q">Squared differences over their covariance: on average <paramref name="Freedom"/> if no spotter differs.</param>
/// <param name="Freedom">Spotters less one.</param>
/// <param name="P">Chance of a Q as large or larger if no spotter differs.</param>
/// <param name="NeighbourOrder">
/// Mean probability that two spotters next to each other in an order of their differences truly stand in that order; one half is a coin.
/// Null with fewer than two told.
/// </param>
/// <param name="RankWidth">
/// Places that the 95 % interval of a spotter's true place in such an order takes up, on average; null likewise.
/// </param>
[TypeFormatterSource]
public sealed record SpotterVariation(Estimate Sd, Estimate SdPoints, double Q, int Freedom, double P,
    double? NeighbourOrder, double? RankWidth);
