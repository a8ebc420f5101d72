using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// The log-odds of a hit as conditions + spotter, fitted to every landing, with covariances that take missions as the units.
/// </summary>
/// <remarks>
/// Quasi-likelihood with a dispersion between missions (Wedderburn 1974, Biometrika 61:439-447; McCullagh and Nelder 1989, chapter 9),
/// pulls on conditions and spotters as normal densities. The spotter's own level is in the model, so that it does not enter the expectation
/// of that spotter's landings; dispersion: Pearson residuals of missions.
/// </remarks>
internal sealed class FairComparisonFit
{
    /// <summary>
    /// Standard deviation of the pull on a spotter's level, log-odds: wide, and taken out again where differences are judged.
    /// </summary>
    private const double SpotterSd = 1;

    /// <summary>Missions as many as which the base's dispersion counts beside the spotter's own.</summary>
    public const int BaseMissions = 20;

    private const int MostSteps = 100;

    private readonly FairComparisonCounts _counts;
    private readonly int _conditions;
    private readonly double[] _pulls, _at, _weights;

    private FairComparisonFit(FairComparisonCounts counts, double[] at, double[] pulls)
    {
        (_counts, _at, _pulls, _conditions) = (counts, at, pulls, counts.Pulls.Length);
        var k = counts.Spotters.Count;
        var chances = counts.Rows.Select(r => Kernels.Logistic(Level(r) + at[_conditions + r.Spotter])).ToArray();
        _weights = [.. counts.Rows.Zip(chances, (r, p) => r.Landings * p * (1 - p))];
        var hessian = Information(_ => 1) + Matrix<double>.Build.DenseOfDiagonalArray(pulls);
        var inverse = hessian.Inverse();
        Dispersions = Dispersed(chances, Enumerable.Range(0, pulls.Length).Sum(j => 1 - inverse[j, j] * pulls[j]));
        var meat = Information(s => Dispersions[s]);
        Covariance = inverse * (meat + Matrix<double>.Build.DenseOfDiagonalArray(pulls)) * inverse;

        // Differences between spotters without the pull on them: the efficient information and score at the fit, one Newton step from it.
        var (all, n) = (Information(_ => 1), _conditions);
        var own = all.SubMatrix(0, n, 0, n) + Matrix<double>.Build.DenseOfDiagonalArray(counts.Pulls);
        var across = all.SubMatrix(n, k, 0, n) * own.Inverse();
        var information = all.SubMatrix(n, k, n, k) - across * all.SubMatrix(0, n, n, k);
        var reduce = (-across).Append(Matrix<double>.Build.DenseIdentity(k));
        var spread = reduce * (meat + Matrix<double>.Build.DenseOfDiagonalArray([.. counts.Pulls, .. new double[k]])) * reduce.Transpose();
        // The inverse on differences: information has no say on what all spotters share.
        var invert = (information + 1.0 / k).Inverse() - 1.0 / k;
        var level = Vector<double>.Build.Dense(k, s => at[n + s]);
        Differences = (level + invert * (level / (SpotterSd * SpotterSd))).ToArray();
        DifferenceCovariance = invert * spread * invert.Transpose();
    }

    /// <summary>Variance of hits over that of independent landings, for each spotter; 1 or more.</summary>
    public double[] Dispersions { get; }

    /// <summary>Covariance of everything fitted.</summary>
    public Matrix<double> Covariance { get; }

    /// <summary>Log-odds of the spotters, of which only differences tell, without the pull on them.</summary>
    public double[] Differences { get; }

    /// <summary>Their covariance.</summary>
    public Matrix<double> DifferenceCovariance { get; }

    /// <summary>Fits, or gives null where the fit does not settle.</summary>
    public static FairComparisonFit? Of(FairComparisonCounts counts)
    {
        double[] pulls = [.. counts.Pulls, .. counts.Spotters.Select(_ => 1 / (SpotterSd * SpotterSd))];
        var at = new double[pulls.Length];
        double hits = counts.Rows.Sum(r => r.Hits), landings = counts.Rows.Sum(r => r.Landings);
        at[0] = Math.Log((hits + 0.5) / (landings - hits + 0.5));
        var height = Height(at);
        for (var step = 0; step < MostSteps; step++)
        {
            var (slope, hessian) =
                (Vector<double>.Build.Dense(at.Length, j => -pulls[j] * at[j]), Matrix<double>.Build.DenseOfDiagonalArray(pulls));
            foreach (var row in counts.Rows)
            {
                var p = Kernels.Logistic(Level(row, at) + at[counts.Pulls.Length + row.Spotter]);
                foreach (var (i, x) in row.Conditions) slope[i] += x * (row.Hits - row.Landings * p);
                slope[counts.Pulls.Length + row.Spotter] += row.Hits - row.Landings * p;
                Add(hessian, row, counts.Pulls.Length + row.Spotter, row.Landings * p * (1 - p));
            }
            var move = hessian.Solve(slope);
            if (!move.ForAll(double.IsFinite)) return null;
            if (move.AbsoluteMaximum() < 1e-9) return new FairComparisonFit(counts, at, pulls);
            var (share, next, higher) = (1.0, at, double.NegativeInfinity);
            for (; share > 1e-6 && !(higher >= height - 1e-9 - 1e-12 * Math.Abs(height)); share /= 2)
            {
                next = [.. at.Select((x, j) => x + share * move[j])];
                higher = Height(next);
            }
            (at, height) = (next, higher);
        }
        return null;

        double Height(double[] x) => counts.Rows.Sum(r =>
        {
            var level = Level(r, x) + x[counts.Pulls.Length + r.Spotter];
            return r.Hits * level - r.Landings * (level > 0 ? level + Math.Log(1 + Math.Exp(-level)) : Math.Log(1 + Math.Exp(level)));
        }) - x.Select((v, j) => pulls[j] * v * v / 2).Sum();
    }

