namespace JumpAnalytics;

/// <summary>Hit rates of the passes on record by the variances of sources, and what they become when a source grows less.</summary>
internal sealed class SourceRates
{
    private readonly (double Radius, double Weight, PlaneCovariance[] Shapes)[] _passes;
    private readonly PlaneVector _mean;
    private readonly double _landings;

    public SourceRates(IReadOnlyList<Landing> placed, IReadOnlyList<SourceShape> shapes, PlaneVector mean)
    {
        _mean = mean;
        _landings = placed.Count;
        _passes = [.. placed.GroupBy(l => l.Drop.Id)
            .Select(g => (g.First().Drop.TargetRadius, (double)g.Count(), shapes.Select(s => Covariance(s, g.First())).ToArray()))];
    }

    private static PlaneCovariance Covariance(SourceShape shape, Landing landing) =>
        shape.Vectors(landing).Aggregate(PlaneCovariance.None, (sum, v) => sum + PlaneCovariance.OfMultiples(v.Downwind, v.Right));

    /// <summary>Mean square that each source adds to a landing, m².</summary>
    public double[] Traces(double[] variances) =>
        [.. variances.Select((v, k) => v * _passes.Sum(p => p.Weight * p.Shapes[k].Trace) / _landings)];

    /// <summary>Hit rate over the passes.</summary>
    public double Rate(double[] variances)
    {
        var sum = 0.0;
        foreach (var (radius, weight, shapes) in _passes)
        {
            double along = 0.25, across = 0.25, both = 0; // half a metre: no record is finer; plain numbers, for this is the inner loop
            for (var k = 0; k < shapes.Length; k++)
            {
                var (v, shape) = (variances[k], shapes[k]);
                (along, across, both) = (along + v * shape.VarianceAlong, across + v * shape.VarianceAcross, both + v * shape.Covariance);
            }
            sum += weight * DiscProbability.Inside(radius, _mean.Along, _mean.Across, along, across, both);
        }
        return sum / _landings;
    }

    /// <summary>Change of that rate when each source in turn has half its variance, or none.</summary>
    public (double[] Halved, double[] Removed) Changes(double[] variances)
    {
        var now = Rate(variances);
        double With(int source, double factor) => Rate([.. variances.Select((v, k) => k == source ? factor * v : v)]) - now;
        return ([.. variances.Select((_, k) => With(k, 0.5))], [.. variances.Select((_, k) => With(k, 0))]);
    }
}
