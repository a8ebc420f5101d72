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
        return new TableOf<Landing>("landings", "Landings one by one", landings)
        {
            { Columns.DropId, l => l.Drop.Id },
            { Columns.Mission, l => l.Drop.Mission },
            { Columns.Season, l => l.Drop.Season },
            { Columns.WindBand, l => options.Bands.LabelOf(l.Drop.WindSpeed) },
            { Columns.Terrain, l => l.Drop.Terrain },
            {
                Columns.Measure("target_radius", "target radius", unit, "Radius round the spot that counts as a good landing."),
                l => Report(l.Drop.TargetRadius)
            },
            { Columns.Measure("miss", "miss distance", unit, "Distance from the spot to the landing."), l => Report(l.MissDistance) },
            { Columns.Measure("downwind", "downwind", unit, "Miss along the forecast drift, + long."), l => Report(l.MissDownwind?.Along) },
            {
                Columns.Measure("right", "right", unit, "Miss across the forecast drift, + right of it."),
                l => Report(l.MissDownwind?.Across)
            },
            {
                Columns.Measure("beyond", "beyond", unit, "The landing lies farther than this; its place is unknown."),
                l => Report(l.Beyond)
            },
            { Columns.Outcome, l => l.Outcome.ToString().ToLowerInvariant() },
        };

        object? Report(double? metres) => metres is { } m ? unit.FromSi(m) : null;
    }
}
