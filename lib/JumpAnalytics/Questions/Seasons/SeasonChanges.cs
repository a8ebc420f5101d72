namespace JumpAnalytics;

/// <summary>The landing rate of one season against the one before, in one group of drops.</summary>
/// <param name="Cell">A wind band, a terrain, or the whole.</param>
/// <param name="Group">The same in words.</param>
/// <param name="From">The earlier season.</param>
/// <param name="To">The later season.</param>
/// <param name="Before">Rate of the earlier season.</param>
/// <param name="After">Rate of the later season.</param>
/// <param name="Change">Later less earlier.</param>
[TypeFormatterSource]
public sealed record SeasonChange(
    Cell Cell, string Group, string From, string To, ClusteredProportion Before, ClusteredProportion After, Estimate Change);

/// <summary>Season against season: where the landing rate moved, and whether that is more than chance.</summary>
/// <remarks>
/// Seasons share no mission, so the interval of a difference is that of <see cref="RateDifference"/> for independent rates: the
/// square-and-add method of Newcombe (1998, Statistics in Medicine 17:873-890, method 10), here on the intervals that respect missions.
/// </remarks>
public sealed class SeasonChanges : ShownResult
{
    private SeasonChanges(IReadOnlyList<SeasonChange> changes, IReadOnlyList<string> skipped, AccuracyOptions options) =>
        (Changes, Skipped, Options) = (changes, skipped, options);

    /// <summary>The comparisons that can be made.</summary>
    public IReadOnlyList<SeasonChange> Changes { get; }

    /// <summary>The comparisons that can't, each with its reason.</summary>
    public IReadOnlyList<string> Skipped { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>
    /// Compares each season with the one before it over all landings, and the last one with the one before it also in each wind band and
    /// each terrain.
    /// </summary>
    /// <param name="landings">Landings of two or more seasons.</param>
    /// <param name="options">Bands, confidence and units.</param>
    public static SeasonChanges Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var seasons = landings.Select(l => l.Drop.Season).Distinct().Order(StringComparer.Ordinal).ToList();
        var grid = new Cells(options.Bands, landings);
        var byCell = grid.Group(landings);
        var (changes, skipped) = (new List<SeasonChange>(), new List<string>());
        foreach (var cell in (Cell[])[Cell.All, .. grid.OfBands, .. grid.OfTerrains])
        {
            var name = cell.Words(options.Bands);
            var bySeason = byCell[cell].ToLookup(l => l.Drop.Season);
            var rates = seasons.ToDictionary(s => s, s => MissionSample.Of(bySeason[s]).CountedRate(options.Confidence));
            foreach (var (from, to) in seasons.Zip(seasons.Skip(1)).Skip(cell.IsWhole ? 0 : seasons.Count - 2))
            {
                if (rates[from].Value is { Rate.Range: not null } before && rates[to].Value is { Rate.Range: not null } after)
                    changes.Add(new SeasonChange(cell, name, from, to, before, after, RateDifference.Between(before.Rate, after.Rate)));
                else
                    skipped.Add($"{name}, {from} to {to}: fewer than 2 missions in one of them");
            }
        }
        return new SeasonChanges(changes, skipped, options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Changes.LastOrDefault(c => c.Cell.IsWhole) is not { } last) return "There is no pair of seasons to compare.";
            var parts = Changes.Where(c => !c.Cell.IsWhole).ToList();
            var moved = parts.Where(c => !c.Change.Range!.Value.Contains(0)).Select(c => $"{c.Group}: {Words(c)}").ToList();
            return $"From {last.From} to {last.To} the landing rate changed by {Rounding.Points(last.Change)} points, "
                + $"{Rounding.Percent(Options.Confidence)} interval, {last.Before.Missions} against {last.After.Missions} missions and "
                + $"{Rounding.Count(last.Before.Landings)} against {Rounding.Count(last.After.Landings, "landing")}: {Meaning(last)}. "
                + (moved.Count == 0
                    ? $"Of {parts.Count} changes by wind band or terrain, none is clearly different from no change; "
                        + "that does not show there was none."
                    : $"Of {parts.Count} changes by wind band or terrain, {moved.Count} {(moved.Count == 1 ? "excludes" : "exclude")} "
                        + $"no change ({string.Join("; ", moved)}); were there no change anywhere, "
                        + $"about {Rounding.Fixed((1 - Options.Confidence) * parts.Count, 1)} would by chance.");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<SeasonChange>("season-changes", "Season against season", Changes,
            $"Intervals at {Rounding.Percent(Options.Confidence)}. "
            + "A change of the whole may come from a change in the winds and terrains flown; look at the parts. "
            + "Can't tell: the interval holds no change."
            + (Skipped.Count > 0 ? $" Not compared: {string.Join("; ", Skipped)}." : ""))
        {
            { Columns.Group, c => c.Group },
            { Columns.SeasonFrom, c => c.From },
            { Columns.SeasonTo, c => c.To },
            { Columns.MissionsFrom, c => c.Before.Missions },
            { Columns.LandingsFrom, c => c.Before.Landings },
            { Columns.RateFrom, c => c.Before.Rate },
            { Columns.MissionsTo, c => c.After.Missions },
            { Columns.LandingsTo, c => c.After.Landings },
            { Columns.RateTo, c => c.After.Rate },
            { Columns.Change, c => c.Change },
            { Columns.ChangeReading, Words },
        },
    ];

    private static string Words(SeasonChange c) => RateDifference.Words(c.Change);

    private static string Meaning(SeasonChange c) => RateDifference.Meaning(c.Change);
}
