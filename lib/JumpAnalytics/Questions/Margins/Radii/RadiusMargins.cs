namespace JumpAnalytics;

/// <summary>
/// How big a clearing has to be to hold a share of landings, by wind band and terrain, each with an upper confidence limit: past
/// landings, not a rule for the next.
/// </summary>
/// <remarks>
/// <para>A cell of five missions or more whose own landings carry every limit (<see cref="RadiusLimit.Of"/> without a warning) has its own
/// radii. A thinner one borrows: its radii are the pooled shape of the distances times a scale that is drawn towards what its band and
/// terrain say, and the table tells how far. A band or terrain without a limit for every share has the greatest of its cells.
/// With fewer than five missions of its own a radius is marked as from other conditions; with none to borrow from there is none.</para>
/// <para>A borrowed radius is not taken below that of calmer wind on the same ground (<see cref="RadiusMargin.Note"/> says where).
/// Distances written in steps of 5 or more are spread over their step first.</para>
/// <para>What is promised of the upper limits, by simulation: tests/EVIDENCE.md.</para>
/// </remarks>
public sealed class RadiusMargins : ShownResult
{
    private readonly Dictionary<Cell, RadiusMargin> _byCell;
    private readonly double _step;

    private RadiusMargins(IReadOnlyList<RadiusMargin> rows, IReadOnlyList<double> shares, double confidence, AccuracyOptions options,
        WrittenDistances written)
    {
        (Rows, Shares, Confidence, Options, Spread, _step) = (rows, shares, confidence, options, written.Spread, written.Step);
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

    /// <summary>Landings whose distance was written to a round step, and spread over it.</summary>
    public int Spread { get; }

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
        var written = WrittenDistances.Of([.. landings.Where(l => l.MissDistance is not null || l.Beyond is not null)], options);
        var known = written.Landings;
        var pooling = ScalePooling.Of(known, l => JumpAnalytics.Cell.Of(l.Drop, options.Bands));
        var grid = new Cells(options.Bands, known);
        var byCell = grid.Group(known);
        var cells = WindOrder.Of(grid.Inner.Where(byCell.Contains).Select(Of));
        var bands = WindOrder.Of(grid.OfBands.Where(byCell.Contains).Select(Over));
        return new RadiusMargins(
            [.. cells, .. bands, .. grid.OfTerrains.Where(byCell.Contains).Select(Over), IfEnough(Own(JumpAnalytics.Cell.All))],
            shares, confidence, options, written);

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
            if (own.Missions >= RadiusMargin.FewestMissions && own.Radii.All(r => r.Value is { Warning: null })) return own;
            if (!pooling.Success || byCell[cell].All(l => l.MissDistance is null)) return IfEnough(own);
            return own with
            {
                Borrowed = pooling.Value.Borrowed(cell),
                Radii = [.. shares.Select(s => pooling.Value.Limit(cell, s, confidence, own.Missions, own.Landings))],
            };
        }

