namespace JumpAnalytics;

/// <summary>
/// The season on one screen: the rate, how it stands to the benchmark, where it is worse, what changed, what could not be used.
/// </summary>
internal static class SeasonBrief
{
    public static Brief Of(SeasonAccuracy accuracy)
    {
        var (rates, intake) = (accuracy.Rates, accuracy.Log.Intake);
        var points = new List<string>();
        if (accuracy.Log.Notice is { } notice) points.Add(notice);
        if (rates.Sharing is not null)
            points.Add("A report to hand on: cells of few people are withheld, and so is what could give people or such cells away.");
        if (rates.Overall.Counted is not { Success: true, Value: var all })
            return new Brief($"No rate can be given: {rates.Overall.Counted.Reason}.", [.. points, intake.Reading]);
        var readings = accuracy.Readings;
        points.AddRange(rates.Sharing is not null
            ? [rates.BenchmarkSentence, "Rounded distances and landings that were not written down are not allowed for in this report."]
            : readings.Points);
        if (Terrains(rates) is { } terrains) points.Add(terrains);
        var bands = rates.Cells.Where(c => c.Cell.IsOfBand && c.Counted.Value?.Rate.Range is not null).ToList();
        if (bands.Count > 1)
            points.Add($"Wind: {string.Join("; ", bands.Select(b => Named(b, b.Cell.Words(rates.Options.Bands))))}.");
        if (accuracy.Trend.Drift.Value?.Warning is { } drift) points.Add(drift);
        if (accuracy.Changes.Changes.Count > 0) points.Add(accuracy.Changes.Reading);
        if (intake.RowsQuarantined > 0)
            points.Add($"{Rounding.Count(intake.RowsQuarantined)} of {Rounding.Count(intake.RowsRead, "row")} could not be used"
                + (rates.Sharing is null ? "; each is listed with its reason in tables/quarantine.csv." : "."));
        points.Add("This is the landing rate: what the jumper flew is in it. It does not say how often the forecast alone was right.");
        return new Brief(rates.Sharing is null ? readings.Reading
            : $"{Rounding.Percent(all.Rate)} of landings came down inside "
                + $"the target radius ({Rounding.Percent(rates.Options.Confidence)} interval; {Rounding.Count(all.Missions, "mission")}, "
                + $"{Rounding.Count(all.Landings, "landing")}; {accuracy.Log.Name}, {JumpLog.Words(accuracy.Seasons)}).", points);
    }

    /// <summary>The lowest and the highest terrain where their intervals lie apart, else all of them as not clearly different.</summary>
    private static string? Terrains(RateTable rates)
    {
        var terrains = rates.Cells.Where(c => c.Cell.IsOfTerrain && c.Counted.Value?.Rate.Range is not null)
            .OrderBy(c => c.Counted.Value!.Rate.Value).ToList();
        if (terrains.Count < 2) return null;
        var (low, high) = (terrains[0], terrains[^1]);
        var apart = low.Counted.Value!.Rate.Range!.Value.High < high.Counted.Value!.Rate.Range!.Value.Low;
        return (apart ? $"Terrain: lowest {Named(low, low.Terrain)}; highest {Named(high, high.Terrain)}."
                : $"Terrain: no clear difference between {string.Join("; ", terrains.Select(t => Named(t, t.Terrain)))}.")
            + (low.TargetRadii != high.TargetRadii ? " Their target radii differ too." : "");
    }

    private static string Named(CellRate cell, string name) =>
        $"{name}: {Rounding.Percent(cell.Counted.Value!.Rate)}, {Rounding.Count(cell.Missions, "mission")}, "
        + $"{Rounding.Count(cell.Landings, "landing")}";
}
