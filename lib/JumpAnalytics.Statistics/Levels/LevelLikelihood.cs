using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>The likelihood at one choice of covariances.</summary>
/// <param name="Deviance">−2 log-likelihood, full or restricted, all constants in.</param>
/// <param name="Within">Its derivative by the covariance within clusters: a change dΣ adds tr(Within · dΣ).</param>
/// <param name="Between">The same for the covariance between clusters.</param>
/// <param name="BetweenSize">Size of the terms that cancel in <paramref name="Between"/>.</param>
/// <param name="Coefficients">Raters' effects and the mean; the derivative by the covariance between raters.</param>
internal sealed record LevelPoint(double Deviance, Matrix<double> Within, Matrix<double> Between,
    double BetweenSize, SolvedCoefficients Coefficients);

/// <summary>
/// −2 log-likelihood of a two-level model with its derivatives, from sums. The cluster effects are integrated out in closed
/// form: for a cluster of n points, deviations from its mean have the covariance Σ_w, and √n times the mean has Σ_w + n Σ_b.
/// Constants as lme4 counts them.
/// </summary>
internal sealed class LevelLikelihood(LevelSums sums, bool restricted)
{
    /// <summary>The likelihood, or null where the covariances can't be.</summary>
    /// <param name="within">Covariance within clusters.</param>
    /// <param name="between">Covariance between clusters.</param>
    /// <param name="raterFactor">A square factor of the covariance between raters; null without them.</param>
    /// <param name="mean">A mean to hold fixed instead of the best one; full likelihood without raters only.</param>
    public LevelPoint? At(Matrix<double> within, Matrix<double> between, Matrix<double>? raterFactor, Matrix<double>? mean = null)
    {
        if (Inverse(within) is not var (inverse, logWithin)) return null;
        var system = new CoefficientSystem(sums.Axes, sums.Coefficients, sums.Raters);
        system.Add(inverse, sums.Within);
        var degrees = sums.Points - sums.Clusters;
        var deviance = (sums.Points - (restricted ? sums.Fixed : 0)) * sums.Axes * Math.Log(2 * Math.PI) + degrees * logWithin;
        var precisions = new Matrix<double>[sums.Sizes.Count];
        for (var s = 0; s < precisions.Length; s++)
        {
            if (Inverse(within + sums.Sizes[s].Points * between) is not var (ofMeans, logMeans)) return null;
            precisions[s] = ofMeans;
            deviance += sums.Sizes[s].Clusters * logMeans;
            system.Add(ofMeans, sums.Sizes[s].Between);
        }
        if (system.Solve(raterFactor, restricted) is not { } solved) return null;
        deviance += solved.LogDeterminant + solved.Penalty;

        var byWithin = degrees * inverse;
        var byBetween = Matrix<double>.Build.Dense(sums.Axes, sums.Axes);
        var betweenSize = 0.0;
        AddResiduals(sums.Within, inverse, 0);
        for (var s = 0; s < precisions.Length; s++)
        {
            var size = sums.Sizes[s];
            byWithin += size.Clusters * precisions[s];
            byBetween += (double)size.Clusters * size.Points * precisions[s];
            betweenSize += (double)size.Clusters * size.Points * precisions[s].Trace();
            AddResiduals(size.Between, precisions[s], size.Points);
        }
        return double.IsFinite(deviance) ? new LevelPoint(deviance, byWithin, byBetween, betweenSize, solved) : null;

        void AddResiduals(Crossproducts of, Matrix<double> precision, int points)
        {
            var squares = Residuals(of, mean ?? solved.Values);
            deviance += (precision * squares).Trace();
            if (solved.Integrated is { } spread) AddSpread(squares, of.Design, spread);
            var term = precision * squares * precision;
            byWithin -= term;
            if (points > 0) byBetween -= points * term;
        }
    }

    // Crossproducts of the axes once the coefficients' part is taken off.
    private Matrix<double> Residuals(Crossproducts of, Matrix<double> coefficients)
    {
        var result = of.Axes.Clone();
        var (columns, predicted) = (of.Design.AsColumnMajorArray(), new double[sums.Coefficients]);
        for (var b = 0; b < sums.Axes; b++)
        {
            Array.Clear(predicted);
            for (var k = 0; k < sums.Coefficients; k++)
                DenseKernels.Add(coefficients.At(k, b), columns.AsSpan(k * sums.Coefficients, sums.Coefficients), predicted);
            for (var a = 0; a < sums.Axes; a++)
            {
                var sum = 0.0;
                for (var k = 0; k < sums.Coefficients; k++)
                    sum += coefficients.At(k, a) * (predicted[k] - of.DesignAxes.At(k, b)) - of.DesignAxes.At(k, a) * coefficients.At(k, b);
                result[a, b] += sum;
            }
        }
        return result;
    }

    // What the coefficients' spread adds to the expected crossproducts.
    private void AddSpread(Matrix<double> squares, Matrix<double> columns, double[] spread)
    {
        var (of, width) = (columns.AsColumnMajorArray(), sums.Axes * sums.Coefficients);
        for (var a = 0; a < sums.Axes; a++)
        {
            for (var b = 0; b < sums.Axes; b++)
            {
                var sum = 0.0;
                for (var k = 0; k < sums.Coefficients; k++)
                {
                    var row = of.AsSpan(k * sums.Coefficients, sums.Coefficients);
                    var part = spread.AsSpan((a * sums.Coefficients + k) * width + b * sums.Coefficients, sums.Coefficients);
                    for (var l = 0; l < row.Length; l++) sum += row[l] * part[l];
                }
                squares[a, b] += sum;
            }
        }
    }

    /// <summary>Inverse and log determinant of a covariance of one or two axes; null when it is not positive definite.</summary>
    private static (Matrix<double> Inverse, double Log)? Inverse(Matrix<double> c)
    {
        if (!(c[0, 0] > 0)) return null;
        if (c.RowCount == 1) return (Matrix<double>.Build.Dense(1, 1, 1 / c[0, 0]), Math.Log(c[0, 0]));
        var determinant = c[0, 0] * c[1, 1] - c[0, 1] * c[1, 0];
        return determinant > 0
            ? (Matrix<double>.Build.Dense(2, 2, [c[1, 1] / determinant, -c[1, 0] / determinant, -c[0, 1] / determinant,
                c[0, 0] / determinant]), Math.Log(determinant))
            : null;
    }
}
