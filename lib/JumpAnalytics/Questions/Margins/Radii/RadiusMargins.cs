namespace JumpAnalytics;

/// <summary>
/// How big a clearing has to be to hold a share of landings, by wind band and terrain, each with an upper confidence limit: past landings, not a rule for the next.
/// </summary>
/// <remarks>
/// A cell whose own landings carry every limit (<see cref="RadiusLimit.Of"/> without a warning) stands for itself. A thinner one borrows: its radii are the
/// pooled shape of the distances times a scale that is drawn towards what its band and terrain say, and the table tells how far.
/// </remarks>
public sealed class RadiusMargins : ShownResult
{
    private readonly Dictionary<(string, string), RadiusMargin> _byLabel;

    private RadiusMargins(IReadOnlyList<RadiusMargin> rows, IReadOnlyList<double> shares, double confidence, AccuracyOptions options)
    {
        (Rows, Shares, Confidence, Options) = (rows, shares, confidence, options);
        _byLabel = rows.ToDictionary(r => (r.WindBand, r.Terrain));
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
    /// <param name="windBand">Label of a band, or <see cref="CellRate.All"/>.</param>
    /// <param name="terrain">A terrain class, or <see cref="CellRate.All"/>.</param>
    public RadiusMargin? Cell(string windBand, string terrain) => _byLabel.GetValueOrDefault((windBand, terrain));

    /// <summary>Computes the margins.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands and units.</param>
    /// <param name="shares">Shares of landings; <see cref="UsualShares"/> when left out.</param>
    /// <param name="confidence">One-sided confidence of the upper limits.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share or the confidence is not between 0 and 1.</exception>
    public static RadiusMargins Of(IReadOnlyList<Landing> landings, AccuracyOptions options, IReadOnlyList<double>? shares = null, double confidence = 0.9)
    {
        shares = [.. (shares ?? UsualShares).Distinct().Order()];
        foreach (var number in (IEnumerable<double>)[.. shares, confidence])
        {
            if (!(number > 0 && number < 1)) throw new ArgumentOutOfRangeException(nameof(shares), number, "Shares and confidence lie between 0 and 1, for instance 0.9.");
        }
        var known = landings.Where(l => l.MissDistance is not null || l.Beyond is not null).ToList();
        (string Band, string Terrain) CellOf(Landing l) => (options.Bands.LabelOf(l.Drop.WindSpeed), l.Drop.Terrain);
        var pooling = ScalePooling.Of(known, CellOf);
        var byCell = known.ToLookup(CellOf);
        var terrains = known.Select(l => l.Drop.Terrain).Distinct().Order(StringComparer.Ordinal).ToList();
        var rows = new List<RadiusMargin>();
        foreach (var band in options.Bands.Labels)
        {
            foreach (var terrain in terrains.Where(t => byCell.Contains((band, t))))
                rows.Add(OfCell(band, terrain, [.. byCell[(band, terrain)]], pooling));
        }
        foreach (var band in options.Bands.Labels.Where(b => byCell.Any(c => c.Key.Band == b)))
            rows.Add(Own(band, CellRate.All, [.. known.Where(l => CellOf(l).Band == band)]));
        foreach (var terrain in terrains) rows.Add(Own(CellRate.All, terrain, [.. known.Where(l => l.Drop.Terrain == terrain)]));
        rows.Add(Own(CellRate.All, CellRate.All, known));
        return new RadiusMargins(rows, shares, confidence, options);

        RadiusMargin Own(string band, string terrain, List<Landing> group)
        {
            var sample = PlaneSample.Of(
                group.Select(l => new PlaneReading(l.Drop.Mission, l.MissDistance is { } d ? new PlaneVector(d, 0) : null,
                    l.Beyond)), TradeNouns.Value);
            return new RadiusMargin
            {
                WindBand = band, Terrain = terrain, Missions = sample.Clusters, Landings = sample.Points,
                Radii = [.. shares.Select(s => RadiusLimit.Of(sample, s, confidence))],
            };
        }

        RadiusMargin OfCell(string band, string terrain, List<Landing> group, Fit<ScalePooling> pool)
        {
            var own = Own(band, terrain, group);
            if (!pool.Success || own.Radii.All(r => r.Value is { Warning: null }) || group.All(l => l.MissDistance is null)) return own;
            return own with
            {
                Borrowed = pool.Value.Borrowed((band, terrain)),
                Radii = [.. shares.Select(s => pool.Value.Limit((band, terrain), s, confidence, own.Missions, own.Landings))],
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
            var cells = Rows.Where(r => r.WindBand != CellRate.All && r.Terrain != CellRate.All && r.Radii[at].Success).OrderBy(r => r.Radii[at].Value!.Radius).ToList();
            var text = $"{Rounding.Percent(all.Share)} of {Rounding.Count(Overall.Landings, "landing")} from {Rounding.Count(Overall.Missions, "mission")} came down within {Length(all.Radius)} of the spot; "
                + $"with {Rounding.Percent(Confidence)} confidence no more than {Length(all.UpperLimit)} is needed for that share.";
            return cells.Count < 2 ? text : text + $" By cell it runs from {Named(cells[0])} to {Named(cells[^1])}."
                + $" {cells.Count(c => c.IsOwn)} of {Rounding.Count(cells.Count, "cell")} stand on their own landings, the others borrow. The radius holds landings as they were steered; it is not how far the forecast was off.";

            string Named(RadiusMargin r) => $"{Length(r.Radii[at].Value!.Radius)} (upper limit {Length(r.Radii[at].Value!.UpperLimit)}) at {r.WindBand} {Options.Bands.Unit.Suffix}, {r.Terrain}, {Rounding.Count(r.Missions, "mission")}";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new("margins", "Radius that holds a share of landings, by wind band and terrain",
            [
                Columns.WindBand with { Label = $"wind band ({Options.Bands.Unit.Suffix})" }, Columns.Terrain, Columns.MissionsMeasured, Columns.LandingsMeasured,
                .. Shares.SelectMany(s => new[] { Columns.RadiusOf(s, Options.Units.Distance), Columns.RadiusLimitOf(s, Options.Units.Distance) }), Columns.MarginBasis, Columns.Borrowed, Columns.Note,
            ],
            [.. Rows.Select(r => (object?[])
            [
                r.WindBand, r.Terrain, r.Missions, r.Landings,
                .. r.Radii.SelectMany(f => new object?[] { f.Value is { } v ? Options.Units.Distance.FromSi(v.Radius) : null, f.Value is { } w ? Options.Units.Distance.FromSi(w.UpperLimit) : null }),
                r.Radii.All(f => !f.Success) ? "none" : r.IsOwn ? "own landings" : "borrowed", r.Borrowed, NoteOf(r),
            ])],
            $"Upper limits: one-sided, {Rounding.Percent(Confidence)} confidence. Own landings: quantile type 8, limit by rank on the effective number of landings. Borrowed: the pooled shape of the distances times a scale of "
                + "the cell that is drawn towards what its band and terrain say; the column tells how far. A radius holds landings as they were steered, a share of landings and not of whole sticks."),
    ];

    private string Length(double metres) => $"{Rounding.Fixed(Options.Units.Distance.FromSi(metres), Options.Units.Distance.FromSi(metres) < 10 ? 1 : 0)} {Options.Units.Distance.Suffix}";

    private static string? NoteOf(RadiusMargin r) =>
        r.Radii.FirstOrDefault(f => !f.Success) is { } refused ? refused.Reason : r.Radii.FirstOrDefault(f => f.Value?.Warning is not null)?.Value?.Warning;
}
