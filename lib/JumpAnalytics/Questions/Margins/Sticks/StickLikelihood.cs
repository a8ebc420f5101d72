namespace JumpAnalytics;

/// <summary>
/// Likelihood of passes under a <see cref="StickModel"/>: over every way in which the jumpers' own parts may be narrow or wide, the normal
/// density with the shared part integrated out, in closed form.
/// </summary>
internal sealed class StickLikelihood
{
    /// <summary>Longest run of jumpers whose kinds are all gone through; a longer stick is taken in parts.</summary>
    private const int Together = 8;

    private readonly (int Mission, PlaneVector[] Misses)[] _sticks;

    public StickLikelihood(IReadOnlyList<StickPass> passes, double left)
    {
        var sticks = new List<(int, PlaneVector[])>();
        foreach (var pass in passes)
        {
            var misses = pass.Landings.Where(l => l.MissDownwind is not null).Select(l => Middled(pass, l, left)).ToArray();
            foreach (var part in misses.Chunk(Together)) sticks.Add((pass.Mission, part));
        }
        _sticks = [.. sticks];
    }

    public int Landings => _sticks.Sum(s => s.Misses.Length);

    public IEnumerable<PlaneVector[]> Sticks => _sticks.Select(s => s.Misses);

    /// <summary>Logarithm of the likelihood of each mission, added to what is there.</summary>
    public void Add(StickModel model, double[] byMission)
    {
        foreach (var (mission, misses) in _sticks) byMission[mission] += One(model, misses);
    }

    public double Of(StickModel model)
    {
        var sum = 0.0;
        foreach (var (_, misses) in _sticks) sum += One(model, misses);
        return sum;
    }

    private static double One(StickModel m, ReadOnlySpan<PlaneVector> misses)
    {
        var n = misses.Length;
        var narrowest = 1 / (m.Widening * m.Widening);
        var (od, or) = (1 / (m.OwnDownwind * m.OwnDownwind), 1 / (m.OwnRight * m.OwnRight));
        var (bd, br) = (m.SharedDownwind * m.SharedDownwind, m.SharedRight * m.SharedRight);
        var kinds = m.WideShare > 0 ? 1 << n : 1;
        var (logWide, logNarrow) = (m.WideShare > 0 ? Math.Log(m.WideShare) : 0, Math.Log(1 - m.WideShare));
        var logSpread = Math.Log(m.Widening);
        Span<double> logs = stackalloc double[kinds];
        var top = double.NegativeInfinity;
        for (var kind = 0; kind < kinds; kind++)
        {
            double s0 = 0, d1 = 0, d2 = 0, r1 = 0, r2 = 0;
            for (var j = 0; j < n; j++)
            {
                var weight = (kind >> j & 1) != 0 ? narrowest : 1;
                var (d, r) = (misses[j].Along - m.Bias.Along, misses[j].Across - m.Bias.Across);
                (s0, d1, d2, r1, r2) = (s0 + weight, d1 + weight * d, d2 + weight * d * d, r1 + weight * r, r2 + weight * r * r);
            }
            var wide = System.Numerics.BitOperations.PopCount((uint)kind);
            var (gd, gr) = (1 + bd * od * s0, 1 + br * or * s0);
            var log = wide * logWide + (n - wide) * logNarrow - 2 * wide * logSpread - 0.5 * Math.Log(gd * gr)
                - 0.5 * (od * (d2 - bd * od * d1 * d1 / gd) + or * (r2 - br * or * r1 * r1 / gr));
            logs[kind] = log;
            top = Math.Max(top, log);
        }
        var sum = 0.0;
        foreach (var log in logs) sum += Math.Exp(log - top);
        return top + Math.Log(sum) + 0.5 * n * Math.Log(od * or) - n * Math.Log(2 * Math.PI);
    }

    private static PlaneVector Middled(StickPass pass, Landing landing, double left)
    {
        var miss = landing.MissDownwind!.Value;
        return pass.Run is { } run && pass.Offset(landing) is { } offset
            ? new PlaneVector(miss.Along - left * offset * run.Along, miss.Across - left * offset * run.Across) : miss;
    }
}
