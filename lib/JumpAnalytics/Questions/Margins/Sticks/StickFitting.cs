using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>The most likely <see cref="StickModel"/>, and how each mission would move it.</summary>
internal sealed class StickFitting
{
    private const int Normal = 6, Mixture = 8;
    private const double Unit = 10, Pull = 1 / 36.0, Step = 1e-3;

    private readonly double[] _at;
    private readonly double[][] _moments; // by mission: slopes, then the lower triangle of the curvature, of the negative logarithm
    private readonly double[] _balance; // slope of the likelihood at the top, which balances the pull

    private StickFitting(double[] at, double[][] moments, double logLikelihood)
    {
        (_at, _moments, LogLikelihood) = (at, moments, logLikelihood);
        _balance = [.. at.Select((_, i) => moments.Sum(m => m[i]))];
    }

    /// <summary>
    /// The parameters: bias in units of ten metres, logarithms of the spreads, log odds of a wide own part,
    /// logarithm of its widening less one.
    /// </summary>
    public IReadOnlyList<double> At => _at;

    public StickModel Model => ModelAt(_at);

    public double LogLikelihood { get; }

    public bool HasWide => _at.Length == Mixture;

    public static StickModel ModelAt(ReadOnlySpan<double> x) => x.Length == Mixture
        ? new StickModel(new(Unit * x[0], Unit * x[1]), Math.Exp(x[2]), Math.Exp(x[3]), Math.Exp(x[4]), Math.Exp(x[5]),
            Kernels.Logistic(x[6]), 1 + Math.Exp(x[7]))
        : new StickModel(new(Unit * x[0], Unit * x[1]), Math.Exp(x[2]), Math.Exp(x[3]), Math.Exp(x[4]), Math.Exp(x[5]));

    /// <summary>Fits both kinds of own part; the mixture is kept where its two parameters are worth more than they cost (Akaike).</summary>
    public static Fit<StickFitting> Of(StickLikelihood likelihood, int missions)
    {
        if (Start(likelihood) is not { } start)
            return Fit<StickFitting>.Refused("the landings of each pass all lie on one another; the jumpers' own part can't be told");
        var normal = Climbed(likelihood, start);
        var mixture = Climbed(likelihood, [.. normal.Converged ? normal.At : start, -2, Math.Log(2)]);
        var best = mixture.Converged && (!normal.Converged
            || likelihood.Of(ModelAt(mixture.At)) > likelihood.Of(ModelAt(normal.At)) + Mixture - Normal) ? mixture : normal;
        return best.Converged
            ? Fit<StickFitting>.Made(ByMission(likelihood, best.At, missions))
            : Fit<StickFitting>.Refused("the search for the most likely spreads did not end");
    }

    /// <summary>The parameters that resampled missions give, by one Newton step from those of all missions.</summary>
    public double[] Drawn(int[] draws)
    {
        var n = _at.Length;
        var total = new double[n + n * (n + 1) / 2];
        for (var m = 0; m < draws.Length; m++)
        {
            if (draws[m] == 0) continue;
            var of = _moments[m];
            for (var i = 0; i < total.Length; i++) total[i] += draws[m] * of[i];
        }
        var slope = total.AsSpan(0, n).ToArray();
        for (var i = 0; i < n; i++) slope[i] -= _balance[i];
        var bend = Matrix<double>.Build.Dense(n, n,
            (i, j) => -total[n + Math.Max(i, j) * (Math.Max(i, j) + 1) / 2 + Math.Min(i, j)] - (i == j && i > 1 ? Pull : 0));
        return [.. _at.Zip(Climb.Uphill(slope, bend).Direction, (x, d) => x + Math.Clamp(d, -2, 2))];
    }

    private static Summit Climbed(StickLikelihood likelihood, double[] start)
    {
        var from = (double[])start.Clone();
        return Climb.To(x =>
        {
            var pull = 0.0;
            for (var i = 2; i < x.Length; i++) pull += 0.5 * Pull * (x[i] - from[i]) * (x[i] - from[i]);
            return x.Skip(2).All(v => Math.Abs(v) < 15) ? likelihood.Of(ModelAt(x)) - pull : double.NaN;
        }, start);
    }

    /// <summary>Robust starts: spreads from the median size of differences within passes, and of the passes' first landings.</summary>
    private static double[]? Start(StickLikelihood likelihood)
    {
        const double NormalMedian = 0.6745;
        var sticks = likelihood.Sticks.Where(s => s.Length > 0).ToList();
        var pairs = sticks.Where(s => s.Length > 1)
            .SelectMany(s => s.Skip(1).Select(m => (D: m.Along - s[0].Along, R: m.Across - s[0].Across))).ToList();
        var (d, r) = (sticks.Select(s => s[0].Along).Median(), sticks.Select(s => s[0].Across).Median());
        var (allD, allR) = (Spread(sticks.Select(s => s[0].Along - d)), Spread(sticks.Select(s => s[0].Across - r)));
        var (ownD, ownR) = (Spread(pairs.Select(p => p.D)) / Math.Sqrt(2), Spread(pairs.Select(p => p.R)) / Math.Sqrt(2));
        if (!(ownD > 0) || !(ownR > 0) || !(allD > 0) || !(allR > 0)) return null;
        return [d / Unit, r / Unit, Shared(allD, ownD), Shared(allR, ownR), Math.Log(ownD), Math.Log(ownR)];

        static double Spread(IEnumerable<double> values) => values.Select(Math.Abs).Median() / NormalMedian;
        static double Shared(double all, double own) => 0.5 * Math.Log(Math.Max(all * all - own * own, 0.1 * all * all));
    }

    /// <summary>Slopes and curvature of each mission's likelihood by central differences, all missions at once.</summary>
    private static StickFitting ByMission(StickLikelihood likelihood, double[] at, int missions)
    {
        var n = at.Length;
        var here = Values([]);
        var ups = Enumerable.Range(0, n).Select(i => Values([(i, Step)])).ToArray();
        var downs = Enumerable.Range(0, n).Select(i => Values([(i, -Step)])).ToArray();
        var moments = Enumerable.Range(0, missions).Select(_ => new double[n + n * (n + 1) / 2]).ToArray();
        for (var i = 0; i < n; i++)
        {
            for (var m = 0; m < missions; m++) moments[m][i] = (ups[i][m] - downs[i][m]) / (2 * Step);
            for (var j = 0; j <= i; j++)
            {
                var (both, neither) = i == j ? (here, here) : (Values([(i, Step), (j, Step)]), Values([(i, -Step), (j, -Step)]));
                for (var m = 0; m < missions; m++)
                {
                    moments[m][n + i * (i + 1) / 2 + j] = i == j
                        ? (2 * here[m] - ups[i][m] - downs[i][m]) / (Step * Step)
                        : (ups[i][m] + ups[j][m] + downs[i][m] + downs[j][m] - 2 * here[m] - both[m] - neither[m]) / (2 * Step * Step);
                }
            }
        }
        return new StickFitting(at, moments, here.Sum());

        double[] Values((int Axis, double By)[] moves)
        {
            var x = (double[])at.Clone();
            foreach (var (axis, by) in moves) x[axis] += by;
            var values = new double[missions];
            likelihood.Add(ModelAt(x), values);
            return values;
        }
    }
}
