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
        points.Add(rates.BenchmarkSentence);
        var terrains = rates.Cells.Where(c => c.Cell.IsOfTerrain && c.Counted.Value?.Rate.Range is not null)
            .OrderBy(c => c.Counted.Value!.Rate.Value).ToList();
        if (terrains.Count > 1)
        {
            points.Add($"Terrain: lowest {Named(terrains[0], terrains[0].Terrain)}; highest {Named(terrains[^1], terrains[^1].Terrain)}."
                + (terrains[0].TargetRadii != terrains[^1].TargetRadii ? " Their target radii differ too." : ""));
        }
        var bands = rates.Cells.Where(c => c.Cell.IsOfBand && c.Counted.Value?.Rate.Range is not null).ToList();
        if (bands.Count > 1)
            points.Add($"Wind: {string.Join("; ", bands.Select(b => Named(b, b.Cell.Words(rates.Options.Bands))))}.");
        if (accuracy.Trend.Drift.Value?.Warning is { } drift) points.Add(drift);
        if (accuracy.Changes.Changes.Count > 0) points.Add(accuracy.Changes.Reading);
        if (intake.RowsQuarantined > 0)
            points.Add($"{Rounding.Count(intake.RowsQuarantined)} of {Rounding.Count(intake.RowsRead, "row")} could not be used"
                + (rates.Sharing is null ? "; each is listed with its reason in tables/quarantine.csv." : "."));
        points.Add("This is the landing rate: what the jumper flew is in it. "
            + "How often the forecast alone was right can't be told from it.");
        return new Brief($"{Rounding.Percent(all.Rate)} of landings came down inside "
            + $"the target radius ({Rounding.Percent(rates.Options.Confidence)} interval; {Rounding.Count(all.Missions, "mission")}, "
            + $"{Rounding.Count(all.Landings, "landing")}; {accuracy.Log.Name}, {JumpLog.Words(accuracy.Seasons)}).", points);
    }

    private static string Named(CellRate cell, string name) =>
        $"{name}: {Rounding.Percent(cell.Counted.Value!.Rate)}, {Rounding.Count(cell.Missions, "mission")}, "
        + $"{Rounding.Count(cell.Landings, "landing")}";
}
