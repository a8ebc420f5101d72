using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// The shift that centres misses, drawn towards none. Mean misses of cells are taken as normal about no miss at all with a covariance T,
/// estimated by moments from the cells' own (Efron and Morris 1973, Journal of the American Statistical Association 68:117-130, in two
/// dimensions); the shift is minus the mean that this leaves.
/// </summary>
/// <remarks>
/// With k cells no direction's T is taken below 2/(k − 2) of the mean error, so that no less than about 2/k of a mean miss is kept (Morris
/// 1983, same journal 78:47-55): a T of zero by luck would claim that there is nothing to know. What is unknown of T is allowed for by
/// Student's t on k degrees of freedom.
/// </remarks>
internal sealed class ShrunkenShift
{
    private readonly Matrix<double> _spread;

    private ShrunkenShift(Matrix<double> spread, int cells) => (_spread, Cells) = (spread, cells);

    /// <summary>Cells that the spread was estimated from.</summary>
    public int Cells { get; }

    /// <summary>Estimates T: the mean of the squared mean misses less that of their errors, held to its least.</summary>
    public static ShrunkenShift Of(IReadOnlyList<(PlaneVector Mean, PlaneCovariance Errors, double Weight)> cells)
    {
        var total = cells.Sum(c => c.Weight);
        var (squares, noise) = (Matrix<double>.Build.Dense(2, 2), Matrix<double>.Build.Dense(2, 2));
        foreach (var (mean, errors, weight) in cells)
        {
            squares += weight / total * Square(mean);
            noise += weight / total * errors.ToMatrix();
        }
        var eigen = (squares - noise).Evd(Symmetricity.Symmetric);
        var least = 2.0 / Math.Max(1, cells.Count - 2);
        var kept = Enumerable.Range(0, 2).Select(i =>
            Math.Max(eigen.EigenValues[i].Real, least * (eigen.EigenVectors.Column(i) * noise * eigen.EigenVectors.Column(i)))).ToArray();
        return new ShrunkenShift(eigen.EigenVectors * Matrix<double>.Build.DiagonalOfDiagonalArray(kept) * eigen.EigenVectors.Transpose(),
            cells.Count);
    }

    /// <summary>The mean miss drawn towards none, and the covariance of what is still unknown of it.</summary>
    public (PlaneVector Mean, PlaneCovariance Errors) Drawn(PlaneVector mean, PlaneCovariance errors)
    {
        var own = errors.ToMatrix();
        var sum = _spread + own;
        if (!(sum.Determinant() > 1e-12 * sum.Trace() * sum.Trace())) return (default, PlaneCovariance.Of(_spread));
        var kept = _spread * sum.Inverse();
        var drawn = kept * Vector<double>.Build.Dense([mean.Along, mean.Across]);
        return (new PlaneVector(drawn[0], drawn[1]), PlaneCovariance.Of(_spread - kept * _spread));
    }

    private static Matrix<double> Square(PlaneVector v) =>
        Matrix<double>.Build.Dense(2, 2, [v.Along * v.Along, v.Along * v.Across, v.Along * v.Across, v.Across * v.Across]);
}
