using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// How a miss grows with the length of the forecast drift: miss = at no drift + share · drift. An error in proportion (a wind read some
/// percent low, a compass some degrees off) shows as a share other than zero and nothing at no drift; an error of so many metres
/// whatever the drift as the contrary.
/// </summary>
/// <remarks>
/// Least squares over landings. Standard errors: each mission left out in turn (<see cref="ClusterJackknife"/>), which supposes nothing of
/// what landings of a mission share nor that errors are as large in a long drift as in a short one. t on the degrees of freedom that this
/// variance has when missions err alike (Bell and McCaffrey 2002, Survey Methodology 28:169-181): a few missions of long drift carry the
/// slope, and M − 2 degrees would be too many. Simulated (12 and 40 missions, drifts alike or lognormal, errors alike or growing with the
/// drift), a slope of nothing is left out in 1 to 6 % at 95 %.
/// </remarks>
/// <param name="Share">Metres of miss for each metre of forecast drift, with its interval.</param>
/// <param name="AtNoDrift">Miss that the line has at no drift, metres, with its interval.</param>
/// <param name="ShortestDrift">Shortest forecast drift, metres.</param>
/// <param name="LongestDrift">Longest forecast drift, metres.</param>
/// <param name="Missions">Missions with a landing whose place is known.</param>
/// <param name="Landings">Those landings.</param>
/// <param name="Freedom">Degrees of freedom of the share's error.</param>
/// <param name="PValue">Chance of so great a share, or a greater one, if there were none.</param>
[TypeFormatterSource]
public sealed record DriftSlope(Estimate Share, Estimate AtNoDrift, double ShortestDrift, double LongestDrift, int Missions, int Landings,
    double Freedom, double PValue)
{
    /// <summary>Fits the line.</summary>
    /// <param name="missions">Forecast drift and miss of the landings of each mission, metres.</param>
    /// <param name="confidence">Coverage.</param>
    internal static Fit<DriftSlope> Of(IReadOnlyList<IReadOnlyList<(double Drift, double Miss)>> missions, double confidence)
    {
        var sums = new MissionSums(missions);
        var (slope, start) = (ClusterJackknife.Of(missions.Count, sums.Slope), ClusterJackknife.Of(missions.Count, sums.AtZero));
        if (!slope.Success || !start.Success) return Fit<DriftSlope>.Refused(
            "the forecast drifts are too much alike, or the missions too few, to tell how the miss goes with them");
        var freedom = FreedomOf(missions);
        var t = MeanMiss.Quantile(freedom, confidence);
        var drifts = missions.SelectMany(m => m).Select(p => p.Drift).ToList();
        return Fit<DriftSlope>.Made(new DriftSlope(Range(slope.Value), Range(start.Value), drifts.Min(),
            drifts.Max(), missions.Count, drifts.Count, freedom,
            2 * StudentT.CDF(0, 1, freedom, -Math.Abs(slope.Value.Value) / slope.Value.StandardError)));

        Estimate Range(ClusterJackknife figure) =>
            Estimate.Of(figure.Value, new Interval(figure.Value - t * figure.StandardError, figure.Value + t * figure.StandardError));
    }

    /// <summary>
    /// (tr G)² / tr G², G the covariance of the slopes without each mission about their mean when every mission has one error.
    /// </summary>
    private static double FreedomOf(IReadOnlyList<IReadOnlyList<(double Drift, double Miss)>> missions)
    {
        var (count, n, x, xx) = (missions.Count, missions.Select(m => (double)m.Count).ToArray(),
            missions.Select(m => m.Sum(p => p.Drift)).ToArray(), missions.Select(m => m.Sum(p => p.Drift * p.Drift)).ToArray());
        var (allN, allX, allXX) = (n.Sum(), x.Sum(), xx.Sum());
        var weights = Matrix<double>.Build.Dense(count, count, (g, m) =>
        {
            var middle = (allX - x[g]) / (allN - n[g]);
            return g == m ? 0 : (x[m] - middle * n[m]) / (allXX - xx[g] - middle * (allX - x[g]));
        });
        var mean = weights.ColumnSums() / count;
        var about = weights - Matrix<double>.Build.Dense(count, count, (_, m) => mean[m]);
        var squares = about.TransposeAndMultiply(about);
        var trace = squares.Trace();
        return Math.Max(1, trace * trace / squares.PointwiseMultiply(squares).RowSums().Sum());
    }
}
