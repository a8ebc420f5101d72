namespace JumpAnalytics;

/// <summary>
/// Hit rates by wind band and terrain, with the margins of the table: the answer to how often landings came down inside the target radius.
/// </summary>
/// <remarks>
/// Three rates side by side are three methods for one question, the landing rate (steering included): counted, implied by a fitted normal,
/// and partially pooled over the cells. How often the forecast alone would have succeeded is another question and is not answered here.
/// <para>Of a log for sharing, cells and margins that rest on few people are withheld, and others with them, so that they can't be computed
/// from what is shown (<see cref="CellRate.IsWithheld"/>); there are no pooled rates, since each of them rests on every cell. Counts of a
/// withheld cell can be narrowed to a range, as in any table with margins. Two reports of overlapping records (a season, and the same
/// season a week later) may still give a cell away by their difference: hand on one.</para>
/// </remarks>
public sealed class RateTable : ShownResult
{
    private RateTable(IReadOnlyList<CellRate> cells, Cells grid, Fit<PooledRates> pooled, AccuracyOptions options, LogSharing? sharing) =>
        (Cells, Grid, Pooled, Options, Sharing) = (cells, grid, pooled, options, sharing);

    /// <summary>Every cell and margin: bands by terrains, then bands, terrains, and all.</summary>
    public IReadOnlyList<CellRate> Cells { get; }

    /// <summary>The wind bands by the terrains of the landings.</summary>
    public Cells Grid { get; }

    /// <summary>The terrain classes, in alphabetical order.</summary>
    public IReadOnlyList<string> Terrains => Grid.Terrains;

    /// <summary>The model that the cells are pooled by, or why there is none.</summary>
    public Fit<PooledRates> Pooled { get; }