        RadiusMargin Over(Cell margin)
        {
            var own = Own(margin);
            if (own.Missions >= RadiusMargin.FewestMissions && own.Radii.All(r => r.Success)) return own;
            // The greatest of the cells' radii holds the share in each of them, and so in all together.
            var within = cells.Where(c => margin.Holds(c.Cell) && !c.IsOwn && c.Radii.All(r => r.Success)).ToList();
            var widest = within.MaxBy(c => c.Radii[^1].Value!.Radius);
            return widest is null || within.Count < cells.Count(c => margin.Holds(c.Cell)) ? IfEnough(own) : own with
            {
                Borrowed = widest.Borrowed, Widest = widest.Cell,
                Radii = [.. widest.Radii.Select((r, i) => Fit<RadiusLimit>.Made(r.Value! with
                {
                    Radius = within.Max(c => c.Radii[i].Value!.Radius), UpperLimit = within.Max(c => c.Radii[i].Value!.UpperLimit),
                    Clusters = own.Missions, Points = own.Landings,
                }))],
            };
        }
    }

    /// <summary>The row itself, or the same without radii when it has fewer missions than a radius of its own needs.</summary>
    private static RadiusMargin IfEnough(RadiusMargin own) => own.Missions >= RadiusMargin.FewestMissions ? own : own with
    {
        Radii = [.. own.Radii.Select(r => r.Success
            ? Fit<RadiusLimit>.Refused($"{Rounding.Count(own.Missions, "mission")}; a radius needs {RadiusMargin.FewestMissions} of its "
                + "own, or other cells to borrow from") : r)],
    };

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            // The greatest share up to 90 % that has a radius, else the least that has one.
            var given = Enumerable.Range(0, Shares.Count).Where(i => Overall.Radii[i].Success).ToList();
            if (given.Count == 0) return $"No margin can be given: {Overall.Radii[^1].Reason}.";
            var at = given.Where(i => Shares[i] <= 0.9).DefaultIfEmpty(given[0]).Last();
            var all = Overall.Radii[at].Value!;
            var cells = Rows.Where(r => !r.Cell.IsMargin && r.Missions >= RadiusMargin.FewestMissions && r.Radii[at].Success)
                .OrderBy(r => r.Radii[at].Value!.Radius).ToList();
            var text = $"{Rounding.Percent(all.Share)} of {Rounding.Count(Overall.Landings, "landing")} from "
                + $"{Rounding.Count(Overall.Missions, "mission")} came down within {Length(all.Radius)} of the spot; "
                + $"with {Rounding.Percent(Confidence)} confidence no more than {Length(all.UpperLimit)} is needed for that share."
                + (Overall.Radii.Index().FirstOrDefault(r => !r.Item.Success) is { Item: { } refused, Index: var i }
                    ? $" No radius of {Rounding.Percent(Shares[i])} can be given: {refused.Reason}." : "")
                + (RoundingSentence is { } sentence ? $" {sentence}" : "");
            if (cells.Count < 2) return text;
            var few = Rows.Count(r => !r.Cell.IsMargin && r.IsFromOtherConditions);
            return text + $" By cell of {RadiusMargin.FewestMissions} missions or more it runs from {Named(cells[0])} to "
                + $"{Named(cells[^1])}. Of these {Rounding.Count(cells.Count, "cell")} {cells.Count(c => c.IsOwn)} have radii of their own "
                + "landings, the others borrow"
                + (few == 0 ? "." : $"; {Rounding.Count(few, "further cell")} of fewer missions {(few == 1 ? "has" : "have")} radii from "
                    + "other conditions.")
                + " The radius holds landings as they were steered; it is not how far the forecast was off.";

            string Named(RadiusMargin r) =>
                $"{Length(r.Radii[at].Value!.Radius)} (upper limit {Length(r.Radii[at].Value!.UpperLimit)}) "
                + $"at {r.Cell.Words(Options.Bands)} ({Rounding.Count(r.Missions, "mission")}, {Rounding.Count(r.Landings, "landing")})";
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
                    + $"From other conditions: borrowed, with fewer than {RadiusMargin.FewestMissions} missions of its own. "
                    + "A borrowed radius is not taken below that of calmer wind on the same ground. "
                    + (Confidence == 0.9 ? Promise : "")
                    + "A radius holds landings as they were steered, a share of landings and not of whole sticks."
                    + (RoundingSentence is { } sentence ? $" {sentence}" : ""))
                {
                    { Columns.WindBandIn(Options.Bands.Unit), r => r.WindBand },
                    { Columns.Terrain, r => r.Terrain },
                    { Columns.MissionsMeasured, r => r.Missions },
                    { Columns.LandingsMeasured, r => r.Landings },
                    { columns, c => c.Column, (r, c) => c.Of(r) is { } metres ? unit.FromSi(metres) : null },
                    { Columns.MarginBasis, r => r.RestsOn },
                    { Columns.Borrowed, r => r.Borrowed },
                    { Columns.Note, r => r.Note(Options.Bands) },
                },
            ];
        }
    }

    private string Length(double metres) =>
        $"{Rounding.Fixed(Options.Units.Distance.FromSi(metres), Options.Units.Distance.FromSi(metres) < 10 ? 1 : 0)} "
        + $"{Options.Units.Distance.Suffix}";

    /// <summary>What was done about rounded distances; null when none was.</summary>
    internal string? RoundingSentence => Spread == 0 ? null
        : $"{Rounding.Count(Spread)} of {Rounding.Count(Overall.Landings, "distance")} are written in steps of up to {Length(_step)}; each "
            + "is spread over its step, and radii and limits are those of the spread distances.";

    /// <summary>What simulated seasons bear out.</summary>
    private const string Promise = "In simulated seasons limits at 90 % confidence held the true radius in 89 to 98 %, but in 0 to 60 % "
        + "where far landings were the likelier not written down. ";
}
