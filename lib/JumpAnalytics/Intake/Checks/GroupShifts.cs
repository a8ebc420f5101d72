using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>A value of one drop that is zero on average when the record is sound.</summary>
internal readonly record struct DropValue(Drop Drop, double Value, double Weight = 1);

/// <summary>A group whose values lie off zero, or off the rest; the statistic is the value over its standard error.</summary>
internal sealed record Shift(DropGroup Group, double Value, double Statistic, Interval Range, double PValue,
    int Missions, IReadOnlyList<Drop> Drops);

/// <summary>
/// Finds groups whose values are shifted. The mission is the unit: its value is the median of its drops. Values farther than 4
/// robust standard deviations (80 % of the absolute deviations from the median lie within 1.2816 of them) are drawn in to there.
/// Student's t on the missions, the degrees of freedom from the weights (Kish: (Σw)² / Σw² − 1). A group's scatter is never taken
/// below the whole log's, and where that stands in for it, so do its degrees of freedom: bearings written in fives make a few
/// missions look equal to the last digit.
/// </summary>
/// <remarks>The strongest group is taken first, its shift taken off, and the rest looked at again, so that one slip is told once.</remarks>
internal sealed class GroupShifts(CheckedLog log, double leastShift, bool againstRest, int looksTimes = 1)
{
    private const int FewestMissions = 5, Most = 8;

    private readonly record struct MissionValue(double Value, double Weight);

    /// <summary>Robust standard deviation of a mission of mean weight, and its degrees of freedom.</summary>
    private readonly record struct Spread(double Sd, double Freedom);

    public List<Shift> Find(IReadOnlyList<DropValue> values)
    {
        var found = new List<Shift>();
        var groups = log.Groups.Skip(againstRest ? 1 : 0).ToList();
        var left = values.ToList();
        while (found.Count < Most)
        {
            var scatter = new Spread(Scatter(Missions(left)), left.Select(v => v.Drop.Mission).Distinct().Count() - 1);
            var strongest = groups.Except(found.Select(f => f.Group))
                .Select(g => Test(g, left, scatter, groups.Count * looksTimes)).OfType<Shift>()
                .Where(s => Math.Abs(s.Value) >= leastShift && log.IsStrong(s.PValue))
                .MaxBy(s => Math.Abs(s.Statistic));
            if (strongest is null) break;
            found.Add(strongest);
            left = [.. left.Select(v => strongest.Group.Holds(v.Drop) ? v with { Value = v.Value - strongest.Value } : v)];
        }
        return found;
    }

    private Shift? Test(DropGroup group, List<DropValue> values, Spread scatter, int looks)
    {
        var inside = values.Where(v => group.Holds(v.Drop)).ToList();
        if (Mean(inside, scatter) is not { } mean) return null;
        var (value, variance, freedom) = (mean.Value, mean.Variance, mean.Freedom);
        if (againstRest)
        {
            if (Mean([.. values.Where(v => !group.Holds(v.Drop))], scatter) is not { } rest) return null;
            (value, variance, freedom) = (value - rest.Value, variance + rest.Variance, Math.Min(freedom, rest.Freedom));
        }
        if (!(variance > 0)) return null;
        var error = Math.Sqrt(variance);
        var p = 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(value) / error);
        var half = QuantileOf.T(freedom, TailShare.Middle(log.Options.Confidence)) * error;
        return new Shift(group, value, value / error, new Interval(value - half, value + half), log.Allowing(p, looks),
            mean.Missions, [.. inside.Select(v => v.Drop)]);
    }

    private static List<MissionValue> Missions(List<DropValue> values) =>
        [.. values.GroupBy(v => v.Drop.Mission).Select(m => new MissionValue(m.Select(v => v.Value).Median(), m.Sum(v => v.Weight)))];

    /// <summary>
    /// Robust standard deviation of a mission of mean weight; the variance of a value goes as one over its weight. The median absolute
    /// deviation would not do: of directions written in fives more than half may be equal.
    /// </summary>
    private static double Scatter(List<MissionValue> missions)
    {
        if (missions.Count == 0) return 0;
        var (middle, weight) = (missions.Select(m => m.Value).Median(), missions.Average(m => m.Weight));
        return missions.Select(m => Math.Abs(m.Value - middle) * Math.Sqrt(m.Weight / weight)).Quantile(0.8) / 1.2816;
    }

    private static (double Value, double Variance, double Freedom, int Missions)? Mean(List<DropValue> values, Spread scatter)
    {
        var missions = Missions(values);
        var n = missions.Count;
        if (n < FewestMissions) return null;
        var (sum, middle) = (missions.Sum(m => m.Weight), missions.Select(m => m.Value).Median());
        var limit = 4 * Math.Max(Scatter(missions), scatter.Sd);
        if (limit > 0)
            missions = [.. missions.Select(m => m with { Value =
                Math.Clamp(m.Value, middle - limit * Math.Sqrt(sum / n / m.Weight), middle + limit * Math.Sqrt(sum / n / m.Weight)) })];
        var mean = missions.Sum(m => m.Weight * m.Value) / sum;
        var variance = missions.Sum(m => Math.Pow(m.Weight * (m.Value - mean), 2)) / (sum * sum) * n / (n - 1);
        var freedom = sum * sum / missions.Sum(m => m.Weight * m.Weight) - 1;
        if (freedom < 2) return null;
        var least = scatter.Sd * scatter.Sd / n;
        return variance > least ? (mean, variance, freedom, n) : (mean, least, scatter.Freedom, n);
    }
}
