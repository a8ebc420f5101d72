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
        var seasons = landings.GroupBy(l => l.Drop.Season).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => MissSummary.Of(g.Key, g, options)).ToList();
        seasons.Add(MissSummary.Of(JumpLog.All, landings, options));
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
            var text = $"{Rounding.Count(Seasons.Count - 1, "season")}, {Rounding.Count(all.Rate.Value.Missions, "mission")}, {Rounding.Count(all.Rate.Value.Landings, "landing")} "
                + $"that can be told a hit or a miss; {Rounding.Percent(all.Rate.Value.Rate)} inside the target radius.";
            if (all.MissQuantiles[0].Value is { } median)
                text += $" Half of the landings lie within {Rounding.Number(median.Select(unit.FromSi))} {unit.Name} of the spot.";
            if (all.BiasDownwind.Value is { Range: { } along } down && all.BiasRight.Value is { Range: { } across } right)
            {
                text += $" On average they lie {Side(down, along, "long", "short", unit)}, and {Side(right, across, "right", "left", unit)} of the forecast line"
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
                new("seasons", "Landing rate by season",
                    [Columns.Season, Columns.Missions, Columns.Landings, Columns.Hits, Columns.Rate, Columns.Icc, Columns.Placed, Columns.BeyondMisses, Columns.Undecided],
                    [.. Seasons.Select(s => new object?[]
                    {
                        s.Season, s.Rate.Value?.Missions ?? 0, s.Rate.Value?.Landings ?? 0, s.Rate.Value?.Hits ?? 0, s.Rate.Value?.Rate, s.Rate.Value?.IntraclassCorrelation,
                        s.Placed, s.BeyondMisses, s.Undecided,
                    })],
                    $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions, as in the rate table. Likeness within a mission: 0 when its landings are as unlike as any, 1 when they share one fate. "
                    + "Placed: the place is known. Beyond: known only as beyond the target radius. Undecided: beyond a shorter distance."),
                new("misses-by-season", "How far and which way",
                    [Columns.Season, Columns.Missions, Columns.Placed, Columns.BiasDownwind(unit), Columns.BiasRight(unit), .. MissSummary.Percents.Select(p => Columns.MissQuantile(p, unit))],
                    [.. Seasons.Select(s => (object?[])
                    [
                        s.Season, s.PlacedMissions, s.Placed, s.BiasDownwind.Value?.Select(unit.FromSi), s.BiasRight.Value?.Select(unit.FromSi),
                        .. s.MissQuantiles.Select(q => q.Value?.Select(unit.FromSi)),
                    ])],
                    $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions: bias, t on missions − 1; distances, bootstrap over missions "
                    + $"({Rounding.Count(Options.Replicates)} resamples, seed {Options.Seed}). A landing known only as beyond a distance is taken as farther than all others."),
            ];
        }
    }

    private static string Side(Estimate value, Interval range, string plus, string minus, MeasureUnit unit)
    {
        if (range.Contains(0)) return $"neither {plus} nor {minus} as far as can be told";
        var size = value.Value > 0 ? value : Estimate.Of(-value.Value, new Interval(-range.High, -range.Low));
        return $"{Rounding.Number(size.Select(unit.FromSi))} {unit.Name} {(value.Value > 0 ? plus : minus)}";
    }
}
