namespace JumpAnalytics;

public sealed partial class FairComparison
{
    /// <summary>
    /// Confidence of the inner and the outer limits of a funnel (Spiegelhalter 2005, Statistics in Medicine 24:1185-1202).
    /// </summary>
    public const double InnerFunnel = 0.95, OuterFunnel = 0.998;

    /// <summary>
    /// Limits of a funnel: where differences lie by chance with a probability, if no spotter differs. Normal limits about no difference;
    /// the dispersion between missions and the uncertainty of the expectation are in the effective landings.
    /// </summary>
    /// <param name="effectiveLandings">Effective landings, above zero (<see cref="ComparedSpotter.EffectiveLandings"/>).</param>
    /// <param name="confidence">Probability of lying between the limits, for instance <see cref="InnerFunnel"/>.</param>
    /// <param name="withSpread">
    /// Whether the estimated spread between spotters widens them: what then lies outside differs more than spotters usually do.
    /// </param>
    /// <returns>Differences of rates.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Effective landings not above zero, or a confidence that is not between 0 and 1.
    /// </exception>
    public Interval FunnelLimits(double effectiveLandings, double confidence, bool withSpread = false)
    {
        Guard.Above(effectiveLandings, 0);
        Guard.Confidence(confidence);
        var spread = withSpread && Spread.Success ? Spread.Value.SdPoints.Value : 0;
        var half = QuantileOf.Normal(TailShare.Middle(confidence)) * Math.Sqrt(
            OverallRate * (1 - OverallRate) / effectiveLandings + spread * spread);
        return new Interval(-half, half);
    }

    /// <summary>Whose hits differ from what the others would have had by more than chance, in a sentence or two.</summary>
    public string Sentence
    {
        get
        {
            if (!Spread.Success || Told.Count == 0) return Reading;
            return "Held against what the others would have had in the same winds, on the same ground: "
                + (Off.Count == 0 ? $"of {Rounding.Count(Told.Count, "spotter")} none differs by more than chance after {Looked}. "
                    : $"beyond chance after {Looked}: {string.Join("; ", Off.Select(Named))}; "
                        + $"the other {Rounding.Count(Told.Count - Off.Count)} of {Rounding.Count(Told.Count, "spotter")} do not. ")
                + "Spotters are listed in order of code: a rate does not say why.";
        }
    }

    /// <summary>Spotters whose difference is beyond chance after all looks.</summary>
    internal IReadOnlyList<ComparedSpotter> Off => [.. Told.Where(s => s.PAdjusted <= 1 - Options.Confidence)];

