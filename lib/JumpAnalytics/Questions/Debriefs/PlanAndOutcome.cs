namespace JumpAnalytics;

/// <summary>What went as planned and what did not, pass by pass; and where canopies should have drifted by the streamers.</summary>
public sealed partial class PlanAndOutcome : ShownResult
{
    private readonly AccuracyOptions _options;

    private PlanAndOutcome(IReadOnlyList<PlanRow> rows, IReadOnlyList<StreamerDrift> streamers, AccuracyOptions options) =>
        (Rows, Streamers, _options) = (rows, streamers, options);

    /// <summary>One thing that was planned.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="What">What was planned: exit, drift or landings.</param>
    /// <param name="Planned">What the plan or the forecast said.</param>
    /// <param name="Happened">What the record says.</param>
    /// <param name="AsPlanned">Whether it went so; null when the record can't tell.</param>
    [TypeFormatterSource]
    public sealed record PlanRow(DebriefedPass Pass, string What, string Planned, string Happened, bool? AsPlanned);

    internal const string Exit = "exit", Drift = "drift", Landings = "landings";

    /// <summary>What was planned and what came of it.</summary>
    public IReadOnlyList<PlanRow> Rows { get; }

    internal static PlanAndOutcome Of(IReadOnlyList<DebriefedPass> passes, HistoryComparison history, AccuracyOptions options) =>
        new([.. passes.SelectMany(p => new[] { ExitRow(p, history, options), ForecastRow(p, history, options), LandingRow(p, options) })],
            [.. passes.SelectMany(p => DriftsOf(p, options))], options);

    private static PlanRow ExitRow(DebriefedPass pass, HistoryComparison history, AccuracyOptions options)
    {
        var planned = $"{DebriefWords.Vector(pass.Drop.PlannedExit, options)} from the spot";
        var known = pass.Jumpers.Count(j => j.Budget.Value?.ExitPlacement.Vector is not null);
        if (pass.ExitPlacement is not { } off)
            return new(pass, Exit, planned, "not known: " + (pass.Jumpers.Select(j => j.Budget.Value?.ExitPlacement.Reason)
                .FirstOrDefault(r => r is not null) ?? "no landing with a known place"), null);
        var happened = $"{(known == 1 ? "left" : $"the middle of {known} left")} "
            + $"{(pass.Drop.Frame is { } frame ? DebriefWords.Places(frame.ToDownwind(off), options) : DebriefWords.Vector(off, options))} "
            + "of the plan";
        return new(pass, Exit, planned, Against(happened, history.Of(pass, HistoryComparison.Exit)),
            IsUsual(history.Of(pass, HistoryComparison.Exit)));
    }

    private static PlanRow ForecastRow(DebriefedPass pass, HistoryComparison history, AccuracyOptions options)
    {
        var planned = DebriefWords.Vector(pass.Drop.ForecastDrift, options)
            + $", wind {DebriefWords.Wind(pass.Drop.WindSpeed, pass.Drop.WindFrom, options)}"
            + (pass.Drop.StreamerAge is { } age ? $", streamers {Rounding.Fixed(age / 60, 0)} min old" : "");
        if (pass.ForecastError is not { } error)
            return new(pass, Drift, planned, "not known: no descent track parts it from the steering", null);
        var happened = $"{DebriefWords.Vector(pass.Drop.ForecastDrift + error, options)} by {Rounding.Count(pass.Parted, "track")}: "
            + (pass.Drop.Frame is { } frame ? DebriefWords.Sides(frame.ToDownwind(error), options) : DebriefWords.Vector(error, options))
            + " of the forecast";
        return new(pass, Drift, planned, Against(happened, history.Of(pass, HistoryComparison.Error)),
            IsUsual(history.Of(pass, HistoryComparison.Error)));
    }

    private static PlanRow LandingRow(DebriefedPass pass, AccuracyOptions options)
    {
        var planned = $"inside {DebriefWords.Distance(pass.Drop.TargetRadius, options)}";
        if (pass.Decided.Count == 0) return new(pass, Landings, planned, "no landing that can be told a hit or a miss", null);
        var far = pass.Jumpers.Max(j => j.Landing.MissDistance ?? j.Landing.Beyond);
        var beyond = pass.Jumpers.Any(j => j.Landing.Beyond >= far) ? "beyond " : "";
        return new(pass, Landings, planned, $"{pass.Hits} of {Rounding.Count(pass.Decided.Count)} inside; "
            + $"the farthest {beyond}{DebriefWords.Distance(far!.Value, options)}", pass.Hits == pass.Decided.Count);
    }

    /// <summary>Whether a length is as earlier ones were; null when too few earlier missions can say.</summary>
    private static bool? IsUsual(HistoryRank? rank) => rank?.Standing switch
    {
        null or HistoryStanding.Unknown => null,
        HistoryStanding.Usual => true,
        _ => false,
    };

    private static string Against(string happened, HistoryRank? rank) => rank is null ? happened : $"{happened}; {rank.Words}";

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0) return "Nothing was planned that the record knows of.";
            var (yes, no, unknown) = (Rows.Count(r => r.AsPlanned == true), Rows.Where(r => r.AsPlanned == false).ToList(),
                Rows.Count(r => r.AsPlanned is null));
            return $"{Rounding.Count(yes)} of {Rounding.Count(Rows.Count, "thing")} planned went as planned"
                + (no.Count > 0 ? "; not so " + string.Join(", ",
                    no.GroupBy(r => r.What).Select(g => $"{g.Key} ({string.Join(", ", g.Select(r => r.Pass.Name))})")) : "")
                + (unknown > 0 ? $"; of {Rounding.Count(unknown)} the record can't tell" : "") + ".";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<PlanRow>("as-planned", "Planned and happened", Rows,
            "Landings went as planned when all are inside the target radius; "
                + "exit and drift when they are off by no more than nine in ten before.")
        {
            { Columns.PassNumber, r => r.Pass.Name },
            { Columns.Compared, r => r.What },
            { Columns.Planned, r => r.Planned },
            { Columns.Happened, r => r.Happened },
            { Columns.WentAsPlanned, r => r.AsPlanned switch { true => "yes", false => "no", _ => "not known" } },
        },
        StreamerTable,
    ];
}
