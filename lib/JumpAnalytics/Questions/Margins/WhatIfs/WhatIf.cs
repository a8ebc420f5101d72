namespace JumpAnalytics;

/// <summary>
/// What the landing rate, and the share of missions still flown, would have been under other settings, on the landings of a log.
/// </summary>
/// <remarks>
/// <para>Other radii and passes left out are counted: the same landings, judged anew. New streamers and smaller sticks ask for landings
/// that nobody made; these are modelled from the miss that there was: its distance from the mean miss times the ratio of the spreads at the
/// two ages, and moved along the run by what is left of the exit's offset. The uncertainty of the ratio and of what is left is added to
/// that of the missions by squares, each side by itself (Newcombe 1998, Statistics in Medicine 17:873-890, method 10).</para>
/// <para>Passes are left out by their records, not at random, so a rate without them also differs by whatever goes with wind or age.</para>
/// </remarks>
public sealed class WhatIf : ShownResult
{
    private WhatIf(IReadOnlyList<WhatIfResult> results, AccuracyOptions options) => (Results, Options) = (results, options);

    /// <summary>One result for each scenario, in the order given.</summary>
    public IReadOnlyList<WhatIfResult> Results { get; }

    /// <summary>Units and confidence.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Asks the records.</summary>
    /// <param name="landings">The landings as they were flown.</param>
    /// <param name="options">Units and confidence.</param>
    /// <param name="scenarios">What is asked.</param>
    /// <param name="models">What modelled scenarios need; without it they are refused with the reason.</param>
    public static WhatIf Of(IReadOnlyList<Landing> landings, AccuracyOptions options, IReadOnlyList<Scenario> scenarios,
        WhatIfModels? models = null)
    {
        var question = new WhatIfQuestion(landings, models ?? WhatIfModels.None, options.Confidence);
        return new WhatIf([.. scenarios.Select(question.Answer)], options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var told = Results.Where(r => r.Change.Value?.Range is { } range && (range.Low > 0 || range.High < 0)).ToList();
            return Results.Count == 0 ? "Nothing was asked."
                : $"Of {Rounding.Count(Results.Count, "change")} asked about, {told.Count} would have changed the landing rate by more "
                    + $"than chance explains ({Rounding.Percent(Options.Confidence)} intervals): "
                    + (told.Count == 0 ? "none. That does not show they do nothing." : string.Join("; ", told.Select(Sentence)) + ".")
                    + " Every setting is a question put by the reader; none is a limit.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
        [.. Results.Where(r => r.Note is not null).Select(r => $"{r.Scenario.Describe(Options.Units)}: {r.Note}.")];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<WhatIfResult>("what-if", "What if", Results,
            $"Intervals at {Rounding.Percent(Options.Confidence)}; the change is paired, so it may be surer than either rate. "
            + "Counted: the landings that were made, judged anew. Modelled: landings that nobody made. "
            + "Passes left out differ in more than what they are left out for.")
        {
            { Columns.ScenarioAsked, r => r.Scenario.Describe(Options.Units) },
            { Columns.Basis, r => r.IsModelled ? "modelled" : "counted" },
            { Columns.MissionsJudged, r => r.JudgedMissions },
            { Columns.LandingsJudged, r => r.Judged },
            { Columns.RateAsFlown, r => r.AsFlown.Value?.Rate },
            { Columns.RateThen, r => r.Rate.Value?.Rate },
            { Columns.RateChangeThen, r => r.Change.Value },
            { Columns.MissionsFlown, r => r.MissionsFlown },
            { Columns.LandingsFlown, r => r.LandingsFlown },
        },
    ];

    private string Sentence(WhatIfResult r) =>
        $"{r.Scenario.Describe(Options.Units)}: {Rounding.Points(r.Change.Value!)} points, {Rounding.Percent(r.MissionsFlown)} of "
        + $"{Rounding.Count(r.JudgedMissions, "mission")} still flown"
        + (r.IsModelled ? " (modelled)" : "");
}
