namespace JumpAnalytics.Statistics;

/// <summary>Scores of points as they were, in closed form: sums over them instead of integrals over steps.</summary>
internal sealed class EmpiricalDistances
{
    private readonly double[] _sorted;
    private readonly double[] _sums; // of the first so many
    private readonly double _self;

    public EmpiricalDistances(ReadOnlySpan<PlaneVector> points)
    {
        _sorted = new double[points.Length];
        for (var i = 0; i < points.Length; i++) _sorted[i] = points[i].Length;
        Array.Sort(_sorted);
        _sums = new double[_sorted.Length + 1];
        var n = (double)_sorted.Length;
        for (var i = 0; i < _sorted.Length; i++)
        {
            _sums[i + 1] = _sums[i] + _sorted[i];
            _self += (2 * i + 1 - n) * _sorted[i] / (n * n); // half the mean difference of two of them
        }
    }

    /// <summary>Mean distance of the points' distances from one, less half the mean difference of two of them.</summary>
    public double Crps(double distance)
    {
        var below = Array.BinarySearch(_sorted, distance);
        if (below < 0) below = ~below;
        var n = _sorted.Length;
        return (below * distance - _sums[below] + (_sums[n] - _sums[below]) - (n - below) * distance) / n - _self;
    }

    /// <summary>Half the mean distance of two points.</summary>
    public static double HalfMeanDistance(ReadOnlySpan<PlaneVector> points)
    {
        var sum = 0.0;
        for (var i = 0; i < points.Length; i++)
        {
            for (var j = 0; j < i; j++) sum += double.Hypot(points[i].Along - points[j].Along, points[i].Across - points[j].Across);
        }
        return sum / ((double)points.Length * points.Length);
    }

    /// <summary>Mean distance of the points from a place.</summary>
    public static double MeanDistance(ReadOnlySpan<PlaneVector> points, PlaneVector from)
    {
        var sum = 0.0;
        foreach (var m in points) sum += double.Hypot(m.Along - from.Along, m.Across - from.Across);
        return sum / points.Length;
    }
}
