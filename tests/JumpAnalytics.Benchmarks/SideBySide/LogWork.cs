using System.Globalization;

namespace JumpAnalytics.Benchmarks;

/// <summary>A log of many landings from its files to counts, rates and their errors between missions by cell.</summary>
internal static class LogWork
{
    private const int PerDrop = 4;

    public static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, int size)
    {
        var log = Path.Combine(folder, "log");
        Directory.CreateDirectory(log);
        Write(log, size / PerDrop);
        var bands = WindBands.Parse("0,2,4,6", MeasureUnit.Speed("mps"));
        return () =>
        {
            var read = JumpLog.Read(log);
            var cells = read.Landings.GroupBy(l => (bands.LabelOf(l.Drop.WindSpeed), l.Drop.Terrain)).AsParallel().AsOrdered()
                .Select(c => MissionSample.Of(c).CountedRate(0.95).Value!).ToList();
            return new Dictionary<string, double>
            {
                ["landings"] = cells.Sum(c => c.Landings), ["hits"] = cells.Sum(c => c.Hits), ["cells"] = cells.Count,
                ["se"] = cells.Sum(c => c.StandardError!.Value),
            };
        };
    }

    /// <summary>Sound rows, and one in a thousand that can't be used.</summary>
    private static void Write(string folder, int drops)
    {
        var dice = new Random(1);
        using var d = new StreamWriter(Path.Combine(folder, "drops.csv"));
        using var l = new StreamWriter(Path.Combine(folder, "landings.csv"));
        d.Write("drop_id,mission,time,terrain,target_radius_m,wind_speed_mps,forecast_drift_m,forecast_to_deg\n");
        l.Write("drop_id,jumper,landing_distance_m,landing_bearing_deg\n");
        for (var i = 0; i < drops; i++)
        {
            d.Write(string.Create(CultureInfo.InvariantCulture, $"D{i},M{i / 2},2026-07-{1 + i % 28:00}T{10 + i % 9}:{i % 60:00},"
                + $"{(i % 3 == 0 ? "meadow" : i % 3 == 1 ? "timber" : "sage")},45,"));
            d.Write(string.Create(CultureInfo.InvariantCulture,
                $"{(i % 1000 == 7 ? "light" : $"{8 * dice.NextDouble():0.0}")},{dice.Next(50, 500)},{dice.Next(360)}\n"));
            for (var j = 1; j <= PerDrop; j++)
                l.Write(string.Create(CultureInfo.InvariantCulture, $"D{i},J{i % 900}-{j},"
                    + $"{(i % 1000 == 11 ? "close" : $"{-25 * Math.Log(1 - dice.NextDouble()):0.0}")},{dice.Next(360)}\n"));
        }
    }
}
