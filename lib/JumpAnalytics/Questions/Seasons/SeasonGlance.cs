namespace JumpAnalytics;

/// <summary>Each season at a glance: how many, how often inside, how far and which way.</summary>
public sealed class SeasonGlance : ShownResult
{
    private SeasonGlance(IReadOnlyList<MissSummary> seasons, AccuracyOptions options) => (Seasons, Options) = (seasons, options);

    /// <summary>A summary for each season and, last, one for all.</summary>
    public IReadOnlyList<MissSummary> Seasons { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Summarises landings season by season.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Confidence, resamples, seed and units.</param>
    public static SeasonGlance Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var steps = WrittenSteps.Of(landings);
        var seasons = landings.GroupBy(l => l.Drop.Season).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => MissSummary.Of(g.Key, g, options, steps)).ToList();
        seasons.Add(MissSummary.Of(JumpLog.All, landings, options, steps));
        return new SeasonGlance(seasons, options);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var all = Seasons[^1];
            if (!all.Rate.Success) return $"No rate can be given: {all.Rate.Reason}.";
            var unit = Options.Units.Distance;
            var text = $"{Rounding.Count(Seasons.Count - 1, "season")}, "
                + $"{Rounding.Count(all.Rate.Value.Missions, "mission")}, {Rounding.Count(all.Rate.Value.Landings, "landing")} "
                + $"counted as hit or miss; {Rounding.Percent(all.Rate.Value.Rate)} inside the target radius as written.";
            if (all.MissQuantiles[0].Value is { } median)
                text += $" Half of the landings lie within {Rounding.Number(median.Select(unit.FromSi))} {unit.Name} of the spot.";
            if (all.BiasDownwind.Value is { Range: { } along } down && all.BiasRight.Value is { Range: { } across } right)
            {
                text += $" On average they lie {Side(down, along, "long", "short", unit)}, "
                    + $"and {Side(right, across, "right", "left", unit)} of the forecast line"
                    + $" ({Rounding.Count(all.Placed, "landing")} with a known place, {Rounding.Count(all.PlacedMissions, "mission")}).";
            }
            return text;
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
                new TableOf<MissSummary>("seasons", "Landing rate by season", Seasons,
                    $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions, as in the rate table. "
                    + "Likeness within a mission: 0 when its landings are as unlike as any, 1 when they share one fate. "
                    + "Placed: the place is known. Beyond: known only as beyond the target radius. Undecided: beyond a shorter distance.")
                {
                    { Columns.Season, s => s.Season },
                    { Columns.Missions, s => s.Rate.Value?.Missions ?? 0 },
                    { Columns.Landings, s => s.Rate.Value?.Landings ?? 0 },
                    { Columns.Hits, s => s.Rate.Value?.Hits ?? 0 },
                    { Columns.Rate, s => s.Rate.Value?.Rate },
                    { Columns.Icc, s => s.Rate.Value?.IntraclassCorrelation },
                    { Columns.Placed, s => s.Placed },
                    { Columns.BeyondMisses, s => s.BeyondMisses },
                    { Columns.Undecided, s => s.Undecided },
                },
                new TableOf<MissSummary>("misses-by-season", "How far and which way", Seasons,
                    $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions: bias, t on missions − 1; "
                    + $"distances, bootstrap over missions ({Rounding.Count(Options.Replicates)} resamples, seed {Options.Seed}). "
                    + "Rounded distances are spread over their rounding. "
                    + "A landing known only as beyond a distance is taken as farther than all others.")
                {
                    { Columns.Season, s => s.Season },
                    { Columns.Missions, s => s.PlacedMissions },
                    { Columns.Placed, s => s.Placed },
                    { Columns.BiasDownwind(unit), s => s.BiasDownwind.Value?.Select(unit.FromSi) },
                    { Columns.BiasRight(unit), s => s.BiasRight.Value?.Select(unit.FromSi) },
                    {
                        MissSummary.Percents.Index(), p => Columns.MissQuantile(p.Item, unit),
                        (s, p) => s.MissQuantiles[p.Index].Value?.Select(unit.FromSi)
                    },
                },
            ];
        }
    }

    private static string Side(Estimate value, Interval range, string plus, string minus, MeasureUnit unit)
    {
        if (range.Contains(0)) return $"not clearly {plus} or {minus}";
        var size = value.Value > 0 ? value : Estimate.Of(-value.Value, new Interval(-range.High, -range.Low));
        return $"{Rounding.Number(size.Select(unit.FromSi))} {unit.Name} {(value.Value > 0 ? plus : minus)}";
    }
}
