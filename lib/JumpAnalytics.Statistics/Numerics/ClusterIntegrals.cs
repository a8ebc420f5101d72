namespace JumpAnalytics.Statistics;

/// <summary>
/// The log-likelihood of the levels of the cells and of the spread between clusters, each cluster's effect integrated out by adaptive
/// Gauss-Hermite quadrature about its mode (Pinheiro and Bates 1995, Journal of Computational and Graphical Statistics 4:12-35).
/// One node is Laplace's approximation.
/// </summary>
/// <remarks>
/// Slopes are those of the quadrature, nodes moving with the mode. Higher derivatives are those of the integral: cumulants of the
/// residuals over the cluster's effect (Louis 1982, Journal of the Royal Statistical Society B 44:226-233).
/// </remarks>
internal sealed class ClusterIntegrals(ClusterPatterns data, int nodes)
{
    private readonly GaussHermite _rule = GaussHermite.Of(nodes);
    private readonly double[] _share = new double[nodes];
    private readonly double[] _effect = new double[nodes];
    private readonly double[] _residual = new double[nodes];
    private readonly double[] _score = new double[data.Cell.Length];
    private readonly double[] _mean = new double[data.Cell.Length];
    private double[] _expected = [];

    /// <summary>Modes and variances of the cluster effects.</summary>
    public ClusterModes Modes { get; } = new(data);

    /// <summary>
    /// The log-likelihood, its slopes in the levels and in the sd, and, when asked for, less its curvature in the levels.
    /// </summary>
    public (double Value, double[] ByLevel, double BySd) At(ReadOnlySpan<double> levels, double sd, double[]? curvature)
    {
        Modes.Find(levels, sd);
        var (value, byLevel, bySd) = (0.0, new double[data.Cells], 0.0);
        for (var p = 0; p < data.Count; p++)
        {
            value += data.Times[p] * Integrate(p, levels, sd);
            bySd += data.Times[p] * Slopes(p, sd);
            for (var g = data.Start[p]; g < data.Start[p + 1]; g++) byLevel[data.Cell[g]] += data.Times[p] * _score[g];
            if (curvature is not null) Curve(p, curvature);
        }
        return (value, byLevel, bySd);
    }

    /// <summary>
    /// Slopes, in the levels and in the sd, of the trace of a matrix times the curvature; and the slopes in the sd
    /// of the slopes in the levels.
    /// </summary>
    public (double[] ByLevel, double BySd, double[] Mixed) Thirds(ReadOnlySpan<double> levels, double sd, double[] matrix)
    {
        var (byLevel, bySd, mixed) = (new double[data.Cells], 0.0, new double[data.Cells]);
        var (quadratic, along) = (new double[nodes], new double[nodes]);
        for (var p = 0; p < data.Count; p++)
        {
            Integrate(p, levels, sd);
            Means(p);
            var (first, groups, times) = (data.Start[p], data.Start[p + 1] - data.Start[p], data.Times[p]);
            double middle = 0, effect = 0;
            Array.Clear(quadratic);
            for (var k = 0; k < nodes; k++) effect += _share[k] * _effect[k] * _residual[k];
            for (var g = 0; g < groups; g++)
            {
                var (cell, n) = (data.Cell[first + g], data.Points[first + g]);
                var own = matrix[cell * data.Cells + cell];
                for (var k = 0; k < nodes; k++)
                {
                    var expected = _expected[k * groups + g];
                    var weight = expected * (1 - expected / n);
                    along[k] = 0;
                    for (var h = 0; h < groups; h++)
                        along[k] += matrix[cell * data.Cells + data.Cell[first + h]] * (_expected[k * groups + h] - _mean[first + h]);
                    quadratic[k] += along[k] * (expected - _mean[first + g]) - own * weight;
                    var slope = 2 * weight * along[k] - own * weight * (1 - 2 * expected / n);
                    byLevel[cell] += times * _share[k] * slope;
                    bySd += times * _share[k] * _effect[k] * slope;
                    mixed[cell] -=
                        times * _share[k] * (weight * _effect[k] + (expected - _mean[first + g]) * (_effect[k] * _residual[k] - effect));
                }
            }
            for (var k = 0; k < nodes; k++) middle += _share[k] * quadratic[k];
            for (var k = 0; k < nodes; k++)
            {
                var change = times * _share[k] * (quadratic[k] - middle);
                bySd += change * _effect[k] * _residual[k];
                for (var g = 0; g < groups; g++) byLevel[data.Cell[first + g]] -= change * (_expected[k * groups + g] - _mean[first + g]);
            }
        }
        return (byLevel, bySd, mixed);
    }

