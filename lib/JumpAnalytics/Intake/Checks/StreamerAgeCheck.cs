using System.Globalization;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Ages of the streamers at exit that can't be, or that a clock an hour off would make.</summary>
internal sealed class StreamerAgeCheck : IRecordCheck
{
    /// <summary>
    /// Seconds; the fall of a streamer alone takes about so long (1,500 ft at a canopy's rate). Common practice, no source.
    /// </summary>
    private const double Shortest = 75;

    /// <summary>Seconds; older forecasts are not used as they stand. Common practice, no source.</summary>
    private const double Longest = 3600;

    /// <summary>Minutes that two clocks may differ by on purpose: whole hours between zones and summer time.</summary>
    private static readonly double[] _hours = [60, 120, 180, 240, 300, 360, 420, 480, 540, 600];

    public string Name => "age of the streamers";

    public CheckOutcome Look(CheckedLog log)
    {
        var aged = log.Log.Drops.Where(d => d.StreamerAge is not null).ToList();
        var flags = new List<RecordFlag>();
        var before = log.Log.Intake.SetAside.Where(p => p.Column.Equals("streamer_minutes", StringComparison.OrdinalIgnoreCase)
            && double.TryParse(p.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var minutes) && minutes < 0).ToList();
        if (before.Count > 0)
        {
            flags.Add(Flag(log, RecordGroup.SingleRows, [.. before.Select(p => p.Source)],
                $"in {Rounding.Count(before.Count, "drop")} the exit comes before the streamers "
                    + $"({string.Join(", ", before.Take(5).Select(p => p.Value))}{(before.Count > 5 ? " …" : "")} min).",
                before.Select(p => -double.Parse(p.Value, CultureInfo.InvariantCulture)).Median(), "an age below zero"));
        }
        if (aged.Count == 0) return new CheckOutcome(Name, before.Count, flags);
        var usual = aged.Where(d => d.StreamerAge is >= Shortest and <= Longest).Select(d => d.StreamerAge!.Value / 60).ToList();
        var left = aged.Where(d => d.StreamerAge > Longest).ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        foreach (var group in log.Groups)
        {
            var rows = group.Drops.Where(d => d.StreamerAge is not null).ToList();
            var old = rows.Where(left.Contains).ToList();
            if (old.Count < 3 || old.Count < 0.5 * rows.Count) continue;
            left.ExceptWith(old);
            flags.Add(Old(log, group.Group, old, usual));
        }
        var single = aged.Where(left.Contains).ToList();
        if (single.Count > 0) flags.Add(Old(log, RecordGroup.SingleRows, single, usual));
        var young = aged.Where(d => d.StreamerAge < Shortest).ToList();
        if (young.Count > 0)
        {
            flags.Add(Flag(log, RecordGroup.SingleRows, [.. young.Select(d => d.Source)],
                $"in {Rounding.Count(young.Count, "drop")} the streamers had not come down at the exit.", Shortest / 60,
                $"an age under {Rounding.Fixed(Shortest / 60, 2)} min, the fall of a streamer (common practice, no source)"));
        }
        return new CheckOutcome(Name, aged.Count + before.Count, flags);
    }

    private RecordFlag Old(CheckedLog log, RecordGroup group, IReadOnlyList<Drop> drops, IReadOnlyList<double> usual)
    {
        var minutes = drops.Select(d => d.StreamerAge!.Value / 60).Median();
        var middle = usual.Count > 0 ? usual.Median() : 10;
        var nearest = _hours.MinBy(h => Math.Abs(minutes - h - middle));
        var clock = minutes - nearest is > 0 and < 30;
        return Flag(log, group, [.. drops.Select(d => d.Source)],
            $"in {Rounding.Count(drops.Count, "drop")} the streamers were older than an hour (median {Rounding.Fixed(minutes, 0)} min)"
            + (clock ? $"; a clock {Rounding.Fixed(nearest, 0)} min off would leave "
                + $"{Rounding.Fixed(minutes - nearest, 0)} min, as is usual here." : "."),
            clock ? nearest : minutes - middle, $"an age over {Rounding.Fixed(Longest / 60, 0)} min (common practice, no source)");
    }

    private RecordFlag Flag(CheckedLog log, RecordGroup group, IReadOnlyList<RowSource> rows, string found, double minutes, string rule) =>
        new()
        {
            Check = Name, Group = group, Rows = rows, Found = found, Rule = rule,
            Harm = new FlagHarm(minutes, "min", rows.Count, $"Ages are off by {Rounding.Fixed(minutes, 0)} min in the median, "
                + $"out of {Rounding.Count(log.Log.Drops.Count, "drop")} (n = {Rounding.Count(rows.Count, "drop")}): what ageing does to a "
                + "forecast would be read wrongly, and no miss is touched."),
            Try = "compare the clock of the streamers with that of the exit: zone, summer time, hours and minutes changed about",
        };
}
