namespace JumpAnalytics;

/// <summary>What became of a share meant in one later season.</summary>
/// <param name="Season">The season whose landings were held against the margins.</param>
/// <param name="Cell">A wind band, or the whole.</param>
/// <param name="Nominal">Share of landings that the radius was to hold.</param>
/// <param name="Inside">Share that came down inside the radius of their cell, or why there is none.</param>
/// <param name="InsideLimit">Share that came down inside the upper limit of that radius.</param>
/// <param name="Without">Landings in cells that earlier seasons give no margin for; left out.</param>
[TypeFormatterSource]
public sealed record MarginTrial(
    string Season, Cell Cell, double Nominal, Fit<ClusteredProportion> Inside, Fit<ClusteredProportion> InsideLimit, int Without)
{
    /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
    public string WindBand => Cell.WindBand;
}

/// <summary>Margins of earlier seasons held against the landings of the next: did the radius hold the share it was meant to?</summary>
/// <remarks>
/// Each landing is judged by the radius of its own cell, learnt from all seasons before. The interval of the share inside a radius has
/// the scatter of the later season's landings, by missions, and the error of the radius, as if all cells were off alike. That of the
/// share inside an upper limit has the scatter alone: the limit is meant to lie too far out. A landing known only as beyond a distance is
/// outside a radius up to that distance and else undecided.
/// </remarks>
public sealed class MarginBacktest : ShownResult
{
    private const double LeastForError = 0.75;

    private MarginBacktest(IReadOnlyList<MarginTrial> trials, AccuracyOptions options, double confidence) =>
        (Trials, Options, UpperConfidence) = (trials, options, confidence);

    /// <summary>One for each later season, wind band and share.</summary>
    public IReadOnlyList<MarginTrial> Trials { get; }

    /// <summary>Bands and confidence of the intervals.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>One-sided confidence of the upper limits.</summary>
    public double UpperConfidence { get; }

