namespace JumpAnalytics;

/// <summary>Landings of one group in a clearing.</summary>
/// <param name="WindBand">Label of the wind band, or <see cref="CellRate.All"/>.</param>
/// <param name="Terrain">Terrain class, or <see cref="CellRate.All"/>.</param>
/// <param name="Counted">Share that came down in it, or why there is none.</param>
/// <param name="Modelled">The share by a bivariate t fitted to the misses, with its interval, or why there is none.</param>
[TypeFormatterSource]
public sealed record ClearingRow(string WindBand, string Terrain, Fit<ClusteredProportion> Counted, Fit<Estimate> Modelled);

/// <summary>How often past landings came down in a given clearing, counted and by a fitted distribution, by wind band and terrain.</summary>
/// <remarks>
/// The clearing keeps its place to the drift, not to the compass. Landings known only as beyond a distance are outside when nothing of the clearing is that far off, else left out. Modelled: bivariate t
/// by censored likelihood, interval by the delta method between missions on the log odds.
/// </remarks>
public sealed class ClearingChance : ShownResult
{
    private ClearingChance(Clearing clearing, IReadOnlyList<ClearingRow> rows, AccuracyOptions options) => (Clearing, Rows, Options) = (clearing, rows, options);

    /// <summary>The clearing asked about.</summary>
    public Clearing Clearing { get; }

    /// <summary>Cells, then bands, terrains and all.</summary>
    public IReadOnlyList<ClearingRow> Rows { get; }

    /// <summary>Bands, units and confidence.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Fewest missions for a fitted share.</summary>
    public const int FewestMissions = 10;

    /// <summary>Asks the records.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands, units and confidence.</param>
    /// <param name="clearing">The clearing.</param>
    public static ClearingChance Of(IReadOnlyList<Landing> landings, AccuracyOptions options, Clearing clearing)
    {
        var farthest = clearing.IsCircle ? clearing.Centre.Length + clearing.Radius : clearing.Corners.Max(c => c.Length);
        string BandOf(Landing l) => options.Bands.LabelOf(l.Drop.WindSpeed);
        var terrains = landings.Select(l => l.Drop.Terrain).Distinct().Order(StringComparer.Ordinal).ToList();
        var rows = new List<ClearingRow>();
        foreach (var band in (string[])[.. options.Bands.Labels, CellRate.All])
        {
            foreach (var terrain in (string[])[.. terrains, CellRate.All])
            {
                var group = landings.Where(l => (band == CellRate.All || BandOf(l) == band) && (terrain == CellRate.All || l.Drop.Terrain == terrain)).ToList();
                if (group.Count > 0) rows.Add(Of(band, terrain, group, options, clearing, farthest));
            }
        }
        return new ClearingChance(clearing, rows, options);
    }

    private static ClearingRow Of(string band, string terrain, List<Landing> group, AccuracyOptions options, Clearing clearing, double farthest)
    {
        var told = group.GroupBy(l => l.Drop.Mission).Select(m =>
        {
            // without a place it is outside when it lies farther off than all of the clearing
            var answers = m.Select(l => l.MissDownwind is { } miss ? clearing.Holds(miss)
                : l.IsCensored ? l.IsInside(farthest) : null).ToList();
            return (Inside: answers.Count(a => a == true), Told: answers.Count(a => a is not null));
        }).Where(m => m.Told > 0).ToList();
        var counted = told.Count == 0 ? Fit<ClusteredProportion>.Refused("no landing that can be told inside or outside")
            : Fit<ClusteredProportion>.Made(ClusteredProportion.Of([.. told.Select(m => m.Inside)], [.. told.Select(m => m.Told)], options.Confidence));
        if (told.Count < FewestMissions) return new ClearingRow(band, terrain, counted, Fit<Estimate>.Refused($"a distribution is fitted from {FewestMissions} missions on"));
        var fit = BivariateT.FitTo(MissionSample.Of(group).Misses());
        return new ClearingRow(band, terrain, counted, !fit.Success ? Fit<Estimate>.Refused(fit.Reason)
            : Fit<Estimate>.Made(fit.Value.Derived(clearing.Probability, options.Confidence, IntervalScale.Logit)));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0 || Rows[^1].Counted.Value is not { } all) return "No landing can be held against the clearing.";
            var cells = Rows.Where(r => r.WindBand != CellRate.All && r.Terrain != CellRate.All && r.Counted.Value?.Missions >= FewestMissions).OrderBy(r => r.Counted.Value!.Rate.Value).ToList();
            return $"Of past landings {Rounding.Percent(all.Rate)} came down in {Clearing.Describe(Options.Units.Distance)} ({Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")})"
                + (Rows[^1].Modelled.Value is { } m ? $"; a fitted t says {Rounding.Percent(m)}." : ".")
                + (cells.Count < 2 ? "" : $" By cell of {FewestMissions} missions or more it runs from {Named(cells[0])} to {Named(cells[^1])}.");

            string Named(ClearingRow r) => $"{Rounding.Percent(r.Counted.Value!.Rate)} at {r.WindBand} {Options.Bands.Unit.Suffix}, {r.Terrain}";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new("clearing", "Landings in the clearing, by wind band and terrain",
            [Columns.WindBand with { Label = $"wind band ({Options.Bands.Unit.Suffix})" }, Columns.Terrain, Columns.MissionsMeasured, Columns.LandingsMeasured, Columns.InClearing, Columns.InClearingModelled, Columns.Note],
            [.. Rows.Select(r => new object?[] { r.WindBand, r.Terrain, r.Counted.Value?.Missions ?? 0, r.Counted.Value?.Landings ?? 0, r.Counted.Value?.Rate, r.Modelled.Value, r.Counted.Reason ?? r.Modelled.Reason })],
            $"The clearing: {Clearing.Describe(Options.Units.Distance)}, in the frame of the forecast drift. Intervals at {Rounding.Percent(Options.Confidence)}, between missions. Trees, slope and obstacles are not in these numbers."),
    ];
}
