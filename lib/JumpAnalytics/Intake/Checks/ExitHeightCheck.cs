using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Exit heights above sea level where they should be above ground: heights that grow with the elevation of the spot.</summary>
internal sealed class ExitHeightCheck : IRecordCheck
{
    private const int FewestDrops = 5;

    public string Name => "exit height above ground";

    private sealed record HeightRow(Drop Drop, double Above, double Elevation, string? Canopy);

    public CheckOutcome Look(CheckedLog log)
    {
        var heights = log.Log.Drops.Where(d => d.ExitHeight is not null && d.SpotElevation is not null)
            .Select(d => new HeightRow(d, d.ExitHeight!.Value, d.SpotElevation!.Value, log.CanopyOf(d))).ToList();
        var (flags, left) = (new List<RecordFlag>(), heights);
        foreach (var group in log.Groups)
        {
            var rows = left.Where(h => group.Holds(h.Drop)).ToList();
            if (Slope(log, rows) is not { } slope) continue;
            left = [.. left.Except(rows)];
            flags.Add(Flag(log, group.Group, rows, $"exit heights of {Rounding.Count(rows.Count, "drop")} "
                + $"grow {Rounding.Fixed(slope.Value, 2)} m ({Rounding.Fixed(slope.Range.Low, 2)} "
                + $"to {Rounding.Fixed(slope.Range.High, 2)}) with each metre of the spot's elevation, as heights above sea level do.",
                slope.PValue, "t test of the slope over elevation, canopies apart"));
        }
        var single = left.GroupBy(h => h.Canopy).Where(g => g.Count() >= FewestDrops).SelectMany(AboveSea).ToList();
        if (single.Count > 0)
            flags.Add(Flag(log, RecordGroup.SingleRows, single,
                $"in {Rounding.Count(single.Count, "drop")} the exit height is about the usual one plus the spot's elevation.", null,
                "within 5 robust standard deviations of usual height + elevation, and as far above the usual height"));
        return new CheckOutcome(Name, heights.Count, flags);
    }

    /// <summary>Slope of height over elevation with the canopies' means taken off; null unless it is near 1, and strongly so.</summary>
    private static (double Value, Interval Range, double PValue)? Slope(CheckedLog log, List<HeightRow> rows)
    {
        var (points, canopies) = (new List<(double X, double Y, string Mission)>(), 0);
        foreach (var canopy in rows.GroupBy(h => h.Canopy).Where(g => g.Count() > 1))
        {
            var (x, y) = (canopy.Average(h => h.Elevation), canopy.Average(h => h.Above));
            points.AddRange(canopy.Select(h => (h.Elevation - x, h.Above - y, h.Drop.Mission)));
            canopies++;
        }
        var missions = points.GroupBy(p => p.Mission).ToList();
        var spread = points.Sum(p => p.X * p.X);
        if (missions.Count - canopies - 1 < FewestDrops - 2 || !(spread > 0)) return null;
        var slope = points.Sum(p => p.X * p.Y) / spread;
        var variance = missions.Sum(m => Math.Pow(m.Sum(p => p.X * (p.Y - slope * p.X)), 2)) / (spread * spread)
            * missions.Count / (missions.Count - canopies - 1);
        var (error, freedom) = (Math.Max(Math.Sqrt(variance), 1e-9), missions.Count - canopies - 1);
        var allowed = log.Allowing(2 * StudentT.CDF(0, 1, freedom, -Math.Abs(slope) / error), log.Groups.Count);
        var half = error * QuantileOf.T(freedom, TailShare.Middle(log.Options.Confidence));
        return slope is > 0.6 and < 1.4 && log.IsStrong(allowed) ? (slope, new Interval(slope - half, slope + half), allowed) : null;
    }

    private static IEnumerable<HeightRow> AboveSea(IEnumerable<HeightRow> canopy)
    {
        var all = canopy.ToList();
        var usual = all.Select(h => h.Above).Median();
        var scale = Math.Max(1.4826 * all.Select(h => Math.Abs(h.Above - usual)).Median(), 0.02 * usual);
        return all.Where(h => h.Above - usual > Math.Max(5 * scale, 0.15 * usual) && Math.Abs(h.Above - usual - h.Elevation) < 5 * scale);
    }

    private RecordFlag Flag(CheckedLog log, RecordGroup group, IReadOnlyList<HeightRow> rows, string found, double? p, string rule)
    {
        var factor = rows.Select(h => h.Above / Math.Max(h.Above - h.Elevation, 1)).Median();
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. rows.Select(h => h.Drop.Source)], Found = found, PValue = p, Rule = rule,
            Harm = new FlagHarm(100 * (factor - 1), "percent", rows.Count,
                "Descent time, and a drift computed from it, "
                    + $"would be {Rounding.Fixed(factor, 1)} times too long in the median (n = {Rounding.Count(rows.Count, "drop")}): "
                    + $"{log.Length((factor - 1) * rows.Select(h => h.Drop.ForecastDrift.Length).Median())} for the median drift."),
            Try = "take the spot's elevation off these heights, or ask what the altimeter was set to",
        };
    }
}
