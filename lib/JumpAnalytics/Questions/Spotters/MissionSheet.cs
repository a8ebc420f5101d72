using System.Globalization;

namespace JumpAnalytics;

/// <summary>The landings of some missions one by one, for the debrief of those that drive a figure. People's codes are left out but the spotter's.</summary>
public static class MissionSheet
{
    /// <summary>Makes the table, missions in order of time.</summary>
    /// <param name="landings">Landings of any missions.</param>
    /// <param name="missions">Ids of the missions wanted; others are left out.</param>
    /// <param name="options">Wind bands and units.</param>
    public static TableView Of(IReadOnlyList<Landing> landings, IReadOnlyCollection<string> missions, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        var rows = landings.Where(l => missions.Contains(l.Drop.Mission)).OrderBy(l => l.Drop.Time).ThenBy(l => l.Drop.Id, StringComparer.Ordinal).ThenBy(l => l.ExitOrder ?? int.MaxValue);
        return new TableView("mission-landings", "These missions, landing by landing",
            [
                Columns.Mission, Columns.FlownOn, Columns.SpotterCode, Columns.DropId, Columns.WindBand with { Label = $"wind band ({options.Bands.Unit.Suffix})" }, Columns.Terrain,
                Columns.StreamerMinutes, Columns.Measure("forecast_drift", "forecast drift", unit, "Length of the drift that was forecast."), Columns.OrderOfExit,
                Columns.Measure("miss", "miss distance", unit, "Distance from the spot to the landing."),
                Columns.Measure("downwind", "downwind", unit, "Miss along the forecast drift, + long."),
                Columns.Measure("right", "right", unit, "Miss across the forecast drift, + right of it."),
                Columns.Measure("beyond", "beyond", unit, "The landing lies farther than this; its place is unknown."),
                Columns.Outcome,
            ],
            [.. rows.Select(l => new object?[]
            {
                l.Drop.Mission, l.Drop.Time.Date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), l.Drop.Spotter, l.Drop.Id, options.Bands.LabelOf(l.Drop.WindSpeed), l.Drop.Terrain,
                l.Drop.StreamerAge / 60, unit.FromSi(l.Drop.ForecastDrift.Length), l.ExitOrder, Report(l.MissDistance), Report(l.MissDownwind?.Along), Report(l.MissDownwind?.Across), Report(l.Beyond),
                l.Outcome.ToString().ToLowerInvariant(),
            })]);

        object? Report(double? metres) => metres is { } m ? unit.FromSi(m) : null;
    }
}
