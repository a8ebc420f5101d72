using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>A fitted two-level model of one or two axes, in the units of the points.</summary>
internal sealed class LevelSolution
{
    private readonly LevelData _data;
    private readonly LevelSums _sums;
    private readonly Matrix<double> _unscale;
    private readonly Matrix<double> _coefficients;
    private readonly double[] _errors;
    private readonly Matrix<double>[] _covariances;
    private readonly LevelRanks _ranks;

    /// <summary>Takes a maximum found on scaled axes back to the points' own.</summary>
    /// <param name="data">The points.</param>
    /// <param name="sums">Their sums, not scaled.</param>
    /// <param name="restricted">Whether the likelihood is the restricted one.</param>
    /// <param name="unscale">The axes are this lower triangle times the scaled ones.</param>
    /// <param name="maximum">The maximum.</param>
    /// <param name="entries">Covariance of the estimated entries of the scaled covariances.</param>
    public LevelSolution(LevelData data, LevelSums sums, bool restricted, Matrix<double> unscale,
        LevelMaximum maximum, Matrix<double> entries)
    {
        (_data, _sums, _unscale, _ranks) = (data, sums, unscale, maximum.Ranks);
        _covariances = [.. maximum.Factors.Select(f => unscale * f).Select(f => f.TransposeAndMultiply(f))];
        var move = Matrix<double>.Build.DenseIdentity(_covariances.Length).KroneckerProduct(OfEntries(unscale));
        Entries = move * entries * move.Transpose();
        _coefficients = maximum.Likelihood.Coefficients.Values * unscale.Transpose();
        _errors = maximum.Likelihood.Coefficients.Errors;
        var count = sums.Points - (restricted ? sums.Fixed : 0);
        var slopes = restricted && sums.Fixed > 1 ? sums.Axes * Math.Log(sums.Along.Scale) : 0;
        LogLikelihood = -maximum.Likelihood.Deviance / 2 - count * unscale.Diagonal().Sum(Math.Log) - slopes;
        if (sums.Fixed == 1)
        {
            (Mean, MeanErrors) = (MeanAt(0), ErrorsOf([(sums.Raters, 1)]));
            return;
        }
        var (centre, scale) = sums.Along;
        (Mean, MeanErrors) = (MeanAt(-centre / scale), ErrorsOf([(sums.Raters, 1), (sums.Raters + 1, -centre / scale)]));
        (Slope, SlopeErrors) = ([.. _coefficients.Row(sums.Raters + 1).Select(c => c / scale)], ErrorsOf([(sums.Raters + 1, 1 / scale)]));
    }

    /// <summary>What points, clusters and raters are called in texts.</summary>
    public SampleNouns Nouns => _data.Nouns;

    /// <summary>Covariance of a level: 0 within clusters, 1 between them, 2 between raters; null without that level.</summary>
    public Matrix<double>? CovarianceOf(int level) => _covariances.ElementAtOrDefault(level);

    /// <summary>Number of directions in which a level scatters; 0 without that level.</summary>
    public int RankOf(int level) => level == 0 ? Axes : level == 1 ? _ranks.Between : _ranks.Rater;

    /// <summary>
    /// Covariance of the estimates of the covariances' entries: within, between, raters, the lower triangle of each by columns.
    /// </summary>
    public Matrix<double> Entries { get; }

    public double LogLikelihood { get; }

    /// <summary>The mean of each axis, where what it runs along is zero.</summary>
    public double[] Mean { get; }

    /// <summary>Covariance of the mean's errors.</summary>
    public Matrix<double> MeanErrors { get; }

    /// <summary>The mean's change of each axis by what it runs along; null when it is constant.</summary>
    public double[]? Slope { get; }

    /// <summary>Covariance of the slope's errors; null without one.</summary>
    public Matrix<double>? SlopeErrors { get; }

    public int Axes => _sums.Axes;
    public int Points => _sums.Points;
    public int Clusters => _sums.Clusters;
    public double EvenPoints => _sums.EvenPoints;

