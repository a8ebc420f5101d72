using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>Number of directions in which the clusters, and the raters, scatter.</summary>
internal readonly record struct LevelRanks(int Between, int Rater);

/// <summary>A maximum of the likelihood.</summary>
/// <param name="Ranks">Ranks of the covariances found.</param>
/// <param name="Factors">A factor of each covariance: within, between, and between raters when they are in the model.</param>
/// <param name="End">Where the search ended; its Hessian is by the free numbers of the factors.</param>
/// <param name="Likelihood">The likelihood there.</param>
internal sealed record LevelMaximum(LevelRanks Ranks, IReadOnlyList<Matrix<double>> Factors, SearchEnd End, LevelPoint Likelihood);

/// <summary>
/// Maximises the likelihood over covariances Σ = Λ Λᵀ, Λ the first columns of a lower triangle, as many as the rank. The search has the
/// full rank first. Where an end lies on the edge (a covariance all but singular) the rank is lowered and the search goes on among singular
/// covariances only, which makes the zero exact; that end counts when no covariance of higher rank near it does better, that is when the
/// derivative by the covariance is not negative in any direction (Karush, Kuhn and Tucker's condition). A few points may have more than one
/// maximum: the search begins at several places and the highest end counts.
/// </summary>
internal sealed class LevelSearch(LevelLikelihood likelihood, LevelSums sums, bool withRaters)
{
    // Of the variance of a cluster's or rater's mean: a direction with less is tried as none. And of terms that
    // cancel: the condition's rounding.
    private const double Slight = 1e-5;
    private const double RoundOff = 1e-8;

    // Standard deviation within clusters, in the scaled unit, that is far below what their scatter allows; there
    // the likelihood is all rounding.
    private const double Collapsed = 1e-3;

    private readonly int _axes = sums.Axes;
    private readonly double _unit = 1 / sums.EvenPoints;

    /// <summary>
    /// The highest maximum found, or null when no search ended in one. The axes must be scaled to a covariance near one within clusters.
    /// </summary>
    public LevelMaximum? Maximise()
    {
        var (moments, slight) = (MomentsBetween(), Matrix<double>.Build.DenseIdentity(_axes) * (0.1 * _unit));
        var found = new List<LevelMaximum>();
        var large = moments + 100 * slight;
        (Matrix<double>, Matrix<double>?)[] starts = withRaters
            ? [(moments / 2, moments / 2), (moments, slight), (slight, moments), (slight, slight), (large, large)]
            : [(moments, null), (slight, null), (large, null)];
        foreach (var (between, rater) in starts)
        {
            if (Climb(between, rater) is { End.Converged: true } end) found.Add(end);
        }
        return found.MinBy(m => m.Likelihood.Deviance);
    }

    private LevelMaximum? Climb(Matrix<double> between, Matrix<double>? rater)
    {
        var ranks = new LevelRanks(_axes, withRaters ? _axes : 0);
        var best = From(ranks, Matrix<double>.Build.DenseIdentity(_axes), between, rater);
        while (best is not null && Lowered(best) is { } next) best = next;
        return best;
    }

    // The end of a search among covariances of lower rank, when the one at hand is all but singular and the lower rank does as well. A
    // search that did not come to rest may have crept along such an edge: then any rank lower by one is tried.
    private LevelMaximum? Lowered(LevelMaximum high)
    {
        var now = high.Ranks;
        var lower = new LevelRanks(
            RankOf(high.Factors[1], _axes * sums.Clusters / high.Likelihood.BetweenSize),
            withRaters ? RankOf(high.Factors[2], _axes * sums.Raters / high.Likelihood.Coefficients.RaterSize) : 0);
        var tried = new List<LevelRanks> { lower, now with { Between = lower.Between }, now with { Rater = lower.Rater } };
        if (!high.End.Converged)
            tried.AddRange([now with { Rater = now.Rater - 1 }, now with { Between = now.Between - 1 },
                new(now.Between - 1, now.Rater - 1)]);
        foreach (var ranks in tried.Distinct().Where(r => r != now && r is { Between: >= 0, Rater: >= 0 }))
        {
            if (From(ranks, Square(high.Factors[0]), Square(high.Factors[1]),
                withRaters ? Square(high.Factors[2]) : null) is { End.Converged: true } end && IsBest(end)) return end;
        }
        return null;
    }

    /// <summary>How the entries of the covariances (lower triangles: within, between, raters) move with the free numbers.</summary>
    public Matrix<double> Jacobian(LevelMaximum maximum)
    {
        var entries = _axes * (_axes + 1) / 2;
        var result = Matrix<double>.Build.Dense(entries * maximum.Factors.Count, maximum.End.Place.Length);
        var column = 0;
        for (var m = 0; m < maximum.Factors.Count; m++)
        {
            var factor = maximum.Factors[m];
            foreach (var (i, j) in Free(RankAt(maximum.Ranks, m)))
            {
                var row = entries * m;
                foreach (var (a, b) in Free(_axes)) result[row++, column] = (a == i ? factor[b, j] : 0) + (b == i ? factor[a, j] : 0);
                column++;
            }
        }
        return result;
    }

