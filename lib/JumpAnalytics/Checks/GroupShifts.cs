using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>A value of one drop that is zero on average when the record is sound.</summary>
internal readonly record struct DropValue(Drop Drop, double Value, double Weight = 1);

/// <summary>A group whose values lie off zero, or off the rest.</summary>
internal sealed record Shift(DropGroup Group, double Value, Interval Range, double PValue, int Missions, IReadOnlyList<Drop> Drops);

/// <summary>
/// Finds groups whose values are shifted. The mission is the unit: its value is the median of its drops. Values farther than 4 robust standard
/// deviations (1.4826 times the median absolute deviation) from the median are drawn in to there. Student's t on the missions, the degrees of
/// freedom from the weights (Kish: (Σw)² / Σw² − 1).
/// </summary>
/// <remarks>The strongest group is taken first, its shift taken off, and the rest looked at again, so that one slip is told once.</remarks>
internal sealed class GroupShifts(CheckedLog log, double leastShift, bool againstRest, int looksTimes = 1)
{
    private const int FewestMissions = 5, Most = 8;

    public List<Shift> Find(IReadOnlyList<DropValue> values)
    {
        var found = new List<Shift>();
        var groups = log.Groups.Skip(againstRest ? 1 : 0).ToList();
        var left = values.ToList();
        while (found.Count < Most)
        {
            var strongest = groups.Except(found.Select(f => f.Group)).Select(g => Test(g, left, groups.Count * looksTimes)).OfType<Shift>()
                .Where(s => Math.Abs(s.Value) >= leastShift && log.IsStrong(s.PValue))
                .MinBy(s => (s.PValue, -Math.Abs(s.Value)));
            if (strongest is null) break;
            found.Add(strongest);
            left = [.. left.Select(v => strongest.Group.Holds(v.Drop) ? v with { Value = v.Value - strongest.Value } : v)];
        }
        return found;
    }

    private Shift? Test(DropGroup group, List<DropValue> values, int looks)
    {
        var inside = values.Where(v => group.Holds(v.Drop)).ToList();
        if (Mean(inside) is not { } mean) return null;
        var (value, variance, freedom) = (mean.Value, mean.Variance, mean.Freedom);
        if (againstRest)
        {
            if (Mean([.. values.Where(v => !group.Holds(v.Drop))]) is not { } rest) return null;
            (value, variance, freedom) = (value - rest.Value, variance + rest.Variance, Math.Min(freedom, rest.Freedom));
        }
        if (!(variance > 0)) return null;
        var error = Math.Sqrt(variance);
        var p = 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(value) / error);
        var half = StudentT.InvCDF(0, 1, freedom, (1 + log.Options.Confidence) / 2) * error;
        return new Shift(group, value, new Interval(value - half, value + half), log.Allowing(p, looks), mean.Missions, [.. inside.Select(v => v.Drop)]);
    }

    private static (double Value, double Variance, double Freedom, int Missions)? Mean(List<DropValue> values)
    {
        var missions = values.GroupBy(v => v.Drop.Mission).Select(m => (Value: m.Select(v => v.Value).Median(), Weight: m.Sum(v => v.Weight))).ToList();
        if (missions.Count < FewestMissions) return null;
        var middle = missions.Select(m => m.Value).Median();
        var scale = 1.4826 * missions.Select(m => Math.Abs(m.Value - middle)).Median();
        if (scale > 0) missions = [.. missions.Select(m => m with { Value = Math.Clamp(m.Value, middle - 4 * scale, middle + 4 * scale) })];
        var sum = missions.Sum(m => m.Weight);
        var mean = missions.Sum(m => m.Weight * m.Value) / sum;
        var n = missions.Count;
        var variance = missions.Sum(m => Math.Pow(m.Weight * (m.Value - mean), 2)) / (sum * sum) * n / (n - 1);
        var freedom = sum * sum / missions.Sum(m => m.Weight * m.Weight) - 1;
        return freedom < 2 ? null : (mean, variance, freedom, n);
    }
}
