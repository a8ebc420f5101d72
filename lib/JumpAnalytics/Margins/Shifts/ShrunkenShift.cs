using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// The shift that centres misses, drawn towards none. Mean misses of cells are taken as normal about no miss at all with a covariance T, estimated by moments from the
/// cells' own (Efron and Morris 1973, Journal of the American Statistical Association 68:117-130, in two dimensions); the shift is minus the mean that this leaves.
/// </summary>
internal sealed class ShrunkenShift
{
    private readonly Matrix<double> _spread;

    private ShrunkenShift(Matrix<double> spread) => _spread = spread;

    /// <summary>Estimates T: the mean of the squared mean misses less that of their errors, what is negative in it set to zero.</summary>
    public static ShrunkenShift Of(IReadOnlyList<(DownwindVector Mean, PlaneCovariance Errors, double Weight)> cells)
    {
        var total = cells.Sum(c => c.Weight);
        var moments = Matrix<double>.Build.Dense(2, 2);
        foreach (var (mean, errors, weight) in cells)
            moments += weight / total * (Square(mean) - Dense(errors));
        var eigen = moments.Evd(Symmetricity.Symmetric);
        var kept = eigen.EigenValues.Map(v => Math.Max(0, v.Real));
        return new ShrunkenShift(eigen.EigenVectors * Matrix<double>.Build.DiagonalOfDiagonalArray([.. kept]) * eigen.EigenVectors.Transpose());
    }

    /// <summary>The mean miss drawn towards none, and the covariance of what is still unknown of it.</summary>
    public (DownwindVector Mean, PlaneCovariance Errors) Drawn(DownwindVector mean, PlaneCovariance errors)
    {
        var own = Dense(errors);
        var sum = _spread + own;
        if (!(sum.Determinant() > 1e-12 * sum.Trace() * sum.Trace())) return (default, PlaneCovariance.Of(_spread));
        var kept = _spread * sum.Inverse();
        var drawn = kept * Vector<double>.Build.Dense([mean.Downwind, mean.Right]);
        return (new DownwindVector(drawn[0], drawn[1]), PlaneCovariance.Of(_spread - kept * _spread));
    }

    private static Matrix<double> Square(DownwindVector v) => Matrix<double>.Build.Dense(2, 2, [v.Downwind * v.Downwind, v.Downwind * v.Right, v.Downwind * v.Right, v.Right * v.Right]);

    private static Matrix<double> Dense(PlaneCovariance c) => Matrix<double>.Build.Dense(2, 2, [c.VarianceDownwind, c.Covariance, c.Covariance, c.VarianceRight]);
}
