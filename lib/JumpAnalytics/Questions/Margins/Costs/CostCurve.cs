using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Mean cost of landings as a function of how far the exit is moved along one axis.</summary>
internal sealed class CostCurve
{
    private readonly double[][] _byMission; // cost of the mission's landings at each shift
    private readonly int[] _landings;

    private CostCurve(double[] shifts, double[][] byMission, int[] landings) =>
        (Shifts, _byMission, _landings) = (shifts, byMission, landings);

    /// <summary>The shifts looked at, metres, rising and evenly spaced; 0 is one of them.</summary>
    public double[] Shifts { get; }

    /// <summary>Computes the costs.</summary>
    /// <param name="missions">Misses of each mission along the axis, metres.</param>
    /// <param name="cost">Cost of a miss, smoothed by a width in metres.</param>
    public static CostCurve Of(IReadOnlyList<double[]> missions, Func<double, double, double> cost)
    {
        const int Half = 150;
        var all = missions.SelectMany(m => m).ToArray();
        // Silverman's width, of the quartiles: the cost of a side is a step, and single landings would make its curve one too.
        var width = 0.9 * Math.Min(all.StandardDeviation(), all.InterquartileRange() / 1.349) * Math.Pow(all.Length, -0.2);
        var step = Math.Max(1e-6, HyndmanFan.Quantile(all.Select(Math.Abs), 0.95)) / Half;
        var shifts = Enumerable.Range(-Half, 2 * Half + 1).Select(i => i * step).ToArray();
        var costs = missions.Select(m => shifts.Select(s => m.Sum(x => cost(x + s, width))).ToArray()).ToArray();
        return new CostCurve(shifts, costs, [.. missions.Select(m => m.Length)]);
    }

    /// <summary>Mean cost at each shift; missions count as often as they were drawn.</summary>
    public double[] Mean(int[]? draws = null)
    {
        var (sums, n) = (new double[Shifts.Length], 0.0);
        for (var m = 0; m < _byMission.Length; m++)
        {
            var times = draws is null ? 1 : draws[m];
            if (times == 0) continue;
            n += times * _landings[m];
            var own = _byMission[m];
            for (var i = 0; i < sums.Length; i++) sums[i] += times * own[i];
        }
        for (var i = 0; i < sums.Length; i++) sums[i] /= n;
        return sums;
    }

    /// <summary>The shift of least cost, by the parabola through the least and its neighbours.</summary>
    public double Best(double[] mean)
    {
        var at = Array.IndexOf(mean, mean.Min());
        if (at == 0 || at == mean.Length - 1) return Shifts[at];
        var (a, b, c) = (mean[at - 1], mean[at], mean[at + 1]);
        var bend = a - 2 * b + c;
        return bend > 0 ? Shifts[at] + (Shifts[1] - Shifts[0]) * (a - c) / (2 * bend) : Shifts[at];
    }

    /// <summary>The shifts about the best at which the cost stays within a part of the least.</summary>
    public Interval Flat(double[] mean, double part)
    {
        var least = mean.Min();
        var (low, high) = (Array.IndexOf(mean, least), Array.IndexOf(mean, least));
        while (low > 0 && mean[low - 1] <= least * (1 + part)) low--;
        while (high < mean.Length - 1 && mean[high + 1] <= least * (1 + part)) high++;
        return new Interval(Shifts[low], Shifts[high]);
    }

    /// <summary>Missions.</summary>
    public int Missions => _byMission.Length;
}