    /// <summary>That the log is for sharing, so that cells of few people are withheld; null where it is not.</summary>
    public LogSharing? Sharing { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The rate of all landings together.</summary>
    public CellRate Overall => Cells[^1];

    /// <summary>The rate of a cell or margin.</summary>
    /// <param name="windBand">Label of a band, or <c>all</c>.</param>
    /// <param name="terrain">A terrain class, or <c>all</c>.</param>
    /// <exception cref="KeyNotFoundException">There is no such cell.</exception>
    public CellRate Cell(string windBand, string terrain) => Cell(new Cell(windBand, terrain));

    /// <summary>The rate of a cell or margin.</summary>
    /// <param name="cell">The cell or margin.</param>
    /// <exception cref="KeyNotFoundException">There is no such cell.</exception>
    public CellRate Cell(Cell cell) => Cells.FirstOrDefault(c => c.Cell == cell)
        ?? throw new KeyNotFoundException($"There is no cell '{cell.WindBand}' by '{cell.Terrain}'. Bands: "
            + $"{string.Join(", ", Options.Bands.Labels)}. Terrains: {string.Join(", ", Terrains)}.");

    /// <summary>How the rate of all landings stands to the benchmark, in a sentence.</summary>
    public string BenchmarkSentence
    {
        get
        {
            var name = Options.Benchmark == AccuracyOptions.RuleOfThumb
                ? $"the trade's rule of thumb of {Options.BenchmarkText} (common practice, no source)"
                : $"the benchmark of {Options.BenchmarkText}";
            return (Overall.Verdict, Overall.Counted.Value?.Rate.Range) switch
            {
                (_, null) => $"It can't be compared with {name}: there is no interval.",
                (BenchmarkVerdict.Above, { } range) => $"That is above {name}: the interval begins at {Rounding.Percent(range.Low, 1)}.",
                (BenchmarkVerdict.Below, { } range) => $"That is below {name}: the interval ends at {Rounding.Percent(range.High, 1)}.",
                _ => $"It can't be told from {name}, which lies inside the interval.",
            };
        }
    }

    /// <summary>Computes the rates of landings by wind band and terrain.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands, benchmark, confidence, resamples and seed.</param>
    public static RateTable Of(IReadOnlyList<Landing> landings, AccuracyOptions options) => Of(landings, options, null);

    /// <summary>The same, with cells of few people withheld where the log is for sharing.</summary>
    internal static RateTable Of(IReadOnlyList<Landing> landings, AccuracyOptions options, LogSharing? sharing)
    {
        var grid = new Cells(options.Bands, landings);
        var byCell = grid.Group(landings);
        if (sharing is not null)
        {
            var withholding = new Withholding(grid, byCell, sharing.FewestPeople);
            return new RateTable(
                [.. grid.Select(cell => withholding.Hides(cell) ? CellRate.Withheld(cell) : CellRate.Of(cell, byCell[cell], options))],
                grid, Fit<PooledRates>.Refused("each pooled rate rests on every cell, also on those that are withheld"), options, sharing);
        }
        var pooled = PooledRates.Of(PooledCount.Of(landings, options.Bands), new PoolingOptions { Confidence = options.Confidence });
        var drawn = pooled.Value?.Cells.Where(c => c.Landings > 0).ToDictionary(c => c.Cell);
        return new RateTable(
            [.. grid.Select(cell => CellRate.Of(cell, byCell[cell], options) with { Pooled = drawn?.GetValueOrDefault(cell) })],
            grid, pooled, options, null);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Sharing is not null) return SharedReading(Sharing);
            if (!Overall.Counted.Success) return $"No rate can be given: {Overall.Counted.Reason}.";
            var inner = Cells.Where(c => !c.IsMargin && c.Counted.Success).ToList();
            var told = inner.Where(c => c.Counted.Value!.Rate.Range is not null).ToList();
            var (above, below) = (Named(BenchmarkVerdict.Above), Named(BenchmarkVerdict.Below));
            var parts = new List<string>
            {
                $"{Rounding.Count(Overall.Hits)} of {Rounding.Count(Overall.Landings, "landing")} "
                    + $"from {Rounding.Count(Overall.Missions, "mission")} came down inside the target radius: "
                    + $"{Rounding.Percent(Overall.Counted.Value.Rate)}, {Rounding.Percent(Options.Confidence)} interval.",
                BenchmarkSentence,
            };
            if (Overall.Counted.Value is { DesignEffect: not null, EffectiveLandings: { } effective })
                parts.Add("Because jumpers of one mission share a forecast, these landings tell as much as about "
                    + $"{Rounding.Count((long)Math.Round(effective))} independent ones.");
            parts.Add($"Of {Rounding.Count(told.Count, "cell")} with an interval, {List(below, "below")} "
                + $"and {List(above, "above")} the benchmark; if the true rate of every cell were {Options.BenchmarkText}, "
                + $"about {Rounding.Fixed((1 - Options.Confidence) * told.Count, 1)} of them would do so by chance.");
            if (told.Count(c => c.NormalFitsBadly) is var bad and > 0)
                parts.Add($"In {bad} of these cells the rate of the fitted normal lies outside the interval of the counted one: "
                    + "there the misses are not normal, and the counted rate is the one to quote.");
            return string.Join(" ", parts);

            List<string> Named(BenchmarkVerdict verdict) =>
                [.. inner.Where(c => c.Verdict == verdict).Select(c => $"{c.Terrain} at {c.WindBand} {Options.Bands.Unit.Suffix}")];
        }
    }

    private string SharedReading(LogSharing sharing)
    {
        var withheld = Cells.Count(c => c.IsWithheld);
        var rule = $"{Rounding.Count(withheld)} of {Rounding.Count(Cells.Count, "cell")} and margins {(withheld == 1 ? "is" : "are")} "
            + $"withheld: fewer than {sharing.FewestPeople} people, or needed so that such a one can't be computed.";
        return Overall.IsWithheld ? "Withheld: few people. " + rule
            : Overall.Counted.Value is not { } all ? $"No rate can be given: {Overall.Counted.Reason}."
            : $"{Rounding.Percent(all.Rate)} of landings came down inside the target radius ({Rounding.Percent(Options.Confidence)} "
                + $"interval; {Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")}). "
                + $"{BenchmarkSentence} {rule}";
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => Sharing is null ? [Table("rates-by-cell", pooled: true)]
        : [Table("rates-by-cell-shared", pooled: false, $" Withheld: fewer than {Sharing.FewestPeople} people, "
            + "or needed so that such a cell can't be computed from the others. People are the different jumpers of a cell's landings; "
            + "where jumpers are not named, no more than the largest stick.")];

    /// <summary>The table.</summary>
    /// <param name="name">File name.</param>
    /// <param name="pooled">Whether it has the pooled rates.</param>
    /// <param name="more">What the note says besides.</param>
    internal TableView Table(string name, bool pooled, string more = "")
    {
        return new TableOf<CellRate>(name, "Landing rate by wind band and terrain", Cells, Note() + more)
        {
            { Columns.WindBandIn(Options.Bands.Unit), c => c.WindBand },
            { Columns.Terrain, c => c.Terrain },
            { Columns.Missions, Shown(c => c.Missions) },
            { Columns.Landings, Shown(c => c.Landings) },
            { Columns.Hits, Shown(c => c.Hits) },
            { Columns.Rate, Shown(c => c.Counted.Value?.Rate) },
            { Columns.DesignEffect, Shown(c => c.Counted.Value?.DesignEffect) },
            { Columns.ModelRate, Shown(c => c.ModelRate.Value) },
            { pooled, Columns.PooledRate, Shown(c => c.PooledContradicted ? null : c.Pooled?.Rate.Value) },
            { pooled, Columns.Pull, Shown(c => c.PooledContradicted ? null : c.Pooled?.Pull) },
            { Columns.Verdict, Shown(Words) },
            { Columns.TargetRadii(Options.Units.Distance), Shown(Radii) },
            { Columns.Note, c => c.Note.Length > 0 ? c.Note : null },
        };

        Func<CellRate, object?> Shown(Func<CellRate, object?> value) => c => c.IsWithheld ? null : value(c);

        string Note() =>
            $"Wind bands in {Options.Bands.Unit.Name}; a mission whose passes fall in two bands counts in both. "
            + $"Intervals at {Rounding.Percent(Options.Confidence)}: counted rate, Wilson on the effective number of landings with t; "
            + $"fitted normal, bootstrap over missions ({Rounding.Count(Options.Replicates)} resamples, seed {Options.Seed}). "
            + $"Benchmark {Options.BenchmarkText}. "
            + (!pooled ? "" : Pooled.Success
                ? "Pooled: logistic mixed model over all cells, the chance on a mission not yet flown; "
                    + "pulled: 0 % its own landings alone, 100 % what band and terrain say. "
                : $"No pooled rate: {Pooled.Reason}. ")
            + "Design effect: how many times the variance of as many independent landings. "
            + "Beyond: known only as beyond the target radius, counted as misses. "
            + "Undecided: known only as beyond a shorter distance, left out. "
            + "Normal fits badly: the rate it implies lies outside the interval of the counted one; quote the counted one.";
    }

    private static string? Words(CellRate c) => (c.Verdict, c.Counted.Value?.Rate.Range) switch
    {
        (_, null) => null,
        (BenchmarkVerdict.Above, _) => "above",
        (BenchmarkVerdict.Below, _) => "below",
        _ => "can't tell",
    };

    private string? Radii(CellRate c)
    {
        if (c.TargetRadii is not { } radii) return null;
        var (least, most) =
            (Rounding.Fixed(Options.Units.Distance.FromSi(radii.Low), 0), Rounding.Fixed(Options.Units.Distance.FromSi(radii.High), 0));
        return least == most ? least : $"{least} to {most}";
    }

    private static string List(List<string> cells, string word) => cells.Count switch
    {
        0 => $"none lies {word}",
        1 => $"1 lies {word} ({cells[0]})",
        <= 6 => $"{cells.Count} lie {word} ({string.Join("; ", cells)})",
        _ => $"{cells.Count} lie {word}",
    };
}