    /// <summary>The logarithm of one pattern's integral; keeps the nodes, their shares in it and what is expected there.</summary>
    private double Integrate(int p, ReadOnlySpan<double> levels, double sd)
    {
        var (mode, scale) = (Modes.Mode[p], Math.Sqrt(Modes.Variance[p]));
        var (first, groups) = (data.Start[p], data.Start[p + 1] - data.Start[p]);
        if (_expected.Length < groups * nodes) _expected = new double[groups * nodes];
        var top = double.NegativeInfinity;
        for (var k = 0; k < nodes; k++)
        {
            var t = mode + scale * _rule.Nodes[k];
            var (term, residual) = (_rule.LogWeights[k] + (_rule.Nodes[k] * _rule.Nodes[k] - t * t) / 2, 0.0);
            for (var g = 0; g < groups; g++)
            {
                var eta = levels[data.Cell[first + g]] + sd * t;
                var odds = Math.Exp(-Math.Abs(eta));
                var n = data.Points[first + g];
                var expected = n * (eta > 0 ? 1 : odds) / (1 + odds);
                term += data.Successes[first + g] * eta - n * (Math.Max(eta, 0) + Math.Log(1 + odds));
                residual += data.Successes[first + g] - expected;
                _expected[k * groups + g] = expected;
            }
            (_share[k], _effect[k], _residual[k]) = (term, t, residual);
            top = Math.Max(top, term);
        }
        var total = 0.0;
        for (var k = 0; k < nodes; k++) total += _share[k] = Math.Exp(_share[k] - top);
        for (var k = 0; k < nodes; k++) _share[k] /= total;
        return Math.Log(scale) + top + Math.Log(total);
    }

    /// <summary>Slopes of one pattern: of the terms at fixed nodes, and of the nodes as mode and scale move.</summary>
    private double Slopes(int p, double sd)
    {
        Means(p);
        var (mode, variance) = (Modes.Mode[p], Modes.Variance[p]);
        var scale = Math.Sqrt(variance);
        var (bySd, byMode, byScale) = (0.0, 0.0, 0.0);
        for (var k = 0; k < nodes; k++)
        {
            var slope = sd * _residual[k] - _effect[k];
            bySd += _share[k] * _effect[k] * _residual[k];
            byMode += _share[k] * slope;
            byScale += _share[k] * _rule.Nodes[k] * slope;
        }
        var (weights, skews, residual) = (0.0, 0.0, 0.0);
        for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
        {
            weights += Modes.Weight[g];
            skews += Skew(g);
            residual += data.Successes[g] - Modes.Expected[g];
        }
        var byPrecision = -(byScale + 1 / scale) * scale * variance / 2; // 1 + sd² Σ weight
        for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
        {
            var move = -sd * variance * Modes.Weight[g];
            _score[g] = data.Successes[g] - _mean[g] + byMode * move + byPrecision * sd * sd * (Skew(g) + skews * sd * move);
        }
        var moveBySd = variance * (residual - sd * weights * mode);
        return bySd + byMode * moveBySd + byPrecision * (2 * sd * weights + sd * sd * skews * (mode + sd * moveBySd));
    }

    private void Curve(int p, double[] curvature)
    {
        var (first, groups, times) = (data.Start[p], data.Start[p + 1] - data.Start[p], data.Times[p]);
        for (var g = 0; g < groups; g++)
        {
            var row = data.Cell[first + g] * data.Cells;
            for (var k = 0; k < nodes; k++)
            {
                var expected = _expected[k * groups + g];
                curvature[row + data.Cell[first + g]] += times * _share[k] * expected * (1 - expected / data.Points[first + g]);
                for (var h = 0; h < groups; h++)
                    curvature[row + data.Cell[first + h]] -=
                        times * _share[k] * (expected - _mean[first + g]) * (_expected[k * groups + h] - _mean[first + h]);
            }
        }
    }

    private void Means(int p)
    {
        var (first, groups) = (data.Start[p], data.Start[p + 1] - data.Start[p]);
        Array.Clear(_mean, first, groups);
        for (var k = 0; k < nodes; k++)
        {
            for (var g = 0; g < groups; g++) _mean[first + g] += _share[k] * _expected[k * groups + g];
        }
    }

    private double Skew(int g) => Modes.Weight[g] * (1 - 2 * Modes.Expected[g] / data.Points[g]);
}
