namespace JumpAnalytics;

/// <summary>
/// Radii of thin cells, borrowed: the shape of the distances is taken from all cells, the scale from the cell, its band and its terrain.
/// </summary>
/// <remarks>
/// Radius = quantile of the distances over their cells' scales, pooled, times the cell's scale. The upper limit adds, by squares on the
/// log scale, the distance to the pooled quantile's own limit and that to the limit of the scale (t on mission means less cells): the
/// square-and-add of Zou and Donner (2008, Statistics in Medicine 27:1693-1702). A distance below a twentieth of the median is taken
/// for that in the logarithm; a landing known only as beyond a distance counts there as the mean of the farther ones and in the
/// quantile as farther than any other.
/// </remarks>
internal sealed class ScalePooling
{
    private readonly CellScales _scales;
    private readonly PlaneSample _standard;

    private ScalePooling(CellScales scales, PlaneSample standard) => (_scales, _standard) = (scales, standard);

    /// <summary>Share of what band and terrain say in the scale of a cell.</summary>
    public double Borrowed(Cell cell) => _scales[cell].Borrowed;

    /// <summary>Fits scales and shape.</summary>
    /// <param name="landings">Landings whose distance, or a distance they lie beyond, is known.</param>
    /// <param name="cellOf">The cell of a landing.</param>
    public static Fit<ScalePooling> Of(IReadOnlyList<Landing> landings, Func<Landing, Cell> cellOf)
    {
        var known = landings.Where(l => l.MissDistance is not null).ToList();
        if (known.Count == 0) return Fit<ScalePooling>.Refused("no landing whose distance is known");
        var floor = known.Select(l => l.MissDistance!.Value).Order().ElementAt(known.Count / 2) / 20;
        if (!(floor > 0)) return Fit<ScalePooling>.Refused("half of the landings lie on the spot");
        var readings =
            known.Select(l => new ScaleReading(cellOf(l), l.Drop.Mission, Math.Log(Math.Max(floor, l.MissDistance!.Value)))).ToList();
        var first = CellScales.Of(readings);
        if (!first.Success) return Fit<ScalePooling>.Refused(first.Reason);

        var shape = readings.Select(r => r.Log - first.Value[r.Cell].Log).Order().ToArray();
        var cells = readings.Select(r => r.Cell).ToHashSet();
        var beyond = landings.Where(l => l.MissDistance is null && cells.Contains(cellOf(l))).ToList();
        readings.AddRange(beyond.Select(l =>
        {
            var scale = first.Value[cellOf(l)].Log;
            var farther = shape.Where(z => z > Math.Log(Math.Max(floor, l.Beyond!.Value)) - scale).ToList();
            return new ScaleReading(cellOf(l), l.Drop.Mission, farther.Count > 0 ? scale + farther.Average() : Math.Log(l.Beyond!.Value));
        }));
        var scales = CellScales.Of(readings);
        if (!scales.Success) return Fit<ScalePooling>.Refused(scales.Reason);
        return Fit<ScalePooling>.Made(new ScalePooling(scales.Value, PlaneSample.Of(
            known.Concat(beyond).Select(l =>
            {
                var scale = Math.Exp(scales.Value[cellOf(l)].Log);
                return l.MissDistance is { } d
                    ? new PlaneReading(l.Drop.Mission, new PlaneVector(d / scale, 0))
                    : new PlaneReading(l.Drop.Mission, null, l.Beyond / scale);
            }),
            TradeNouns.Value)));
    }

    /// <summary>The radius of a cell with its upper limit.</summary>
    /// <param name="cell">Wind band and terrain, with at least one landing.</param>
    /// <param name="share">Share of landings.</param>
    /// <param name="confidence">One-sided confidence.</param>
    /// <param name="missions">Missions of the cell.</param>
    /// <param name="landings">Landings of the cell.</param>
    public Fit<RadiusLimit> Limit(Cell cell, double share, double confidence, int missions, int landings)
    {
        var pooled = RadiusLimit.Of(_standard, share, confidence);
        if (!pooled.Success) return pooled;
        var scale = _scales[cell];
        var ofShape = Math.Log(pooled.Value.UpperLimit / pooled.Value.Radius);
        var ofScale = QuantileOf.T(_scales.Freedom, TailShare.Below(confidence)) * scale.Error;
        var radius = pooled.Value.Radius * Math.Exp(scale.Log);
        return Fit<RadiusLimit>.Made(new RadiusLimit
        {
            Share = share, Confidence = confidence, Radius = radius, UpperLimit = radius * Math.Exp(double.Hypot(ofShape, ofScale)),
            Clusters = missions, Points = landings, Method = RadiusLimitMethod.PooledScale,
            Warning = pooled.Value.Warning,
        });
    }
}