    /// <summary>Best predictions of the raters' effects, with the covariance of their errors.</summary>
    public IEnumerable<(double[] Effect, Matrix<double> Errors)> RaterEffects() =>
        Enumerable.Range(0, _sums.Raters).Select(k => (_coefficients.Row(k).ToArray(), ErrorsOf([(k, 1)])));

    /// <summary>
    /// Best linear unbiased predictions of the clusters' effects, with the covariance of their errors, which counts those of the mean
    /// and of the raters' effects too.
    /// </summary>
    public IEnumerable<(int Points, double[] Effect, Matrix<double> Errors)> ClusterEffects()
    {
        var (within, between) = (_covariances[0], _covariances[1]);
        var shrinkages = _sums.Sizes.ToDictionary(s => s.Points, s => s.Points * between * (within + s.Points * between).Inverse());
        var alike = new Dictionary<int, Matrix<double>>();
        for (var m = 0; m < _data.Start.Length - 1; m++)
        {
            var n = _data.PointsOf(m).Length;
            if (n == 0)
            {
                yield return (0, new double[Axes], between);
                continue;
            }
            var (shrinkage, columns) = (shrinkages[n], ColumnsOf(m));
            if (columns.Count > 1 || !alike.TryGetValue(n, out var errors))
            {
                errors = between - shrinkage * between + shrinkage * ErrorsOf(columns) * shrinkage.Transpose();
                if (columns.Count == 1) alike[n] = errors;
            }
            var effect = new double[Axes];
            for (var b = 0; b < Axes; b++)
            {
                var left = _sums.Means[m][_sums.Fixed - 1 + b];
                foreach (var (column, weight) in columns) left -= weight * _coefficients[column, b];
                for (var a = 0; a < Axes; a++) effect[a] += shrinkage[a, b] * left;
            }
            yield return (n, effect, errors);
        }
    }

    // The cluster's means of the columns that carry coefficients, those that are not zero.
    private List<(int Column, double Weight)> ColumnsOf(int cluster)
    {
        var columns = new List<(int, double)>(2) { (_sums.Raters, 1) };
        if (_sums.Fixed > 1) columns.Add((_sums.Raters + 1, _sums.Means[cluster][0]));
        if (_data.Rater is not { } rater) return columns;
        var points = _data.PointsOf(cluster);
        var shares = new SortedDictionary<int, int>();
        foreach (var i in points) shares[rater[i]] = shares.GetValueOrDefault(rater[i]) + 1;
        foreach (var (k, count) in shares) columns.Add((k, (double)count / points.Length));
        return columns;
    }

    private double[] MeanAt(double along) => [.. _sums.Centre.Select((c, a) =>
        c + _coefficients[_sums.Raters, a] + (along == 0 ? 0 : along * _coefficients[_sums.Raters + 1, a]))];

    // Covariance of the error of a sum of coefficients.
    private Matrix<double> ErrorsOf(List<(int Column, double Weight)> sum)
    {
        var scaled = Matrix<double>.Build.Dense(Axes, Axes);
        for (var a = 0; a < Axes; a++)
        {
            for (var b = 0; b < Axes; b++)
            {
                foreach (var (k, first) in sum)
                {
                    foreach (var (l, second) in sum) scaled[a, b] +=
                        first * second * _errors[(a * _sums.Coefficients + k) * Axes * _sums.Coefficients + b * _sums.Coefficients + l];
                }
            }
        }
        return _unscale * scaled * _unscale.Transpose();
    }

    // How the entries of T Σ Tᵀ come from those of Σ.
    private static Matrix<double> OfEntries(Matrix<double> t)
    {
        (int, int)[] entries = t.RowCount == 1 ? [(0, 0)] : [(0, 0), (1, 0), (1, 1)];
        return Matrix<double>.Build.Dense(entries.Length, entries.Length, (i, j) =>
        {
            var ((a, b), (c, d)) = (entries[i], entries[j]);
            return c == d ? t[a, c] * t[b, d] : t[a, c] * t[b, d] + t[a, d] * t[b, c];
        });
    }
}
