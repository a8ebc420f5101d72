using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>"From" written for "to": a drift that goes against its wind, or an exit recorded downwind of the spot.</summary>
internal sealed class ReversalCheck : IRecordCheck
{
    /// <summary>Degrees from which two directions count as opposed.</summary>
    public const double Opposed = 150;

    private const int FewestDrops = 5;

    /// <summary>Metres; of a shorter drift a stick that flies the wrong way is as long.</summary>
    private const double LeastDrift = 200;

    /// <summary>Share of a group's rows from which the habit is the group's and not the row's.</summary>
    private const double Habit = 0.8;

    public string Name => "from and to";

    public CheckOutcome Look(CheckedLog log)
    {
        var (wind, exit) = (DriftAngles.AgainstWind(log), DriftAngles.AgainstExit(log));
        return new CheckOutcome(Name, wind.Count + exit.Count,
        [
            .. Flags(log, wind, "the forecast drift goes to where the wind comes from", "one of the two is written the other way round"),
            .. Flags(log, [.. exit.Where(IsFarEnough)], "the exit is recorded downwind of the spot",
                "its bearing is written from the exit, or the drift's from where it goes to"),
        ]);
    }

    /// <summary>
    /// A recorded exit is the first jumper's, so that half a stick and a slip of timing part it from the planned one: it counts only where
    /// it lies half a drift downwind of the spot, or upwind as it should.
    /// </summary>
    private static bool IsFarEnough(DropValue exit) =>
        exit.Drop.ForecastDrift.Length >= LeastDrift
        && Math.Abs(exit.Drop.Frame!.ToDownwind(exit.Drop.ActualExit!.Value).Along) >= exit.Drop.ForecastDrift.Length / 2;

    private IEnumerable<RecordFlag> Flags(CheckedLog log, IReadOnlyList<DropValue> angles, string found, string means)
    {
        var left = angles.Where(a => Math.Abs(a.Value) >= Opposed).Select(a => a.Drop).ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        foreach (var group in log.Groups)
        {
            var looked = angles.Where(a => group.Holds(a.Drop)).Select(a => a.Drop).ToList();
            var reversed = looked.Where(left.Contains).ToList();
            if (reversed.Count < FewestDrops || reversed.Count < Habit * looked.Count) continue;
            left.ExceptWith(reversed);
            yield return Flag(log, group.Group, reversed,
                $"in {Rounding.Count(reversed.Count)} of {Rounding.Count(looked.Count, "drop")} {found}; {means}.");
        }
        var rows = angles.Select(a => a.Drop).Where(left.Contains).ToList();
        if (rows.Count > 0)
            yield return Flag(log, RecordGroup.SingleRows, rows, $"in {Rounding.Count(rows.Count, "drop")} {found}; {means}.");
    }

    private RecordFlag Flag(CheckedLog log, RecordGroup group, IReadOnlyList<Drop> drops, string found)
    {
        var off = 2 * drops.Select(d => d.ForecastDrift.Length).Median();
        return new RecordFlag
        {
            Check = Name, Group = group, Rows = [.. drops.Select(d => d.Source)], Found = found,
            Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, drops.Count, "If the drift is the wrong one, long and short, "
                + $"right and left change places, and planned exits are off by twice the drift, {log.Length(off)} in the median (n = "
                + $"{Rounding.Count(drops.Count, "drop")})."),
            Rule = $"{Opposed} degrees or more apart",
            Try = "see in the load records which of the two is meant, and correct that column",
        };
    }
}
