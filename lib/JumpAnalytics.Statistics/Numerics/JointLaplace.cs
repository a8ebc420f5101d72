using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Laplace's approximation with cluster and cell effects integrated out together at their joint mode (the likelihood that lme4 calls
/// nAGQ = 1; Bates, Mächler, Bolker and Walker 2015, Journal of Statistical Software 67(1)), with exact slopes.
/// </summary>
/// <remarks>
/// Each cluster's effect is eliminated by itself, so that what is left is a system as large as the number of cells. The slopes follow
/// from one more solve with the same system (Kristensen et al. 2016, Journal of Statistical Software 70(5), section 2).
/// </remarks>
internal sealed class JointLaplace(ClusterPatterns data) : ILogisticLikelihood
{
    private const int MostSteps = 100;

    private readonly ClusterModes _clusters = new(data);
    private Vector<double> _effect = Vector<double>.Build.Dense(data.Cells); // of the cells, in units of the sd
    private double[] _covariance = [];
    private double _clusterSd;

    public LogisticSlopes At(ReadOnlySpan<double> levels, double clusterSd, double cellSd)
    {
        if (cellSd == 0) _effect.Clear();
        if (ToMode(levels, clusterSd, cellSd) is not var (score, inverse, logDeterminant))
            return new LogisticSlopes(double.NaN, [], 0, 0, [], []);
        (_clusterSd, _covariance) = (clusterSd, (cellSd * cellSd * inverse).ToColumnMajorArray());

        // Half the change of the log determinant with the log-odds of each group, and what it does through the modes.
        var own = new double[data.Cells];
        var pull = new double[data.Cell.Length];
        for (var p = 0; p < data.Count; p++) Pull(p, pull, own);
        var back = inverse * Vector<double>.Build.Dense(own);
        var through = (cellSd * cellSd * back).ToArray();

        var (byLevel, byClusterSd) = (new double[data.Cells], 0.0);
        for (var p = 0; p < data.Count; p++)
        {
            var (first, end, variance) = (data.Start[p], data.Start[p + 1], _clusters.Variance[p]);
            var (residual, weights, rest) = (0.0, 0.0, 0.0);
            for (var g = first; g < end; g++)
            {
                residual += data.Successes[g] - _clusters.Expected[g];
                weights += _clusters.Weight[g];
                rest += pull[g] - _clusters.Weight[g] * through[data.Cell[g]];
            }
            var cluster = clusterSd * clusterSd * variance * rest;
            for (var g = first; g < end; g++)
            {
                var cell = data.Cell[g];
                byLevel[cell] +=
                    data.Times[p] * (data.Successes[g] - _clusters.Expected[g] + pull[g] - _clusters.Weight[g] * (through[cell] + cluster));
            }
            byClusterSd += data.Times[p] * clusterSd
                * (residual * residual - variance * weights + variance * variance * _clusters.Shared(p, _covariance)
                    + 2 * residual * variance * rest);
        }
        var byCellSd = cellSd > 0 ? cellSd * (score * score + 2 * (score * back)) + (inverse.Trace() - data.Cells) / cellSd : 0;
        return new LogisticSlopes(_clusters.Density - _effect * _effect / 2 + (_clusters.LogVariance - logDeterminant) / 2, byLevel,
            byClusterSd, byCellSd, (cellSd * _effect).ToArray(), (cellSd * cellSd * inverse).Diagonal().ToArray());
    }

    public (double Mode, double Variance)[] ClusterEffects() => _clusters.Effects(_clusterSd, _covariance);

    /// <summary>For each group of a pattern: less half the variance of its log-odds times the slope of its weight.</summary>
    private void Pull(int p, double[] pull, double[] own)
    {
        var (first, end, kappa, shared) =
            (data.Start[p], data.Start[p + 1], _clusterSd * _clusterSd * _clusters.Variance[p], _clusters.Shared(p, _covariance));
        var sum = 0.0;
        for (var g = first; g < end; g++)
        {
            var (row, along) = (data.Cell[g] * data.Cells, 0.0);
            for (var h = first; h < end; h++) along += _covariance[row + data.Cell[h]] * _clusters.Weight[h];
            var variance = kappa + _covariance[row + data.Cell[g]] - 2 * kappa * along + kappa * kappa * shared;
            pull[g] = -variance / 2 * _clusters.Weight[g] * (1 - 2 * _clusters.Expected[g] / data.Points[g]);
            sum += pull[g];
        }
        for (var g = first; g < end; g++) own[data.Cell[g]] += data.Times[p] * (pull[g] - kappa * _clusters.Weight[g] * sum);
    }

    /// <summary>
    /// Newton's method for the cell effects: residuals of the cells there, inverse of the system (in units of the
    /// sd) and its log determinant.
    /// </summary>
    private (Vector<double> Score, Matrix<double> Inverse, double LogDeterminant)? ToMode(ReadOnlySpan<double> levels,
        double clusterSd, double cellSd)
    {
        var (at, from, move) = (new double[data.Cells], _effect, _effect);
        var identity = Matrix<double>.Build.DenseIdentity(data.Cells);
        var height = double.NegativeInfinity;
        for (var step = 0; ; step++)
        {
            for (var c = 0; c < at.Length; c++) at[c] = levels[c] + cellSd * _effect[c];
            _clusters.Find(at, clusterSd);
            var higher = _clusters.Density - _effect * _effect / 2;
            if (!double.IsFinite(higher)) return null;
            if (higher < height - 1e-9 * (1 + Math.Abs(height)) && step < MostSteps) // too far: half the way back
            {
                move /= 2;
                _effect = from + move;
                continue;
            }
            height = higher;
            var (score, curvature) = Curvature(clusterSd);
            if (cellSd == 0) return (score, identity, 0);
            if (NestedLaplace.Factored(identity + cellSd * cellSd * curvature) is not { } system) return null;
            move = system.Solve(cellSd * score - _effect);
            if (move.AbsoluteMaximum() < 1e-10 || step >= MostSteps) return (score, system.Solve(identity), system.DeterminantLn);
            from = _effect;
            _effect = from + move;
        }
    }

    /// <summary>Residuals of the cells, and less the curvature in their levels once clusters are eliminated.</summary>
    private (Vector<double> Score, Matrix<double> Curvature) Curvature(double clusterSd)
    {
        var (score, curvature) = (new double[data.Cells], new double[data.Cells * data.Cells]);
        for (var p = 0; p < data.Count; p++)
        {
            var kappa = clusterSd * clusterSd * _clusters.Variance[p];
            for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
            {
                var (row, weight) = (data.Cell[g] * data.Cells, data.Times[p] * _clusters.Weight[g]);
                score[data.Cell[g]] += data.Times[p] * (data.Successes[g] - _clusters.Expected[g]);
                curvature[row + data.Cell[g]] += weight;
                for (var h = data.Start[p]; h < data.Start[p + 1]; h++)
                    curvature[row + data.Cell[h]] -= weight * kappa * _clusters.Weight[h];
            }
        }
        return (Vector<double>.Build.Dense(score), Matrix<double>.Build.Dense(data.Cells, data.Cells, curvature));
    }
}
