using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// The landings of some missions one by one, for the debrief of those that drive a figure. People's codes are left out but the spotter's.
/// </summary>
public static class MissionSheet
{
    /// <summary>Makes the table, missions in order of time.</summary>
    /// <param name="landings">Landings of any missions.</param>
    /// <param name="missions">Ids of the missions wanted; others are left out.</param>
    /// <param name="options">Wind bands and units.</param>
    public static TableView Of(IReadOnlyList<Landing> landings, IReadOnlyCollection<string> missions, AccuracyOptions options)
    {
        var unit = options.Units.Distance;
        var rows = landings.Where(l => missions.Contains(l.Drop.Mission))
            .OrderBy(l => l.Drop.Time).ThenBy(l => DropOrder.RowInDay(l.Drop))
            .ThenBy(l => l.Drop.Id, StringComparer.Ordinal).ThenBy(l => l.ExitOrder ?? int.MaxValue);
        return new TableOf<Landing>("mission-landings", "These missions, landing by landing", rows)
        {
            { Columns.Mission, l => l.Drop.Mission },
            { Columns.FlownOn, l => l.Drop.Time.Date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture) },
            { Columns.SpotterCode, l => l.Drop.Spotter }, { Columns.DropId, l => l.Drop.Id },
            { Columns.WindBand with { Label = $"wind band ({options.Bands.Unit.Suffix})" }, l => options.Bands.LabelOf(l.Drop.WindSpeed) },
            { Columns.Terrain, l => l.Drop.Terrain }, { Columns.StreamerMinutes, l => l.Drop.StreamerAge / 60 },
            {
                Measure("forecast_drift", "forecast drift", "Length of the drift that was forecast."),
                l => unit.FromSi(l.Drop.ForecastDrift.Length)
            },
            { Columns.OrderOfExit, l => l.ExitOrder },
            { Measure("miss", "miss distance", "Distance from the spot to the landing."), l => unit.FromSi(l.MissDistance) },
            { Measure("downwind", "downwind", "Miss along the forecast drift, + long."), l => unit.FromSi(l.MissDownwind?.Along) },
            { Measure("right", "right", "Miss across the forecast drift, + right of it."), l => unit.FromSi(l.MissDownwind?.Across) },
            { Measure("beyond", "beyond", "The landing lies farther than this; its place is unknown."), l => unit.FromSi(l.Beyond) },
            { Columns.Outcome, l => l.Outcome.ToString().ToLowerInvariant() },
        };

        TableColumn Measure(string name, string label, string meaning) => Columns.Measure(name, label, unit, meaning);
    }
}