    private LevelMaximum? From(LevelRanks ranks, Matrix<double> within, Matrix<double> between, Matrix<double>? rater)
    {
        double[] start = [.. Numbers(within, _axes), .. Numbers(between, ranks.Between),
            .. rater is null ? [] : Numbers(rater, ranks.Rater)];
        var end = NewtonSearch.Minimise((x, gradient) => At(ranks, x, gradient)?.Deviance ?? double.PositiveInfinity, start, Scale(ranks));
        return At(ranks, end.Place, new double[start.Length]) is { } point
            ? new LevelMaximum(ranks, Factors(ranks, end.Place), end, point) : null;
    }

    private LevelPoint? At(LevelRanks ranks, double[] x, double[] gradient)
    {
        var factors = Factors(ranks, x);
        if (factors[0].Diagonal().Any(d => Math.Abs(d) < Collapsed)) return null;
        if (likelihood.At(Square(factors[0]), Square(factors[1]), withRaters ? factors[2] : null) is not { } point) return null;
        var next = 0;
        for (var m = 0; m < factors.Length; m++)
        {
            var slopes = (m == 0 ? point.Within : m == 1 ? point.Between : point.Coefficients.ByRater!) * factors[m];
            foreach (var (i, j) in Free(RankAt(ranks, m))) gradient[next++] = 2 * slopes[i, j];
        }
        return point;
    }

    // No covariance of higher rank close by does better.
    private static bool IsBest(LevelMaximum end) =>
        Least(end.Likelihood.Between) >= -RoundOff * end.Likelihood.BetweenSize
        && (end.Likelihood.Coefficients.ByRater is not { } rater || Least(rater) >= -RoundOff * end.Likelihood.Coefficients.RaterSize);

    private static double Least(Matrix<double> symmetric) => symmetric.Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real);

    private static int RankOf(Matrix<double> factor, double unit) =>
        Square(factor).Evd(Symmetricity.Symmetric).EigenValues.Count(v => v.Real > Slight * unit);

    // Covariance between clusters by moments, not below a small part of what would just be seen.
    private Matrix<double> MomentsBetween()
    {
        var squares = Matrix<double>.Build.Dense(_axes, _axes);
        foreach (var size in sums.Sizes) squares += size.Between.Axes;
        var moments = (squares / (sums.Clusters - 1) - Matrix<double>.Build.DenseIdentity(_axes)) * _unit;
        var parts = moments.Evd(Symmetricity.Symmetric);
        return parts.EigenVectors * Matrix<double>.Build.Diagonal(_axes, _axes, k => Math.Max(parts.EigenValues[k].Real, 0.05 * _unit))
            * parts.EigenVectors.Transpose();
    }

    private static Matrix<double> Square(Matrix<double> factor) => factor.TransposeAndMultiply(factor);

    private int RankAt(LevelRanks ranks, int matrix) => matrix == 0 ? _axes : matrix == 1 ? ranks.Between : ranks.Rater;

    private IEnumerable<(int Row, int Column)> Free(int rank)
    {
        for (var j = 0; j < rank; j++)
        {
            for (var i = j; i < _axes; i++) yield return (i, j);
        }
    }

    private double[] Scale(LevelRanks ranks) =>
        [.. Free(_axes).Select(_ => 1.0), .. Free(ranks.Between).Select(_ => Math.Sqrt(_unit)),
            .. withRaters ? Free(ranks.Rater).Select(_ => Math.Sqrt(_unit)) : []];

    private Matrix<double>[] Factors(LevelRanks ranks, double[] x)
    {
        var factors = new Matrix<double>[withRaters ? 3 : 2];
        var next = 0;
        for (var m = 0; m < factors.Length; m++)
        {
            factors[m] = Matrix<double>.Build.Dense(_axes, _axes);
            foreach (var (i, j) in Free(RankAt(ranks, m))) factors[m][i, j] = x[next++];
        }
        return factors;
    }

    // The free numbers of the best factor of a rank.
    private double[] Numbers(Matrix<double> covariance, int rank)
    {
        if (rank == 0) return [];
        if (rank == _axes) return Of(Triangle(covariance));
        var parts = covariance.Evd(Symmetricity.Symmetric);
        var order = Enumerable.Range(0, _axes).OrderByDescending(k => parts.EigenValues[k].Real).Take(rank).ToArray();
        return Of(Matrix<double>.Build.DenseOfColumnVectors(
            order.Select(k => parts.EigenVectors.Column(k) * Math.Sqrt(Math.Max(0, parts.EigenValues[k].Real)))));

        double[] Of(Matrix<double> factor) => [.. Free(rank).Select(f => factor[f.Row, f.Column])];
    }

    // Cholesky's factor, of a covariance that may be singular.
    private static Matrix<double> Triangle(Matrix<double> covariance)
    {
        var factor = Matrix<double>.Build.Dense(covariance.RowCount, covariance.RowCount);
        factor[0, 0] = Math.Sqrt(Math.Max(0, covariance[0, 0]));
        if (factor.RowCount == 1) return factor;
        factor[1, 0] = factor[0, 0] > 0 ? covariance[1, 0] / factor[0, 0] : 0;
        factor[1, 1] = Math.Sqrt(Math.Max(0, covariance[1, 1] - factor[1, 0] * factor[1, 0]));
        return factor;
    }
}
