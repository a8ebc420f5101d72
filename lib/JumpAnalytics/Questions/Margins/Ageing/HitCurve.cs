using MathNet.Numerics.Interpolation;

namespace JumpAnalytics;

/// <summary>
/// Landing rate as a function of the law: the probability within each target radius, tabulated once over the spread, summed over the winds
/// and radii of the landings. Winds within half a metre per second and radii within half a metre are taken together.
/// </summary>
internal sealed class HitCurve
{
    private readonly (double WindTerm, double Weight, CubicSpline Inside)[] _groups;
    private readonly double _least, _most;

    public HitCurve(AgedLandings data, double leastLog, double mostLog, int nodes)
    {
        (_least, _most) = (leastLog, mostLog);
        var logs = Enumerable.Range(0, nodes).Select(i => leastLog + i * (mostLog - leastLog) / (nodes - 1)).ToArray();
        var spread = logs.Select(l => Scaled(data.Misses, Math.Exp(l))).ToArray();
        var groups = new List<(double, double, CubicSpline)>();
        foreach (var radius in data.Landings.Index().GroupBy(l => Math.Round(2 * l.Item.Drop.TargetRadius)).OrderBy(g => g.Key))
        {
            var mean = radius.Average(l => l.Item.Drop.TargetRadius);
            var inside = CubicSpline.InterpolateNaturalSorted(logs, [.. spread.Select(s => s.ProbabilityWithin(mean))]);
            foreach (var wind in radius.GroupBy(l => Math.Round(2 * l.Item.Drop.WindSpeed)).OrderBy(g => g.Key))
                groups.Add((wind.Average(l => data.WindSquared[l.Index]), (double)wind.Count() / data.Landings.Count, inside));
        }
        _groups = [.. groups];
    }

    /// <summary>Landing rate at an age in seconds.</summary>
    public double At(AgeLaw law, double age)
    {
        var (calm, sum) = (law.At(age, 0), 0.0);
        foreach (var (wind, weight, inside) in _groups)
            sum += weight * inside.Interpolate(Math.Clamp(Math.Log(calm + law.Wind * wind), _least, _most));
        return sum;
    }

    /// <summary>The distribution with its scatter multiplied.</summary>
    public static BivariateT Scaled(BivariateT t, double squared) => new(t.Core.Widened(squared), t.DegreesOfFreedom);
}
