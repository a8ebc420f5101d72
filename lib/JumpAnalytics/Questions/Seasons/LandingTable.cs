namespace JumpAnalytics;

/// <summary>Landings one by one, in the downwind frame, for a reader's own questions. People's codes are left out.</summary>
public static class LandingTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="landings">Landings.</param>
    /// <param name="options">Wind bands and units.</param>
    public static TableView Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        return new TableView("landings", "Landings one by one",
            [
                Columns.DropId, Columns.Mission, Columns.Season, Columns.WindBand, Columns.Terrain,
                Columns.Measure("target_radius", "target radius", unit, "Radius round the spot that counts as a good landing."),
                Columns.Measure("miss", "miss distance", unit, "Distance from the spot to the landing."),
                Columns.Measure("downwind", "downwind", unit, "Miss along the forecast drift, + long."),
                Columns.Measure("right", "right", unit, "Miss across the forecast drift, + right of it."),
                Columns.Measure("beyond", "beyond", unit, "The landing lies farther than this; its place is unknown."),
                Columns.Outcome,
            ],
            [.. landings.Select(l => new object?[]
            {
                l.Drop.Id, l.Drop.Mission, l.Drop.Season, options.Bands.LabelOf(l.Drop.WindSpeed), l.Drop.Terrain,
                unit.FromSi(l.Drop.TargetRadius), Report(l.MissDistance), Report(l.MissDownwind?.Along), Report(l.MissDownwind?.Across), Report(l.Beyond),
                l.Outcome.ToString().ToLowerInvariant(),
            })]);

        object? Report(double? metres) => metres is { } m ? unit.FromSi(m) : null;
    }
}
