using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Cluster effects integrated out one by one by quadrature, and cell effects after them by Laplace's approximation about the mode of what
/// results. Without cell effects it is the adaptive Gauss-Hermite quadrature of lme4 (nAGQ above 1).
/// </summary>
/// <remarks>
/// Laplace's approximation for both at once errs by an amount for each cluster, which many clusters with few points add up to more than
/// the cells' own uncertainty; this one errs by an amount for each cell, which falls as points are added.
/// </remarks>
internal sealed class NestedLaplace(ClusterPatterns data, int nodes) : ILogisticLikelihood
{
    private const int MostSteps = 100;

    private readonly ClusterIntegrals _clusters = new(data, nodes);
    private Vector<double> _effect = Vector<double>.Build.Dense(data.Cells); // of the cells, in units of the sd
    private double[] _covariance = [];
    private double _clusterSd;

    public LogisticSlopes At(ReadOnlySpan<double> levels, double clusterSd, double cellSd)
    {
        (_clusterSd, _covariance) = (clusterSd, new double[data.Cells * data.Cells]);
        if (cellSd == 0)
        {
            _effect.Clear();
            var (value, byLevel, byClusterSd) = _clusters.At(levels, clusterSd, null);
            return new LogisticSlopes(value, byLevel, byClusterSd, 0, new double[data.Cells], new double[data.Cells]);
        }
        var (at, from, move) = (new double[data.Cells], _effect, _effect);
        var height = double.NegativeInfinity;
        for (var step = 0; ; step++)
        {
            for (var c = 0; c < at.Length; c++) at[c] = levels[c] + cellSd * _effect[c];
            var less = new double[data.Cells * data.Cells];
            var (value, score, byClusterSd) = _clusters.At(at, clusterSd, less);
            var higher = value - _effect * _effect / 2;
            if (!double.IsFinite(higher)) return new LogisticSlopes(double.NaN, [], 0, 0, [], []);
            if (higher < height - 1e-9 * (1 + Math.Abs(height)) && step < MostSteps) // too far: half the way back
            {
                move /= 2;
                _effect = from + move;
                continue;
            }
            height = higher;
            var (slope, curvature) = (Vector<double>.Build.Dense(score), Matrix<double>.Build.Dense(data.Cells, data.Cells, less));
            if (Factored(Matrix<double>.Build.DenseIdentity(data.Cells) + cellSd * cellSd * curvature) is not { } system)
                return new LogisticSlopes(double.NaN, [], 0, 0, [], []);
            move = system.Solve(cellSd * slope - _effect);
            if (move.AbsoluteMaximum() >= 1e-10 && step < MostSteps)
            {
                from = _effect;
                _effect = from + move;
                continue;
            }

            var inverse = system.Solve(Matrix<double>.Build.DenseIdentity(data.Cells));
            _covariance = (cellSd * cellSd * inverse).ToColumnMajorArray();
            var (thirds, thirdBySd, mixed) = _clusters.Thirds(at, clusterSd, _covariance);
            var third = Vector<double>.Build.Dense(thirds) / 2;
            var back = cellSd * inverse * third;
            var byCellSd = slope * _effect + third * _effect + back * (slope - cellSd * curvature * _effect)
                + (inverse.Trace() - data.Cells) / cellSd;
            return new LogisticSlopes(height - system.DeterminantLn / 2, (slope + third - cellSd * curvature * back).ToArray(),
                byClusterSd + thirdBySd / 2 + cellSd * (back * Vector<double>.Build.Dense(mixed)), byCellSd,
                (cellSd * _effect).ToArray(), (cellSd * cellSd * inverse).Diagonal().ToArray());
        }
    }

    /// <summary>
    /// The system is positive definite, but for what too few nodes make of it where clusters differ very much: then null.
    /// </summary>
    internal static Cholesky<double>? Factored(Matrix<double> system)
    {
        try
        {
            return system.Cholesky();
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    public (double Mode, double Variance)[] ClusterEffects() => _clusters.Modes.Effects(_clusterSd, _covariance);
}
