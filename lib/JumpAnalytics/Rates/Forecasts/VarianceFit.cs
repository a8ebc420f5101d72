using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// Variances of sources of error by maximum likelihood: misses of a mission are normal with a common mean and a covariance that is a sum of
/// the sources' shapes times their variances, and the known errors of measuring. Fisher's scoring (Patterson and Thompson 1971, Biometrika
/// 58:545-554, with the mean by weighted least squares), variances not below zero.
/// </summary>
internal sealed class VarianceFit
{
    private readonly IReadOnlyList<Block> _blocks;
    private readonly int _sources;

    private VarianceFit(IReadOnlyList<Block> blocks, int sources) => (_blocks, _sources) = (blocks, sources);

    private sealed record Block(Vector<double> Misses, Matrix<double>[] Shapes, Matrix<double> Known);

    public double[] Variances { get; private set; } = [];

    public PlaneVector Mean { get; private set; }

    public double LogLikelihood { get; private set; }

    /// <summary>Information about the variances, summed over missions.</summary>
    public Matrix<double> Information { get; private set; } = Matrix<double>.Build.Dense(1, 1);

    private (double[] Score, Matrix<double> Information)[] _byMission = [];

    public static Fit<VarianceFit> Of(IReadOnlyList<IReadOnlyList<Landing>> missions, IReadOnlyList<SourceShape> shapes)
    {
        var fit = new VarianceFit([.. missions.Select(m => Made(m, shapes))], shapes.Count);
        return fit.Climb() ? Fit<VarianceFit>.Made(fit) : Fit<VarianceFit>.Refused("the search for their variances does not settle");
    }

    /// <summary>Variances that a resample of missions gives, by one step from the fit.</summary>
    public double[] Resampled(int[] draws)
    {
        var (score, information) = (new double[_sources], Matrix<double>.Build.Dense(_sources, _sources));
        for (var m = 0; m < draws.Length; m++)
        {
            if (draws[m] == 0) continue;
            for (var k = 0; k < _sources; k++) score[k] += draws[m] * _byMission[m].Score[k];
            information += draws[m] * _byMission[m].Information;
        }
        return Stepped(Variances, score, information);
    }

    /// <summary>One mission; without landings it tells nothing, and stays for the sake of the count.</summary>
    private static Block Made(IReadOnlyList<Landing> landings, IReadOnlyList<SourceShape> shapes)
    {
        var n = 2 * landings.Count;
        var misses =
            Vector<double>.Build.Dense([.. landings.SelectMany(l => new[] { l.MissDownwind!.Value.Along, l.MissDownwind.Value.Across })]);
        var known = Matrix<double>.Build.DenseDiagonal(n, n, i => Math.Pow(landings[i / 2].MeasuredSd ?? 0, 2));
        return new Block(misses, [.. shapes.Select(s => Shape(landings, s))], known);
    }

    private static Matrix<double> Shape(IReadOnlyList<Landing> landings, SourceShape shape)
    {
        var matrix = Matrix<double>.Build.Dense(2 * landings.Count, 2 * landings.Count);
        var vectors = landings.Select(l => shape.Vectors(l).ToList()).ToList();
        for (var i = 0; i < landings.Count; i++)
        {
            for (var j = 0; j < landings.Count; j++)
            {
                if (i != j && (shape.Level == SourceLevel.Jumper
                    || (shape.Level == SourceLevel.Pass && landings[i].Drop.Id != landings[j].Drop.Id))) continue;
                for (var q = 0; q < Math.Min(vectors[i].Count, vectors[j].Count); q++)
                {
                    var (a, b) = (vectors[i][q], vectors[j][q]);
                    matrix[2 * i, 2 * j] += a.Downwind * b.Downwind;
                    matrix[2 * i, 2 * j + 1] += a.Downwind * b.Right;
                    matrix[2 * i + 1, 2 * j] += a.Right * b.Downwind;
                    matrix[2 * i + 1, 2 * j + 1] += a.Right * b.Right;
                }
            }
        }
        return matrix;
    }

    /// <summary>Climbs to the largest likelihood; false when it does not settle there.</summary>
    private bool Climb()
    {
        var start = _blocks.Sum(b => b.Misses.DotProduct(b.Misses)) / _blocks.Sum(b => b.Misses.Count);
        var now = Enumerable.Repeat(start / _sources, _sources).ToArray();
        if (Evaluate(now) is not { } at) return false;
        var settled = false;
        for (var round = 0; round < 100 && !settled; round++)
        {
            var next = Stepped(now, at.Score, at.Information);
            var (tried, shrink) = (Evaluate(next), 1.0);
            while (!(tried?.LogLikelihood >= at.LogLikelihood - 1e-9) && shrink > 1e-6)
            {
                shrink /= 2;
                next = [.. now.Zip(next, (a, b) => a + (b - a) / 2)];
                tried = Evaluate(next);
            }
            if (tried is not { } better) return false;
            settled = Math.Abs(better.LogLikelihood - at.LogLikelihood) < 1e-8;
            (now, at) = (next, better);
        }
        (Variances, LogLikelihood, Mean, Information, _byMission) = (now, at.LogLikelihood, at.Mean, at.Information, at.ByMission);
        return settled;
    }

