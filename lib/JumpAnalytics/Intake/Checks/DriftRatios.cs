using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// The forecast drift of each drop over what its wind makes of its canopy's descent time: D = W t (a canopy that is not steered goes
/// with the air). The descent time is the log's own: median of drift / wind of the canopy, times exit height over the canopy's
/// median exit height where recorded.
/// </summary>
internal sealed class DriftRatios
{
    /// <summary>Metres per second; in lighter winds rounding alone makes the ratio worthless.</summary>
    private const double LeastWind = 0.9;

    private const int FewestDrops = 5;

    /// <summary>Heights farther from the canopy's median than this ratio are not trusted to scale the descent time.</summary>
    private const double HeightTrusted = 1.3;

    private DriftRatios(IReadOnlyList<CanopyDrift> canopies, IReadOnlyList<DropValue> logs) => (Canopies, Logs) = (canopies, logs);

    /// <summary>What the log says of one canopy: descent time in seconds and exit height in metres, medians.</summary>
    internal sealed record CanopyDrift(string? Name, double Seconds, double? Height, int Drops);

    public IReadOnlyList<CanopyDrift> Canopies { get; }

    /// <summary>Natural logarithm of the ratio; 0 is what the log's drops do on average.</summary>
    public IReadOnlyList<DropValue> Logs { get; }

    public static DriftRatios Of(CheckedLog log)
    {
        var drops = log.Log.Drops.Where(d => d.WindSpeed >= LeastWind && d.ForecastDrift.Length > 0)
            .GroupBy(log.CanopyOf).Where(g => g.Count() >= FewestDrops).ToList();
        if (drops.Count > 1) drops.RemoveAll(g => g.Key is null); // canopies differ, so a drop that does not tell its own can't be judged
        var (canopies, logs) = (new List<CanopyDrift>(), new List<DropValue>());
        foreach (var group in drops)
        {
            var heights = group.Select(d => d.ExitHeight).OfType<double>().ToList();
            double? usual = heights.Count >= FewestDrops ? heights.Median() : null;
            var raw = group.Select(d => (Drop: d, Log: Math.Log(d.ForecastDrift.Length / d.WindSpeed) - HeightLog(d, usual))).ToList();
            var centre = raw.Select(r => r.Log).Median();
            canopies.Add(new CanopyDrift(group.Key, Math.Exp(centre), usual, raw.Count));
            logs.AddRange(raw.Select(r => new DropValue(r.Drop, r.Log - centre)));
        }
        return new DriftRatios(canopies, logs);
    }

    private static double HeightLog(Drop drop, double? usual) =>
        drop.ExitHeight is { } height && usual is { } middle && height / middle is > 1 / HeightTrusted and < HeightTrusted
            ? Math.Log(height / middle) : 0;
}