    /// <summary>Learns from the seasons before each and looks at the next.</summary>
    /// <param name="landings">Landings of two or more seasons.</param>
    /// <param name="options">Bands and confidence.</param>
    /// <param name="shares">Shares of landings; <see cref="RadiusMargins.UsualShares"/> when left out.</param>
    /// <param name="confidence">One-sided confidence of the upper limits.</param>
    public static MarginBacktest Of(IReadOnlyList<Landing> landings, AccuracyOptions options, IReadOnlyList<double>? shares = null,
        double confidence = 0.9)
    {
        var seasons = WrittenDistances.Of(landings, options).Landings.GroupBy(l => l.Drop.Season)
            .OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => (g.Key, Landings: g.ToList())).ToList();
        var trials = new List<MarginTrial>();
        for (var s = 1; s < seasons.Count; s++)
        {
            List<Landing> before = [.. seasons.Take(s).SelectMany(x => x.Landings)];
            var margins = RadiusMargins.Of(before, options, shares, confidence);
            // A limit near the radius itself tells nothing of its error.
            var wide = confidence >= LeastForError ? margins : RadiusMargins.Of(before, options, shares, LeastForError);
            var ahead = seasons[s].Landings.Where(l => l.MissDistance is not null || l.Beyond is not null).ToList();
            var grid = new Cells(options.Bands, ahead);
            var byCell = grid.Group(ahead);
            foreach (var cell in grid.OfBands.Prepend(Cell.All).Where(byCell.Contains))
            {
                for (var i = 0; i < margins.Shares.Count; i++)
                {
                    var judged = byCell[cell]
                        .Select(l => (Landing: l, Margin: margins.Cell(Cell.Of(l.Drop, options.Bands))?.Radii[i].Value)).ToList();
                    var wider = byCell[cell]
                        .Select(l => (Landing: l, Margin: wide.Cell(Cell.Of(l.Drop, options.Bands))?.Radii[i].Value)).ToList();
                    trials.Add(new MarginTrial(seasons[s].Key, cell, margins.Shares[i],
                        WithErrorOfRadius(wider, options.Confidence), Held(judged, m => m.UpperLimit, options.Confidence),
                        judged.Count(j => j.Margin is null)));
                }
            }
        }
        return new MarginBacktest(trials, options, confidence);
    }

    /// <summary>What became of the share nearest 90 % in the last season, in a sentence.</summary>
    public string Sentence => Trials.Where(t => t.Cell.IsWhole && t.Season == Trials[^1].Season && t.Inside.Success)
        .MinBy(t => Math.Abs(t.Nominal - 0.9)) is { } last
        ? "Radii of the seasons before that were to "
            + $"hold {Rounding.Percent(last.Nominal)} held {Rounding.Percent(last.Inside.Value!.Rate)} of {last.Season}'s landings, "
            + $"their upper limits {Rounding.Percent(last.InsideLimit.Value!.Rate)} "
            + $"({Rounding.Count(last.Inside.Value.Missions, "mission")}, {Rounding.Count(last.Inside.Value.Landings, "landing")})."
        : "There is no second season to hold margins against.";

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Trials.Count == 0) return "There is no second season to hold margins against.";
            var last = Trials[^1].Season;
            var all = Trials.Where(t => t.Season == last && t.Cell.IsWhole && t.Inside.Value?.Rate.Range is not null).ToList();
            if (all.Count == 0) return $"Of season {last} no landing can be held against a margin of earlier seasons.";
            var told = Trials.Where(t => t.Inside.Value?.Rate.Range is not null).ToList();
            return $"Margins of the seasons before, held against {last} ({Rounding.Count(all[0].Inside.Value!.Missions, "mission")}, "
                + $"{Rounding.Count(all[0].Inside.Value!.Landings, "landing")}): "
                + string.Join("; ", all.Select(t => $"meant to hold {Rounding.Percent(t.Nominal)}, "
                    + $"held {Rounding.Percent(t.Inside.Value!.Rate)}, the upper limit {Rounding.Percent(t.InsideLimit.Value!.Rate)}"))
                + $". Over all seasons and bands, {told.Count(t => Words(t.Inside, t.Nominal) == "less")} of {told.Count} radii held less "
                + $"than meant and {told.Count(t => Words(t.Inside, t.Nominal) == "more")} more, beyond chance; were every radius right, "
                + $"no more than about {Rounding.Fixed((1 - Options.Confidence) * told.Count, 1)} would look off by chance. "
                + $"Upper limits fell short in {told.Count(t => Words(t.InsideLimit, t.Nominal) == "less")}.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<MarginTrial>("margin-backtest", "Margins of earlier seasons against the next season's landings", Trials,
            "Each landing judged by the radius of its own wind band and terrain, learnt from the seasons before. "
            + $"Intervals at {Rounding.Percent(Options.Confidence)}, by missions of the later season, that of the radius with the error of "
            + "the radius; upper limits of radii one-sided at "
            + $"{Rounding.Percent(UpperConfidence)}. As meant: the interval holds the share meant.")
        {
            { Columns.Season, t => t.Season },
            { Columns.WindBandIn(Options.Bands.Unit), t => t.WindBand },
            { Columns.NominalShare, t => t.Nominal },
            { Columns.MissionsMeasured, t => t.Inside.Value?.Missions ?? 0 },
            { Columns.LandingsMeasured, t => t.Inside.Value?.Landings ?? 0 },
            { Columns.ActualShare, t => t.Inside.Value?.Rate },
            { Columns.MarginVerdict, t => Words(t.Inside, t.Nominal) },
            { Columns.ActualShareOfLimit, t => t.InsideLimit.Value?.Rate },
            { Columns.WithoutMargin, t => t.Without },
            { Columns.Note, t => t.Inside.Reason },
        },
    ];

    /// <summary>
    /// The share held by the radius, its interval widened by what the radius' own error does to it: the share within the radius one
    /// standard error out less that one in, halved, all cells off alike, added by squares. The error is read from the upper limit.
    /// </summary>
    private static Fit<ClusteredProportion> WithErrorOfRadius(List<(Landing Landing, RadiusLimit? Margin)> judged, double confidence)
    {
        var held = Held(judged, m => m.Radius, confidence);
        if (held.Value?.Rate.Range is not { } range) return held;
        var half = (Off(1) - Off(-1)) / 2 * QuantileOf.Normal(TailShare.Middle(confidence));
        var rate = held.Value.Rate.Value;
        return Fit<ClusteredProportion>.Made(held.Value with { Rate = Estimate.Of(rate, new Interval(
            Math.Max(0, rate - double.Hypot(rate - range.Low, half)), Math.Min(1, rate + double.Hypot(range.High - rate, half)))) });

        double Off(int errors) => Held(judged,
            m => m.Radius * Math.Pow(m.UpperLimit / m.Radius, errors / QuantileOf.Normal(TailShare.Below(m.Confidence))),
            confidence).Value!.Rate.Value;
    }

    private static Fit<ClusteredProportion> Held(List<(Landing Landing, RadiusLimit? Margin)> judged,
        Func<RadiusLimit, double> radius, double confidence)
    {
        var byMission = judged.Where(j => j.Margin is not null).GroupBy(j => j.Landing.Drop.Mission).Select(g =>
        {
            var answers = g.Select(j => j.Landing.IsInside(radius(j.Margin!))).ToList();
            return (Inside: answers.Count(a => a == true), Decided: answers.Count(a => a is not null));
        }).Where(m => m.Decided > 0).ToList();
        return byMission.Count == 0 ? Fit<ClusteredProportion>.Refused("no landing in a cell that earlier seasons give a margin for")
            : Fit<ClusteredProportion>.Made(ClusteredProportion.Of([.. byMission.Select(m => m.Inside)],
                [.. byMission.Select(m => m.Decided)], confidence));
    }

    private static string? Words(Fit<ClusteredProportion> held, double nominal) => held.Value?.Rate.Range switch
    {
        null => null,
        { } r when r.High < nominal => "less",
        { } r when r.Low > nominal => "more",
        _ => "as meant",
    };
}
