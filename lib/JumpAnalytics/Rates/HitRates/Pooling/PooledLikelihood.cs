namespace JumpAnalytics;

/// <summary>The spreads of a pooled model: each is fitted, from a start, or held.</summary>
internal sealed record PooledSpreads(double MissionSd, bool MissionFree, double CellSd, bool CellFree);

/// <summary>
/// The log-likelihood over what is fitted: the fixed effects, then the spreads that are free. It is even in a spread, so that zero is
/// no border to the search.
/// </summary>
internal sealed class PooledLikelihood(PooledDesign design, ILogisticLikelihood kernel, bool held, PooledSpreads spreads)
{
    /// <summary>Where hits and misses part, the spread of the pull that holds the cells' levels to their mean; log-odds.</summary>
    public const double HoldingSd = 5;

    public PooledDesign Design => design;

    public PooledSpreads Spreads => spreads;

    /// <summary>Number of coordinates.</summary>
    public int Count => design.Names.Count + (spreads.MissionFree ? 1 : 0) + (spreads.CellFree ? 1 : 0);

    public PooledLikelihood With(PooledSpreads other) => new(design, kernel, held, other);

    public PooledLikelihood With(ILogisticLikelihood other) => new(design, other, held, spreads);

    public double MissionSd(double[] at) => spreads.MissionFree ? Math.Abs(at[design.Names.Count]) : spreads.MissionSd;

    public double CellSd(double[] at) => spreads.CellFree ? Math.Abs(at[^1]) : spreads.CellSd;

    /// <summary>The kernel's answer at some coordinates.</summary>
    public LogisticSlopes Kernel(double[] at) => kernel.At(design.Levels(at).AsSpan(0, design.Observed), MissionSd(at), CellSd(at));

    /// <summary>Mode and variance of the mission effects of each pattern, at some coordinates.</summary>
    public (double Mode, double Variance)[] MissionEffects(double[] at)
    {
        Kernel(at);
        return kernel.ClusterEffects();
    }

    /// <summary>Value and slope at some coordinates, the pull included.</summary>
    public Sloped At(double[] at) => SlopedBy(at, Kernel(at));

    /// <summary>The same from the kernel's answer.</summary>
    public Sloped SlopedBy(double[] at, LogisticSlopes slopes)
    {
        if (!double.IsFinite(slopes.Value)) return new Sloped(double.NaN, []);
        var (value, byLevel) = (slopes.Value, slopes.ByLevel);
        if (held)
        {
            var levels = design.Levels(at);
            var mean = levels.Take(design.Observed).Average();
            byLevel = [.. byLevel.Select((s, c) => s - (levels[c] - mean) / (HoldingSd * HoldingSd))];
            for (var c = 0; c < design.Observed; c++) value -= (levels[c] - mean) * (levels[c] - mean) / (2 * HoldingSd * HoldingSd);
        }
        var slope = new double[Count];
        for (var c = 0; c < design.Observed; c++)
        {
            for (var k = 0; k < design.Names.Count; k++) slope[k] += design.Rows[c][k] * byLevel[c];
        }
        if (spreads.MissionFree) slope[design.Names.Count] = slopes.ByClusterSd * Math.Sign(at[design.Names.Count]);
        if (spreads.CellFree) slope[^1] = slopes.ByCellSd * Math.Sign(at[^1]);
        return new Sloped(value, slope);
    }
}
