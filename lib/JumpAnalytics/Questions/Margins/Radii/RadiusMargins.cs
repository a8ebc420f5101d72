namespace JumpAnalytics;

/// <summary>
/// How big a clearing has to be to hold a share of landings, by wind band and terrain, each with an upper confidence limit: past
/// landings, not a rule for the next.
/// </summary>
/// <remarks>
/// A cell whose own landings carry every limit (<see cref="RadiusLimit.Of"/> without a warning) stands for itself. A thinner one
/// borrows: its radii are the pooled shape of the distances times a scale that is drawn towards what its band and terrain say,
/// and the table tells how far.
/// </remarks>
public sealed class RadiusMargins : ShownResult
{
    private readonly Dictionary<Cell, RadiusMargin> _byCell;

    private RadiusMargins(IReadOnlyList<RadiusMargin> rows, IReadOnlyList<double> shares, double confidence, AccuracyOptions options)
    {
        (Rows, Shares, Confidence, Options) = (rows, shares, confidence, options);
        _byCell = rows.ToDictionary(r => r.Cell);
    }

    /// <summary>The shares asked for unless said otherwise.</summary>
    public static IReadOnlyList<double> UsualShares { get; } = [0.5, 0.85, 0.9, 0.95];

    /// <summary>Cells, then bands, terrains and all.</summary>
    public IReadOnlyList<RadiusMargin> Rows { get; }

    /// <summary>The shares, rising.</summary>
    public IReadOnlyList<double> Shares { get; }

    /// <summary>One-sided confidence of the upper limits.</summary>
    public double Confidence { get; }

    /// <summary>Bands and units.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The margin over everything.</summary>
    public RadiusMargin Overall => Rows[^1];

    /// <summary>A cell or margin; null when it has no landing.</summary>
    /// <param name="windBand">Label of a band, or <c>all</c>.</param>
    /// <param name="terrain">A terrain class, or <c>all</c>.</param>
    public RadiusMargin? Cell(string windBand, string terrain) => Cell(new Cell(windBand, terrain));

    /// <summary>A cell or margin; null when it has no landing.</summary>
    /// <param name="cell">The cell or margin.</param>
    public RadiusMargin? Cell(Cell cell) => _byCell.GetValueOrDefault(cell);

