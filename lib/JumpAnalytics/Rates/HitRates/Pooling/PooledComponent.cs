using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>A normal for a quantity.</summary>
internal readonly record struct NormalFigure(double Mean, double Variance);

/// <summary>What a pooled model says of each cell at the top of its likelihood, with the uncertainty of what was fitted.</summary>
/// <param name="At">What was fitted.</param>
/// <param name="LogWeight">Logarithm of the likelihood with everything fitted integrated out by Laplace's approximation.</param>
/// <param name="Curvature">Curvature of the log-likelihood in what was fitted.</param>
/// <param name="Covariance">Covariance of what was fitted: its inverse, less.</param>
/// <param name="Cells">
/// Log-odds of a hit in each cell on a mission not yet flown. Their variance is that of the cell's effect with the fitted values
/// known, plus that from the fitted values, through the mode of the effect as well (Kass and Steffey 1989, Journal of the American
/// Statistical Association 84:717-726).
/// </param>
/// <param name="Models">The same without the cell's effect.</param>
/// <param name="Pull">
/// Variance of the cell's effect over that before any landing was seen: the weight of the model against the landings.
/// </param>
internal sealed record PooledComponent(
    double[] At, double LogWeight, Matrix<double> Curvature, Matrix<double> Covariance, NormalFigure[] Cells,
    NormalFigure[] Models, double[] Pull)
{
    /// <summary>At the top of a likelihood; null where it is flat.</summary>
    public static PooledComponent? Of(PooledLikelihood likelihood, double[] at)
    {
        var nearby = new List<((double LogOdds, double Slope)[] Cells, (double LogOdds, double Slope)[] Models)>();
        var curvature = SlopeClimb.Curvature(x =>
        {
            var slopes = likelihood.Kernel(x);
            if (double.IsFinite(slopes.Value)) nearby.Add((Marginals(likelihood, x, slopes.CellMode), Marginals(likelihood, x, [])));
            return likelihood.SlopedBy(x, slopes);
        }, at);
        if (curvature is null) return null;
        var axes = (-curvature).Evd(Symmetricity.Symmetric).EigenValues;
        if (axes.Any(v => !(v.Real > 0))) return null;
        var covariance = (-curvature).Inverse();

        var (here, cellSd) = (likelihood.Kernel(at), likelihood.CellSd(at));
        double[] own = [.. Enumerable.Range(0, likelihood.Design.Cells.Count)
            .Select(c => c < likelihood.Design.Observed ? here.CellVariance[c] : cellSd * cellSd)];
        return new PooledComponent(at, likelihood.SlopedBy(at, here).Value - axes.Sum(v => Math.Log(v.Real)) / 2, curvature, covariance,
            [.. Marginals(likelihood, at, here.CellMode)
                .Select((m, c) => new NormalFigure(m.LogOdds, Fitted(i => nearby[i].Cells[c].LogOdds) + m.Slope * m.Slope * own[c]))],
            [.. Marginals(likelihood, at, []).Select((m, c) => new NormalFigure(m.LogOdds, Fitted(i => nearby[i].Models[c].LogOdds)))],
            [.. own.Select(v => cellSd > 0 ? v / (cellSd * cellSd) : 1)]);

        double Fitted(Func<int, double> figure)
        {
            var slope = Vector<double>.Build.Dense(at.Length, i => (figure(2 * i) - figure(2 * i + 1)) / (2 * SlopeClimb.Spacing));
            return slope * covariance * slope;
        }
    }

    private static (double LogOdds, double Slope)[] Marginals(PooledLikelihood likelihood, double[] at, double[] cellMode) =>
        [.. likelihood.Design.Levels(at)
            .Select((level, c) => LogisticNormal.Marginal(level + (c < cellMode.Length ? cellMode[c] : 0), likelihood.MissionSd(at)))];
}