    /// <summary>
    /// A scoring step; a variance that would fall below zero stays there, and the others step anew. One of which the missions say nothing
    /// stays where it is.
    /// </summary>
    private double[] Stepped(double[] from, double[] score, Matrix<double> information)
    {
        var told = Enumerable.Range(0, _sources).Where(k => information[k, k] > 0).ToList();
        var free = told.ToList();
        var next = (double[])from.Clone();
        foreach (var k in told) next[k] = 0;
        while (free.Count > 0)
        {
            var small = Matrix<double>.Build.Dense(free.Count, free.Count,
                (i, j) => information[free[i], free[j]] + (i == j ? 1e-10 * information[free[i], free[i]] : 0));
            // variances that are held at zero leave the others a step of their own
            var held = told.Except(free).ToList();
            var right = Vector<double>.Build.Dense(free.Count, i => score[free[i]] + held.Sum(h => information[free[i], h] * from[h]));
            var step = small.Solve(right);
            for (var i = 0; i < free.Count; i++) next[free[i]] = from[free[i]] + step[i];
            var below = free.Where(k => !(next[k] >= 0)).ToList();
            if (below.Count == 0) return next;
            foreach (var k in below) next[k] = 0;
            free.RemoveAll(below.Contains);
        }
        return next;
    }

    /// <summary>The likelihood and its slopes; null where a covariance is too far from regular for plain numbers.</summary>
    private (double LogLikelihood, PlaneVector Mean, double[] Score, Matrix<double> Information,
        (double[] Score, Matrix<double> Information)[] ByMission)? Evaluate(double[] variances)
    {
        if (!variances.All(double.IsFinite)) return null;
        var inverses = new Matrix<double>[_blocks.Count];
        var logs = new double[_blocks.Count];
        Parallel.For(0, _blocks.Count, m =>
        {
            var v = _blocks[m].Known.Clone();
            for (var k = 0; k < _sources; k++) v += variances[k] * _blocks[m].Shapes[k];
            for (var i = 0; i < v.RowCount; i++) v[i, i] += 0.25; // half a metre: no record is finer, and the matrix stays regular
            try
            {
                var cholesky = v.Cholesky();
                (inverses[m], logs[m]) = (cholesky.Solve(Matrix<double>.Build.DenseIdentity(v.RowCount)), cholesky.DeterminantLn);
            }
            catch (ArgumentException) // not positive definite
            {
                logs[m] = double.NaN;
            }
        });
        if (!logs.All(double.IsFinite)) return null;
        var (weights, sums) = (Matrix<double>.Build.Dense(2, 2), Vector<double>.Build.Dense(2));
        for (var m = 0; m < _blocks.Count; m++)
        {
            for (var i = 0; i < inverses[m].RowCount; i++)
            {
                for (var j = 0; j < inverses[m].RowCount; j++)
                {
                    weights[i % 2, j % 2] += inverses[m][i, j];
                    sums[i % 2] += inverses[m][i, j] * _blocks[m].Misses[j];
                }
            }
        }
        var mean = weights.Solve(sums);
        var parts = new (double Log, double[] Score, Matrix<double> Information)[_blocks.Count];
        Parallel.For(0, _blocks.Count, m =>
        {
            var (inverse, block) = (inverses[m], _blocks[m]);
            var rest = block.Misses - Vector<double>.Build.Dense(block.Misses.Count, i => mean[i % 2]);
            var weighted = inverse * rest;
            var products = block.Shapes.Select(s => inverse * s).ToArray();
            var (score, information) = (new double[_sources], Matrix<double>.Build.Dense(_sources, _sources));
            for (var k = 0; k < _sources; k++)
            {
                score[k] = 0.5 * (weighted * block.Shapes[k] * weighted - products[k].Trace());
                for (var l = 0; l <= k; l++)
                    information[k, l] = information[l, k] = 0.5 * products[k].PointwiseMultiply(products[l].Transpose()).Enumerate().Sum();
            }
            parts[m] = (-0.5 * (logs[m] + rest * weighted + rest.Count * Math.Log(2 * Math.PI)), score, information);
        });
        var total = parts.Aggregate((Log: 0.0, Score: new double[_sources], Information: Matrix<double>.Build.Dense(_sources, _sources)),
            (a, b) => (a.Log + b.Log, [.. a.Score.Zip(b.Score, (x, y) => x + y)], a.Information + b.Information));
        return (total.Log, new PlaneVector(mean[0], mean[1]), total.Score, total.Information,
            [.. parts.Select(p => (p.Score, p.Information))]);
    }
}