    /// <summary>A spotter's landings as the others would have flown them, or the spotter's difference from it.</summary>
    public FairComparisonDifference Difference(int spotter)
    {
        var rows = _counts.Rows.Select((r, i) => (Row: r, Weight: _weights[i])).Where(r => r.Row.Spotter == spotter).ToList();
        var shares = OthersShares(spotter);
        var along = Vector<double>.Build.Dense(_at.Length);
        var weight = rows.Sum(r => r.Weight);
        foreach (var (row, w) in rows)
        {
            foreach (var (j, x) in row.Conditions) along[j] += x * w / weight;
        }
        for (var t = 0; t < shares.Length; t++) along[_conditions + t] = shares[t];
        return new FairComparisonDifference(
            [.. rows.Select(r => LevelOfMean(Level(r.Row)))], [.. rows.Select(r => r.Row.Landings)],
            rows.Sum(r => r.Row.Hits), Dispersions[spotter],
            along * Covariance * along, Freedom(spotter));

        // The mean chance of the others, not the chance at their mean level: the curve between them would make
        // everyone fall short a little.
        double LevelOfMean(double conditions)
        {
            var chance = shares.Select((share, t) => share * Kernels.Logistic(conditions + _at[_conditions + t])).Sum();
            return Kernels.Logit(chance);
        }
    }

    /// <summary>Degrees of freedom of a spotter's dispersion.</summary>
    public int Freedom(int spotter) =>
        _counts.Rows.Where(r => r.Spotter == spotter).Select(r => r.Flight).Distinct().Count() - 1 + BaseMissions;

    /// <summary>How much each other spotter counts in what is expected of one: by landings.</summary>
    public double[] OthersShares(int spotter)
    {
        var landings = new double[_counts.Spotters.Count];
        foreach (var row in _counts.Rows.Where(r => r.Spotter != spotter)) landings[row.Spotter] += row.Landings;
        var all = landings.Sum();
        return [.. landings.Select(n => n / all)];
    }

    /// <summary>
    /// Pearson's dispersion of each spotter's missions and of all, weighed by missions; all with the parameters fitted counted off.
    /// </summary>
    private double[] Dispersed(double[] chances, double fitted)
    {
        var (residual, variance, spotter) = (new double[_counts.Flights], new double[_counts.Flights], new int[_counts.Flights]);
        for (var i = 0; i < chances.Length; i++)
        {
            var row = _counts.Rows[i];
            residual[row.Flight] += row.Hits - row.Landings * chances[i];
            variance[row.Flight] += _weights[i];
            spotter[row.Flight] = row.Spotter;
        }
        var flights = Enumerable.Range(0, _counts.Flights).ToLookup(f => spotter[f]);
        var whole = Ratio(Enumerable.Range(0, _counts.Flights)) * _counts.Flights / Math.Max(1, _counts.Flights - fitted);
        return [.. _counts.Spotters.Select((_, s) =>
        {
            var m = flights[s].Count();
            var alone = m > 1 ? Ratio(flights[s]) * m / (m - 1) : whole;
            return Math.Max(1, ((m - 1) * alone + BaseMissions * whole) / (m - 1 + BaseMissions));
        })];

        double Ratio(IEnumerable<int> of) => of.Sum(f => residual[f] * residual[f]) / of.Sum(f => variance[f]);
    }

    private Matrix<double> Information(Func<int, double> dispersion)
    {
        var sum = Matrix<double>.Build.Dense(_at.Length, _at.Length);
        for (var i = 0; i < _weights.Length; i++)
        {
            var row = _counts.Rows[i];
            Add(sum, row, _conditions + row.Spotter, _weights[i] * dispersion(row.Spotter));
        }
        return sum;
    }

    private double Level(FlightCount row) => Level(row, _at);

    private static double Level(FlightCount row, double[] at)
    {
        var level = 0.0;
        foreach (var (column, value) in row.Conditions) level += value * at[column];
        return level;
    }

    /// <summary>Adds what a count with a weight tells of conditions and spotter.</summary>
    private static void Add(Matrix<double> sum, FlightCount row, int spotter, double weight)
    {
        foreach (var (a, x) in row.Conditions)
        {
            foreach (var (b, y) in row.Conditions) sum[a, b] += weight * x * y;
            sum[a, spotter] += weight * x;
            sum[spotter, a] += weight * x;
        }
        sum[spotter, spotter] += weight;
    }
}
