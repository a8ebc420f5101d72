namespace JumpAnalytics;

/// <summary>What of this mission is unusual: each measured thing held against the same base's earlier missions.</summary>
public sealed class HistoryComparison : ShownResult
{
    private readonly IReadOnlyList<(DebriefedPass Pass, ClusteredProportion? Rate, string ComparedWith)> _hits;

    private HistoryComparison(IReadOnlyList<HistoryRow> rows, IReadOnlyList<(DebriefedPass, ClusteredProportion?, string)> hits,
        AccuracyOptions options) => (Rows, _hits, Options) = (rows, hits, options);

    /// <summary>One thing compared.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="Jumper">The jumper, where it is about one.</param>
    /// <param name="Quantity">What is compared, in words.</param>
    /// <param name="Rank">How it stands.</param>
    [TypeFormatterSource]
    public sealed record HistoryRow(DebriefedPass Pass, DebriefedJumper? Jumper, string Quantity, HistoryRank Rank);

    internal const string Exit = "exit placement of the stick's middle", Error = "forecast error of the pass",
        Miss = "miss distance", Age = "age of the forecast";

    /// <summary>What is compared.</summary>
    public IReadOnlyList<HistoryRow> Rows { get; }

    /// <summary>Units and confidence.</summary>
    public AccuracyOptions Options { get; }

    internal static HistoryComparison Of(IReadOnlyList<DebriefedPass> passes, MissionHistory history, AccuracyOptions options)
    {
        var rows = new List<HistoryRow>();
        foreach (var pass in passes)
        {
            if (pass.Drop.StreamerAge is { } age) rows.Add(new(pass, null, Age, history.StreamerAge(pass.Drop, age)));
            if (pass.ExitPlacement is { } exit) rows.Add(new(pass, null, Exit, history.ExitPlacement(pass.Drop, exit.Length)));
            if (pass.ForecastError is { } error) rows.Add(new(pass, null, Error, history.ForecastError(pass.Drop, error.Length)));
            foreach (var jumper in pass.Jumpers)
            {
                if (jumper.Landing.MissDistance is { } miss) rows.Add(new(pass, jumper, Miss, history.Miss(pass.Drop, miss)));
            }
        }
        return new HistoryComparison(rows,
            [.. passes.Select(p => (p, history.Hits(p.Drop).Rate, history.Hits(p.Drop).ComparedWith))], options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0) return "Nothing of this mission can be compared with earlier ones.";
            var told = Rows.Count(r => r.Rank.Standing != HistoryStanding.Unknown);
            var large = Rows.Where(r => r.Rank.Standing is HistoryStanding.Large or HistoryStanding.PerhapsLarge).ToList();
            return told == 0
                ? $"The base has too few earlier missions to say what is usual: at least {MissionHistory.FewestMissions} are needed."
                : $"Of {Rounding.Count(told, "value")} that can be compared with the base's earlier missions, "
                    + $"{Rounding.Count(large.Count)} {(large.Count == 1 ? "is" : "are")} larger than nine in ten before; "
                    + $"by chance alone about {Rounding.Fixed(HistoryRank.Rare * told, 0)} would be. "
                    + string.Join(" ", large.Take(4).Select(r => $"{Rounding.Capital(r.Quantity)} of {Who(r)}: "
                        + $"{Value(r, r.Rank.Value)}, as large in {(r.Rank.AsLarge is { } share ? Rounding.Percent(share) : "too few")} of "
                        + $"{Rounding.Count(r.Rank.Cases)} before ({r.Rank.ComparedWith})."));
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
        [.. _hits.Select(h => $"{Rounding.Capital(h.Pass.Name)}: {h.Pass.Hits} of {Rounding.Count(h.Pass.Decided.Count, "landing")} "
            + "inside the target radius. " + (h.Rate is { } rate
                ? $"Before, {h.ComparedWith}: {Rounding.Percent(rate.Rate)} of {Rounding.Count(rate.Landings, "landing")} of "
                    + $"{Rounding.Count(rate.Missions, "mission")}."
                : $"Too few earlier missions to compare with ({h.ComparedWith})."))];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<HistoryRow>("against-history", "Against this base's earlier missions", Rows,
            "Only missions flown before this one. "
                + (Rows.Any(r => r.Rank.AsLarge?.Range is not null)
                    ? $"Intervals at {Rounding.Percent(Options.Confidence)} between missions. " : "")
                + "A value is usual when at least one in ten before was as large: a number of this report, not a limit.")
        {
            { Columns.PassNumber, Who },
            { Columns.Compared, r => r.Quantity },
            { Columns.MeasuredIn, r => r.Quantity == Age ? "min" : Options.Units.Distance.Suffix },
            { Columns.HereValue, r => In(r, r.Rank.Value) },
            { Columns.HalfBefore, r => In(r, r.Rank.Median) },
            { Columns.NineBefore, r => In(r, r.Rank.NineInTen) },
            { Columns.AsLargeBefore, r => r.Rank.AsLarge },
            { Columns.Standing, r => r.Rank.Words },
            { Columns.ValuesBefore, r => r.Rank.Cases },
            { Columns.MissionsBefore, r => r.Rank.Missions },
            { Columns.ComparedWith, r => r.Rank.ComparedWith },
        },
    ];

    /// <summary>How a pass's value of one kind stands; null when it was not compared.</summary>
    internal HistoryRank? Of(DebriefedPass pass, string quantity) =>
        Rows.FirstOrDefault(r => r.Pass == pass && r.Jumper is null && r.Quantity == quantity)?.Rank;

    private static string Who(HistoryRow r) => DebriefWords.Who(r.Pass, r.Jumper);

    private object? In(HistoryRow r, double? si) =>
        si is not { } value ? null : r.Quantity == Age ? value / 60 : Options.Units.Distance.FromSi(value);

    private string Value(HistoryRow r, double si) =>
        r.Quantity == Age ? $"{Rounding.Fixed(si / 60, 0)} min" : DebriefWords.Distance(si, Options);
}
