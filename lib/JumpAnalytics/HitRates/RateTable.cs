namespace JumpAnalytics;

/// <summary>Hit rates by wind band and terrain, with the margins of the table: the answer to how often landings came down inside the target radius.</summary>
/// <remarks>
/// Three rates side by side are three methods for one question, the landing rate (steering included): counted, and implied by a
/// fitted normal. How often the forecast alone would have succeeded is another question and is not answered here.
/// </remarks>
public sealed class RateTable : ShownResult
{
    private RateTable(IReadOnlyList<CellRate> cells, IReadOnlyList<string> terrains, AccuracyOptions options) =>
        (Cells, Terrains, Options) = (cells, terrains, options);

    /// <summary>Every cell and margin: bands by terrains, then bands, terrains, and all.</summary>
    public IReadOnlyList<CellRate> Cells { get; }

    /// <summary>The terrain classes, in alphabetical order.</summary>
    public IReadOnlyList<string> Terrains { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The rate of all landings together.</summary>
    public CellRate Overall => Cells[^1];

    /// <summary>The rate of a cell or margin.</summary>
    /// <param name="windBand">Label of a band, or <see cref="CellRate.All"/>.</param>
    /// <param name="terrain">A terrain class, or <see cref="CellRate.All"/>.</param>
    /// <exception cref="KeyNotFoundException">There is no such cell.</exception>
    public CellRate Cell(string windBand, string terrain) =>
        Cells.FirstOrDefault(c => c.WindBand == windBand && c.Terrain == terrain)
        ?? throw new KeyNotFoundException($"There is no cell '{windBand}' by '{terrain}'. Bands: {string.Join(", ", Options.Bands.Labels)}. Terrains: {string.Join(", ", Terrains)}.");

    /// <summary>How the rate of all landings stands to the benchmark, in a sentence.</summary>
    public string BenchmarkSentence
    {
        get
        {
            var name = Options.Benchmark == AccuracyOptions.RuleOfThumb
                ? $"The trade's rule of thumb of {Rounding.Percent(Options.Benchmark)} (common practice, no source)" : $"The benchmark of {Rounding.Percent(Options.Benchmark, 1)}";
            return Overall.Verdict switch
            {
                BenchmarkVerdict.Above => $"{name} lies below the interval: the landing rate is higher.",
                BenchmarkVerdict.Below => $"{name} lies above the interval: the landing rate is lower.",
                _ when Overall.Counted.Value?.Rate.Range is null => $"{name} can't be compared with it: there is no interval.",
                _ => $"{name} lies inside the interval: these records can't tell the landing rate from it.",
            };
        }
    }

    /// <summary>Computes the rates of landings by wind band and terrain.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands, benchmark, confidence, resamples and seed.</param>
    public static RateTable Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var terrains = landings.Select(l => l.Drop.Terrain).Distinct().Order(StringComparer.Ordinal).ToList();
        var byCell = landings.ToLookup(l => (Band: options.Bands.LabelOf(l.Drop.WindSpeed), l.Drop.Terrain));
        var cells = new List<CellRate>();
        foreach (var band in options.Bands.Labels)
        {
            foreach (var terrain in terrains) cells.Add(CellRate.Of(band, terrain, byCell[(band, terrain)], options));
        }
        foreach (var band in options.Bands.Labels)
            cells.Add(CellRate.Of(band, CellRate.All, landings.Where(l => options.Bands.LabelOf(l.Drop.WindSpeed) == band), options));
        foreach (var terrain in terrains)
            cells.Add(CellRate.Of(CellRate.All, terrain, landings.Where(l => l.Drop.Terrain == terrain), options));
        cells.Add(CellRate.Of(CellRate.All, CellRate.All, landings, options));
        return new RateTable(cells, terrains, options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Overall.Counted.Success) return $"No rate can be given: {Overall.Counted.Reason}.";
            var inner = Cells.Where(c => !c.IsMargin && c.Counted.Success).ToList();
            var (above, below) = (Named(BenchmarkVerdict.Above), Named(BenchmarkVerdict.Below));
            var parts = new List<string>
            {
                $"{Rounding.Count(Overall.Hits)} of {Rounding.Count(Overall.Landings, "landing")} from {Rounding.Count(Overall.Missions, "mission")} came down inside the target radius: "
                + $"{Rounding.Percent(Overall.Counted.Value.Rate)}, {Rounding.Percent(Options.Confidence)} interval.",
                BenchmarkSentence,
            };
            if (Overall.Counted.Value is { DesignEffect: not null, EffectiveLandings: { } effective })
                parts.Add($"Because jumpers of one mission share a forecast, these landings tell as much as about {Rounding.Count((long)Math.Round(effective))} independent ones.");
            parts.Add($"Of {Rounding.Count(inner.Count, "cell")} with landings, {List(below, "below")}, {List(above, "above")}, and {inner.Count - below.Count - above.Count} can't be told from it. "
                + $"With so many intervals at {Rounding.Percent(Options.Confidence)}, expect about {Rounding.Fixed((1 - Options.Confidence) * inner.Count, 1)} of them to miss by chance alone.");
            return string.Join(" ", parts);

            List<string> Named(BenchmarkVerdict verdict) =>
                [.. inner.Where(c => c.Verdict == verdict).Select(c => $"{c.WindBand} {Options.Bands.Unit.Suffix} {c.Terrain}")];
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new("rates-by-cell", "Landing rate by wind band and terrain",
            [Columns.WindBand with { Label = $"wind band ({Options.Bands.Unit.Suffix})" }, Columns.Terrain, Columns.Missions, Columns.Landings, Columns.Hits,
                Columns.Rate, Columns.DesignEffect, Columns.ModelRate, Columns.Verdict, Columns.Note],
            [.. Cells.Select(c => new object?[]
            {
                c.WindBand, c.Terrain, c.Missions, c.Landings, c.Hits, c.Counted.Value?.Rate, c.Counted.Value?.DesignEffect, c.ModelRate.Value,
                c.Counted.Success ? Words(c.Verdict) : null, c.Note.Length > 0 ? c.Note : null,
            })],
            $"Wind bands in {Options.Bands.Unit.Name}. Intervals at {Rounding.Percent(Options.Confidence)}: counted rate, Wilson on the effective number of landings with t on missions − 1; "
            + $"fitted normal, bootstrap over missions ({Rounding.Count(Options.Replicates)} resamples, seed {Options.Seed}). Benchmark {Rounding.Percent(Options.Benchmark)}. "
            + "Beyond: known only as beyond the target radius, counted as misses. Undecided: known only as beyond a shorter distance, left out. "
            + "Normal fits badly: the rate it implies lies outside the interval of the counted one; trust the counted one."),
    ];

    private static string Words(BenchmarkVerdict verdict) => verdict switch
    {
        BenchmarkVerdict.Above => "above",
        BenchmarkVerdict.Below => "below",
        _ => "can't tell",
    };

    private static string List(List<string> cells, string word) => cells.Count switch
    {
        0 => $"none lies {word} the benchmark",
        1 => $"1 lies {word} the benchmark ({cells[0]})",
        <= 6 => $"{cells.Count} lie {word} the benchmark ({string.Join("; ", cells)})",
        _ => $"{cells.Count} lie {word} the benchmark",
    };
}