    /// <summary>Computes the margins.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands and units.</param>
    /// <param name="shares">Shares of landings; <see cref="UsualShares"/> when left out.</param>
    /// <param name="confidence">One-sided confidence of the upper limits.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share or the confidence is not between 0 and 1.</exception>
    public static RadiusMargins Of(IReadOnlyList<Landing> landings, AccuracyOptions options, IReadOnlyList<double>? shares = null,
        double confidence = 0.9)
    {
        shares = [.. (shares ?? UsualShares).Distinct().Order()];
        foreach (var share in shares) Guard.Share(share, nameof(shares));
        Guard.Confidence(confidence);
        var known = landings.Where(l => l.MissDistance is not null || l.Beyond is not null).ToList();
        var pooling = ScalePooling.Of(known, l => JumpAnalytics.Cell.Of(l.Drop, options.Bands));
        var grid = new Cells(options.Bands, known);
        var byCell = grid.Group(known);
        var rows = grid.Where(c => c.IsWhole || byCell.Contains(c)).Select(c => c.IsMargin ? Own(c) : Of(c)).ToList();
        return new RadiusMargins(rows, shares, confidence, options);

        RadiusMargin Own(Cell cell)
        {
            var sample = PlaneSample.Of(byCell[cell].Select(l =>
                new PlaneReading(l.Drop.Mission, l.MissDistance is { } d ? new PlaneVector(d, 0) : null, l.Beyond)), TradeNouns.Value);
            return new RadiusMargin
            {
                Cell = cell, Missions = sample.Clusters, Landings = sample.Points,
                Radii = [.. shares.Select(s => RadiusLimit.Of(sample, s, confidence))],
            };
        }

        RadiusMargin Of(Cell cell)
        {
            var own = Own(cell);
            if (!pooling.Success || own.Radii.All(r => r.Value is { Warning: null }) || byCell[cell].All(l => l.MissDistance is null))
                return own;
            return own with
            {
                Borrowed = pooling.Value.Borrowed(cell),
                Radii = [.. shares.Select(s => pooling.Value.Limit(cell, s, confidence, own.Missions, own.Landings))],
            };
        }
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var at = Shares.Count - 1 - Shares.Reverse().ToList().FindIndex(s => s <= 0.9);
            if (at >= Shares.Count || Overall.Radii[at].Value is not { } all) return $"No margin can be given: {Overall.Radii[^1].Reason}.";
            var cells = Rows.Where(r => !r.Cell.IsMargin && r.Radii[at].Success).OrderBy(r => r.Radii[at].Value!.Radius).ToList();
            var text = $"{Rounding.Percent(all.Share)} of {Rounding.Count(Overall.Landings, "landing")} from "
                + $"{Rounding.Count(Overall.Missions, "mission")} came down within {Length(all.Radius)} of the spot; "
                + $"with {Rounding.Percent(Confidence)} confidence no more than {Length(all.UpperLimit)} is needed for that share.";
            return cells.Count < 2 ? text : text + $" By cell it runs from {Named(cells[0])} to {Named(cells[^1])}."
                + $" {cells.Count(c => c.IsOwn)} of {Rounding.Count(cells.Count, "cell")} stand on their own landings, the others borrow. "
                + "The radius holds landings as they were steered; it is not how far the forecast was off.";

            string Named(RadiusMargin r) =>
                $"{Length(r.Radii[at].Value!.Radius)} (upper limit {Length(r.Radii[at].Value!.UpperLimit)}) "
                + $"at {r.Cell.Words(Options.Bands)}, {Rounding.Count(r.Missions, "mission")}";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            var columns = Shares.SelectMany((share, i) => new[]
            {
                (Column: Columns.RadiusOf(share, unit), Of: (Func<RadiusMargin, double?>)(r => r.Radii[i].Value?.Radius)),
                (Column: Columns.RadiusLimitOf(share, unit), Of: r => r.Radii[i].Value?.UpperLimit),
            });
            return
            [
                new TableOf<RadiusMargin>("margins", "Radius that holds a share of landings, by wind band and terrain", Rows,
                    $"Upper limits: one-sided, {Rounding.Percent(Confidence)} confidence. "
                    + "Own landings: quantile type 8, limit by rank on the effective number of landings. "
                    + "Borrowed: the pooled shape of the distances times a scale of the cell that is drawn towards "
                    + "what its band and terrain say; the column tells how far. "
                    + "A radius holds landings as they were steered, a share of landings and not of whole sticks.")
                {
                    { Columns.WindBandIn(Options.Bands.Unit), r => r.WindBand },
                    { Columns.Terrain, r => r.Terrain },
                    { Columns.MissionsMeasured, r => r.Missions },
                    { Columns.LandingsMeasured, r => r.Landings },
                    { columns, c => c.Column, (r, c) => c.Of(r) is { } metres ? unit.FromSi(metres) : null },
                    { Columns.MarginBasis, r => r.Radii.All(f => !f.Success) ? "none" : r.IsOwn ? "own landings" : "borrowed" },
                    { Columns.Borrowed, r => r.Borrowed },
                    { Columns.Note, NoteOf },
                },
            ];
        }
    }

    private string Length(double metres) =>
        $"{Rounding.Fixed(Options.Units.Distance.FromSi(metres), Options.Units.Distance.FromSi(metres) < 10 ? 1 : 0)} "
        + $"{Options.Units.Distance.Suffix}";

    private static string? NoteOf(RadiusMargin r) =>
        r.Radii.FirstOrDefault(f => !f.Success) is { } refused
            ? refused.Reason : r.Radii.FirstOrDefault(f => f.Value?.Warning is not null)?.Value?.Warning;
}