    private string Looked => $"{Rounding.Count(Looks.Count, "look")} (Holm, {Rounding.Percent(1 - Options.Confidence)} level)";

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Spread.Success) return $"Spotters can't be compared: {Spread.Reason}.";
            var told = Told;
            if (told.Count == 0) return $"No spotter has {Settings.FewestMissions} missions or more; no difference can be given.";
            var parts = new List<string>
            {
                $"{Rounding.Count(told.Count, "spotter")} with {Settings.FewestMissions} missions or more, "
                    + $"{Rounding.Count(told.Sum(s => s.Missions))} missions and {Rounding.Count(told.Sum(s => s.Landings), "landing")} "
                    + "in all, each held against what the other spotters would have had in the same wind bands, "
                    + $"on the same terrains{(Settings.UseTargetRadius ? " and with the same target radii" : "")}.",
                $"{told.Count(s => !s.Difference.Value!.Range!.Value.Contains(0))} of {told.Count} intervals at {Percent} leave out zero; "
                    + $"if no spotter differed, about {Rounding.Fixed((1 - Options.Confidence) * told.Count, 1)} would by chance.",
                $"After {Looked} " + (Off.Count == 0 ? "no spotter differs by more than chance."
                    : $"beyond chance: {string.Join("; ", Off.Select(Named))}."),
                "Between spotters the rate varies by a "
                    + $"standard deviation of {Rounding.Number(Spread.Value.SdPoints.Select(x => 100 * x))} points (no difference at all: "
                    + $"p {Rounding.PValue(Spread.Value.P)}).",
            };
            if (Spread.Value is { NeighbourOrder: { } order, RankWidth: { } width })
            {
                parts.Add("Spotters are listed in order of code. Two neighbours in an order of rate would be in the true order with a "
                    + $"chance of {Rounding.Chance(order)} on average (a coin: 50 %), and the 95 % interval of a spotter's place takes up "
                    + $"{Rounding.Fixed(width, 1)} of {told.Count} places.");
            }
            parts.Add("A difference does not say why, and rates no person.");
            return string.Join(" ", parts);
        }
    }

    private string Percent => Rounding.Percent(Options.Confidence);

    private static string Named(ComparedSpotter s) =>
        $"{s.Spotter} {Rounding.Points(s.Difference.Value!)} points, {Rounding.Count(s.Missions, "mission")} and "
        + $"{Rounding.Count(s.Landings, "landing")} (drawn towards the others: {Rounding.Points(s.Shrunken.Value!)})";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Spotters.Count(s => s.Difference.Reason is not null) is var thin and > 0 && Spread.Success
            ? [$"{Rounding.Count(thin, "spotter")} of fewer than {Settings.FewestMissions} missions: no difference is given; "
                + "the landings count in what is expected of others."] : Array.Empty<string>(),
        .. WithoutSpotter > 0
            ? [$"{Rounding.Count(WithoutSpotter, "landing")} without a spotter recorded left out."] : Array.Empty<string>(),
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [Table(), SpreadTable()];

    private TableView Table() => new TableOf<ComparedSpotter>("fair-comparison", "Spotters in the conditions they had", Spotters,
        $"In order of code. Expected: what the other spotters would have had in the same wind bands ({Options.Bands.Unit.Name}), on the "
        + $"same terrains{(Settings.UseTargetRadius ? ", with the same target radii" : "")}; a logistic model of all landings, each "
        + $"spotter with a level of their own. Intervals at {Percent}: of differences, score intervals with a dispersion between missions, "
        + $"t. p: no difference; Holm: after {Rounding.Count(Looks.Count, "look")}. "
        + "Drawn towards the others: averaged over the spread between spotters. "
        + (Settings.NamedDifference is { } d
            ? $"Larger: than {Rounding.Short(100 * d)} points, either way, a figure of yours. " : "")
        + "No order of rate is given; the reading says why.")
    {
        { Columns.SpotterCode, s => s.Spotter }, { Columns.Missions, s => s.Missions }, { Columns.Landings, s => s.Landings },
        { Columns.Hits, s => s.Hits }, { Columns.HitsExpected, s => s.ExpectedHits },
        { Columns.Rate, s => s.Difference.Success ? s.Counted.Value?.Rate : null }, { Columns.RateExpected, s => s.Expected.Value },
        { Columns.OffExpected, s => s.Difference.Value }, { Columns.LandingsOffExpected, s => s.DifferenceInLandings },
        { Columns.PNoDifference, s => s.P }, { Columns.PHolm, s => s.PAdjusted }, { Columns.OffShrunken, s => s.Shrunken.Value },
        { Settings.NamedDifference is not null, Columns.ProbabilityLarger, s => s.ProbabilityLarger },
        { Columns.EffectiveLandings, s => s.EffectiveLandings is { } n ? (int)Math.Round(n) : null },
        { Columns.MissionDispersion, s => s.Difference.Success ? s.Dispersion : null }, { Columns.Note, s => s.Note },
    };

    private TableView SpreadTable() =>
        new TableOf<Fit<SpotterVariation>>("spotter-spread", "How much spotters differ in the same conditions", [Spread],
            $"Restricted likelihood; interval at {Percent} by the Q-profile, exact if effects are normal. Q is one less than the spotters "
            + $"on average if none differs; p by Welch's F. Places: {Rounding.Count(RankDraws)} draws, seed {Options.Seed}.")
        {
            { Columns.SpottersCompared, _ => Spotters.Count }, { Columns.Missions, _ => Spotters.Sum(s => s.Missions) },
            { Columns.Landings, _ => Spotters.Sum(s => s.Landings) }, { Columns.SpotterSd, s => s.Value?.Sd },
            { Columns.SpotterSdPoints, s => s.Value?.SdPoints }, { Columns.SpotterQ, s => s.Value?.Q },
            { Columns.PNoDifference, s => s.Value?.P }, { Columns.NeighbourOrder, s => s.Value?.NeighbourOrder },
            { Columns.PlaceWidth, s => s.Value?.RankWidth }, { Columns.Note, s => s.Reason },
        };
}
