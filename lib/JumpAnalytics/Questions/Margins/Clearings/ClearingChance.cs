namespace JumpAnalytics;

/// <summary>Landings of one group in a clearing.</summary>
/// <param name="Cell">The cell or margin.</param>
/// <param name="Counted">Share that came down in it, or why there is none.</param>
/// <param name="Modelled">The share by a bivariate t fitted to the misses, with its interval, or why there is none.</param>
[TypeFormatterSource]
public sealed record ClearingRow(Cell Cell, Fit<ClusteredProportion> Counted, Fit<Estimate> Modelled)
{
    /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
    public string WindBand => Cell.WindBand;

    /// <summary>Terrain class, or <see cref="Cell.Any"/>.</summary>
    public string Terrain => Cell.Terrain;
}

/// <summary>
/// How often past landings came down in a given clearing, counted and by a fitted distribution, by wind band and terrain.
/// </summary>
/// <remarks>
/// The clearing keeps its place to the drift, not to the compass. Landings known only as beyond a distance are outside when nothing
/// of the clearing is that far off, else left out. Modelled: bivariate t by censored likelihood, interval by the delta method
/// between missions on the log odds.
/// </remarks>
public sealed class ClearingChance : ShownResult
{
    private ClearingChance(Clearing clearing, IReadOnlyList<ClearingRow> rows, AccuracyOptions options) =>
        (Clearing, Rows, Options) = (clearing, rows, options);

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
        var grid = new Cells(options.Bands, landings);
        var byCell = grid.Group(landings);
        return new ClearingChance(clearing,
            [.. grid.Where(byCell.Contains).Select(c => Of(c, byCell[c], options, clearing, farthest))], options);
    }

    private static ClearingRow Of(Cell cell, IEnumerable<Landing> group, AccuracyOptions options, Clearing clearing, double farthest)
    {
        var told = group.GroupBy(l => l.Drop.Mission).Select(m =>
        {
            // without a place it is outside when it lies farther off than all of the clearing
            var answers = m.Select(l => l.MissDownwind is { } miss ? clearing.Holds(miss)
                : l.IsCensored ? l.IsInside(farthest) : null).ToList();
            return (Inside: answers.Count(a => a == true), Told: answers.Count(a => a is not null));
        }).Where(m => m.Told > 0).ToList();
        var counted = told.Count == 0 ? Fit<ClusteredProportion>.Refused("no landing that can be told inside or outside")
            : Fit<ClusteredProportion>.Made(ClusteredProportion.Of([.. told.Select(m => m.Inside)],
                [.. told.Select(m => m.Told)], options.Confidence));
        if (told.Count < FewestMissions)
            return new ClearingRow(cell, counted, Fit<Estimate>.Refused($"a distribution is fitted from {FewestMissions} missions on"));
        var fit = BivariateT.FitTo(MissionSample.Of(group).Misses());
        return new ClearingRow(cell, counted, !fit.Success ? Fit<Estimate>.Refused(fit.Reason)
            : Fit<Estimate>.Made(fit.Value.Derived(clearing.Probability, options.Confidence, IntervalScale.Logit)));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0 || Rows[^1].Counted.Value is not { } all) return "No landing can be held against the clearing.";
            var cells = Rows.Where(r => !r.Cell.IsMargin && r.Counted.Value?.Missions >= FewestMissions)
                .OrderBy(r => r.Counted.Value!.Rate.Value).ToList();
            return $"Of past landings {Rounding.Percent(all.Rate)} came down in {Clearing.Describe(Options.Units.Distance)} "
                + $"({Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")})"
                + (Rows[^1].Modelled.Value is { } m ? $"; a fitted t says {Rounding.Percent(m)}." : ".")
                + (cells.Count < 2
                    ? "" : $" By cell of {FewestMissions} missions or more it runs from {Named(cells[0])} to {Named(cells[^1])}.");

            string Named(ClearingRow r) => $"{Rounding.Percent(r.Counted.Value!.Rate)} at {r.Cell.Words(Options.Bands)}";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<ClearingRow>("clearing", "Landings in the clearing, by wind band and terrain", Rows,
            $"The clearing: {Clearing.Describe(Options.Units.Distance)}, in the frame of the forecast drift. "
            + $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions. "
            + "Trees, slope and obstacles are not in these numbers.")
        {
            { Columns.WindBandIn(Options.Bands.Unit), r => r.WindBand },
            { Columns.Terrain, r => r.Terrain },
            { Columns.MissionsMeasured, r => r.Counted.Value?.Missions ?? 0 },
            { Columns.LandingsMeasured, r => r.Counted.Value?.Landings ?? 0 },
            { Columns.InClearing, r => r.Counted.Value?.Rate },
            { Columns.InClearingModelled, r => r.Modelled.Value },
            { Columns.Note, r => r.Counted.Reason ?? r.Modelled.Reason },
        },
    ];
}
