using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>The share that some levels of a two-level model have in the variance.</summary>
/// <remarks>
/// <para>Standard error: delta method on the observed information.</para>
/// <para>Interval: with the levels' variance B and the rest W, the estimates of W and of T = W + c B are uncorrelated for one c (in an even
/// design the number of points of a cluster). Each is taken for a multiple of chi-square with the degrees of freedom that its standard
/// error implies (Satterthwaite 1946), no more than an even design would have, and the F distribution of T / W gives the interval; in an
/// even design of one axis it is the classical exact one. When clusters do not scatter in every direction, or the information is too poor,
/// T and W are taken for mean squares between and within clusters. With fewer than half a degree of freedom there is no interval.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record VarianceShare
{
    private const double Least = 0.5;

    /// <summary>The share, 0 to 1, with its interval or the reason why it has none.</summary>
    public required Estimate Share { get; init; }

    /// <summary>Standard error of the share; null when a level lies on the edge of what it can be.</summary>
    public double? StandardError { get; init; }

    /// <summary>Takes a share from a fitted model.</summary>
    /// <param name="solution">The model.</param>
    /// <param name="axes">The axes whose variances are summed.</param>
    /// <param name="levels">The levels whose share it is: 1 clusters, 2 raters.</param>
    /// <param name="measured">Variance of the measurement in each axis, known and left out of the rest.</param>
    /// <param name="confidence">Coverage of the interval.</param>
    internal static VarianceShare Of(LevelSolution solution, int[] axes, int[] levels, double measured, double confidence)
    {
        // Diagonal entries of the axes within the lower triangle of each level: 0, or 0 and 2.
        var entries = solution.Axes * (solution.Axes + 1) / 2;
        double part = 0, rest = -measured * axes.Length;
        var (ofPart, ofRest) = (new double[solution.Entries.RowCount], new double[solution.Entries.RowCount]);
        for (var level = 0; level * entries < solution.Entries.RowCount; level++)
        {
            foreach (var axis in axes)
            {
                var value = solution.CovarianceOf(level)![axis, axis];
                if (levels.Contains(level)) part += value;
                else rest += value;
                (levels.Contains(level) ? ofPart : ofRest)[level * entries + 2 * axis] = 1;
            }
        }
        double Covariance(double[] a, double[] b)
        {
            var sum = 0.0;
            for (var i = 0; i < a.Length; i++)
            {
                for (var j = 0; j < b.Length; j++) sum += a[i] * b[j] * solution.Entries[i, j];
            }
            return sum;
        }
        var (partPart, partRest, restRest) = (Covariance(ofPart, ofPart), Covariance(ofPart, ofRest), Covariance(ofRest, ofRest));
        var (share, total) = (part / (part + rest), part + rest);
        var edge = Enumerable.Range(1, entries == solution.Entries.RowCount / 2 ? 1 : 2).Any(l => solution.RankOf(l) < solution.Axes);
        return new VarianceShare
        {
            Share = Range() is { } range ? Estimate.Of(share, range)
                : Estimate.WithoutRange(share, part == 0 ? LevelCovariance.Edge
                    : $"too few {solution.Nouns.Points} or {solution.Nouns.Clusters}, or {solution.Nouns.Raters}, to tell"),
            StandardError =
                edge ? null : Math.Sqrt(rest * rest * partPart - 2 * part * rest * partRest + part * part * restRest) / (total * total),
        };

        // Where clusters do not scatter in every direction, the information says nothing of the direction without: mean squares do.
        Interval? Range()
        {
            var byInformation = part > 0 && (solution.RankOf(1) == solution.Axes || solution.RankOf(2) > 0)
                ? OfInformation(-restRest / partRest, restRest) : null;
            return byInformation ?? (levels.Contains(1) && solution.RankOf(2) == 0 ? OfMeanSquares() : null);
        }

        Interval? OfInformation(double c, double variance)
        {
            var sum = rest + c * part;
            var ofSum = variance + c * (2 * partRest + c * partPart);
            return c > 0 && double.IsFinite(c) && ofSum > 0 && variance > 0
                ? Limits(sum / rest, c, 2 * sum * sum / ofSum, 2 * rest * rest / variance) : null;
        }

        Interval? OfMeanSquares()
        {
            var c = solution.EvenPoints;
            var (within, between) = (solution.CovarianceOf(0)!, solution.CovarianceOf(0)! + c * solution.CovarianceOf(1)!);
            double Squares(Matrix<double> m) => axes.Sum(a => axes.Sum(b => m[a, b] * m[a, b]));
            var sum = rest + c * part;
            return Limits(sum / rest, c, (solution.Clusters - 1) * sum * sum / Squares(between),
                (solution.Points - solution.Clusters) * rest * rest / Squares(within));
        }

        // The quantiles are those of small values, which need no far search.
        Interval? Limits(double ratio, double c, double between, double within)
        {
            between = Math.Min(between, axes.Length * (solution.Clusters - 1));
            within = Math.Min(within, axes.Length * (solution.Points - solution.Clusters));
            if (!(between >= Least && within >= Least)) return null;
            var tail = (1 - confidence) / 2;
            var low = ratio * QuantileOf.F(within, between, TailShare.Below(tail));
            var high = ratio / QuantileOf.F(between, within, TailShare.Below(tail));
            return double.IsFinite(high) ? new Interval(Part((low - 1) / c), Part((high - 1) / c)) : null;
        }

        static double Part(double odds) => odds > 0 ? odds / (1 + odds) : 0;
    }
}

/// <summary>
/// The shared part's share of the variance of points: what the points of a cluster have in common, the rater's part included.
/// </summary>
[TypeFormatterSource]
public sealed record ForecastShares
{
    /// <summary>Of the variance along the first axis.</summary>
    public required VarianceShare Along { get; init; }

    /// <summary>Of the variance along the second axis.</summary>
    public required VarianceShare Right { get; init; }

    /// <summary>Of the sum of both variances.</summary>
    public required VarianceShare Overall { get; init; }

    /// <summary>
    /// Whether the error of measurement is known and left out of the whole. When not, it counts as the points' own, and the shared part's
    /// share of the true places is larger than stated.
    /// </summary>
    public required bool WithoutMeasurement { get; init; }
}
