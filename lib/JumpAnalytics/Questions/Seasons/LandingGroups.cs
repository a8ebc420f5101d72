using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// Landings side by side in groups of one's own: by month, by age of the forecast, by whatever a landing knows. Rates, bias and distances
/// with their intervals between missions.
/// </summary>
public sealed class LandingGroups : ShownResult
{
    private LandingGroups(string by, IReadOnlyList<MissSummary> groups, int without, AccuracyOptions options) =>
        (By, Groups, Without, Options) = (by, groups, without, options);

    /// <summary>What the landings are grouped by, in the user's words.</summary>
    public string By { get; }

    /// <summary>A summary for each group in rising order of its key and, last, one for all that have a key.</summary>
    public IReadOnlyList<MissSummary> Groups { get; }

    /// <summary>Landings that have no key and so belong to no group.</summary>
    public int Without { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Groups landings.</summary>
    /// <param name="landings">Landings.</param>
    /// <param name="by">What they are grouped by, in a word or two: it heads the table.</param>
    /// <param name="key">The group of a landing; null where it has none.</param>
    /// <param name="options">Confidence, resamples, seed and units.</param>
    public static LandingGroups Of<TKey>(IReadOnlyList<Landing> landings, string by, Func<Landing, TKey> key, AccuracyOptions options)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(by);
        var keyed = landings.Select(l => (Landing: l, Key: key(l))).Where(l => l.Key is not null).ToList();
        var order = typeof(TKey) == typeof(string) ? (IComparer<TKey>)StringComparer.Ordinal : Comparer<TKey>.Default;
        var steps = WrittenSteps.Of(landings);
        var groups = keyed.GroupBy(l => l.Key).OrderBy(g => g.Key, order)
            .Select(g => MissSummary.Of(Label(g.Key), g.Select(l => l.Landing), options, steps)).ToList();
        groups.Add(MissSummary.Of(JumpLog.All, keyed.Select(l => l.Landing), options, steps));
        return new LandingGroups(by, groups, landings.Count - keyed.Count, options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var (inner, all) = (Groups.SkipLast(1).Where(g => g.Rate.Success).OrderBy(g => g.Rate.Value!.Rate.Value).ToList(), Groups[^1]);
            if (!all.Rate.Success || inner.Count == 0) return $"No rate can be given: {all.Rate.Reason ?? "no group has a landing"}.";
            var text = $"{Rounding.Count(inner.Count, "group")} by {By}, {Rounding.Count(all.Rate.Value.Missions, "mission")}, "
                + $"{Rounding.Count(all.Rate.Value.Landings, "landing")} that can be told a hit or a miss; "
                + $"{Rounding.Percent(all.Rate.Value.Rate)} inside the target radius.";
            if (inner.Count > 1)
                text += $" Lowest {Named(inner[0])}, highest {Named(inner[^1])}. Among {inner.Count} groups the extremes lie apart by "
                    + "chance alone, and groups differ in winds and terrains too.";
            return text + (Without == 0 ? "" : $" {Rounding.Count(Without, "landing")} belong{(Without == 1 ? "s" : "")} to no group.");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return
            [
                new TableOf<MissSummary>("landings-by-group", $"Landings by {By}", Groups,
                    $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions: "
                    + "rate, Wilson on the effective number of landings; bias, t on missions − 1; "
                    + $"distances, bootstrap over missions ({Rounding.Count(Options.Replicates)} resamples, seed {Options.Seed}). "
                    + "A mission whose landings fall into two groups counts in both.")
                {
                    { Columns.Group with { Label = By }, g => g.Season },
                    { Columns.Missions, g => g.Rate.Value?.Missions ?? 0 },
                    { Columns.Landings, g => g.Rate.Value?.Landings ?? 0 },
                    { Columns.Hits, g => g.Rate.Value?.Hits ?? 0 },
                    { Columns.Rate, g => g.Rate.Value?.Rate },
                    { Columns.Placed, g => g.Placed },
                    { Columns.BiasDownwind(unit), g => g.BiasDownwind.Value?.Select(unit.FromSi) },
                    { Columns.BiasRight(unit), g => g.BiasRight.Value?.Select(unit.FromSi) },
                    {
                        MissSummary.Percents.Index(), p => Columns.MissQuantile(p.Item, unit),
                        (g, p) => g.MissQuantiles[p.Index].Value?.Select(unit.FromSi)
                    },
                },
            ];
        }
    }

    private static string Named(MissSummary group) =>
        $"{group.Season} ({Rounding.Percent(group.Rate.Value!.Rate)}, {Rounding.Count(group.Rate.Value.Missions, "mission")})";

    private static string Label<TKey>(TKey key) => key switch
    {
        bool flag => flag ? "yes" : "no",
        _ => Convert.ToString(key, CultureInfo.InvariantCulture) ?? "",
    };
}
