using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Hotelling's test of two samples of the plane: whether their means could be one. Clusters are the independent units: each counts once,
/// with the mean of its placed points.
/// </summary>
/// <remarks>
/// T² = d'V⁻¹d with d the difference of the means and V the covariance of its error. With equal covariances V is pooled, and
/// (n − 3)/(2(n − 2))·T² is F on 2 and n − 3 degrees for n units of both (Hotelling 1931, Annals of Mathematical Statistics 2:360-378).
/// With unequal ones V is the sum of S/n of each, and (ν − 1)/(2ν)·T² is about F on 2 and ν − 1 degrees, ν as Krishnamoorthy and Yu (2004,
/// Statistics and Probability Letters 66:161-169) have it, which does not change when axes are turned or stretched.
/// </remarks>
[TypeFormatterSource]
public sealed record MeanDifferenceTest
{
    private const int Axes = 2;

    /// <summary>Fewest clusters of each sample with a placed point.</summary>
    public const int FewestClusters = 4;

    /// <summary>Mean of the first sample less that of the second, metres.</summary>
    public required PlaneVector Difference { get; init; }

    /// <summary>The difference along the first axis, metres, with its interval by itself (Student's t on <see cref="Freedom"/>).</summary>
    public required Estimate Along { get; init; }

    /// <summary>The difference along the second axis, metres, positive to the right, with its interval by itself.</summary>
    public required Estimate Across { get; init; }

    /// <summary>T².</summary>
    public required double TSquared { get; init; }

    /// <summary>T² on the scale of F.</summary>
    public required double F { get; init; }

    /// <summary>Degrees of freedom of the covariance: n − 2, or ν of unequal ones; the F has one fewer in its denominator.</summary>
    public required double Freedom { get; init; }

    /// <summary>Chance of as much or more if both means were one.</summary>
    public required double PValue { get; init; }

    /// <summary>Clusters of the first sample that have a placed point.</summary>
    public required int FirstClusters { get; init; }

    /// <summary>Clusters of the second sample that have a placed point.</summary>
    public required int SecondClusters { get; init; }

    /// <summary>Placed points of the first sample.</summary>
    public required int FirstPoints { get; init; }

    /// <summary>Placed points of the second sample.</summary>
    public required int SecondPoints { get; init; }

    /// <summary>Points of both known only as beyond a distance, which are left out.</summary>
    public required int LeftOut { get; init; }

    /// <summary>Tests the difference.</summary>
    /// <param name="first">Points with their clusters.</param>
    /// <param name="second">The other sample; it shares no cluster with the first.</param>
    /// <param name="equalCovariances">Whether both are taken to scatter alike; no unless said otherwise.</param>
    /// <param name="confidence">Coverage of the intervals, for instance 0.95.</param>
    /// <returns>
    /// The test, or the reason why there is none: fewer than four clusters, or means of clusters that do not scatter in some direction.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static Fit<MeanDifferenceTest> Of(
        PlaneSample first, PlaneSample second, bool equalCovariances = false, double confidence = 0.95)
    {
        Guard.Confidence(confidence);
        var (a, b) = (ClusterMeans(first), ClusterMeans(second));
        var nouns = first.Nouns;
        if (Math.Min(a.Count, b.Count) < FewestClusters)
            return Fit<MeanDifferenceTest>.Refused($"{nouns.CountedClusters(a.Count)} and {nouns.CountedClusters(b.Count)} with a known "
                + $"place; the test needs {FewestClusters} of each");
        var (one, two) = (Moments(a), Moments(b));
        var both = a.Count + b.Count - 2;
        var pooled = (one.Squares + two.Squares) / both;
        var (v1, v2) = equalCovariances
            ? (pooled / a.Count, pooled / b.Count) : (one.Squares / (a.Count - 1) / a.Count, two.Squares / (b.Count - 1) / b.Count);
        var v = v1 + v2;
        if (!(v.Determinant() > 1e-12 * v.Trace() * v.Trace()))
            return Fit<MeanDifferenceTest>.Refused($"the means of the {nouns.Clusters} do not scatter in some direction, or not within a "
                + "number's range");
        var freedom = equalCovariances ? both : Freedoms(v1, a.Count, v2, b.Count, v.Inverse());
        var difference = one.Mean - two.Mean;
        var square = difference.DotProduct(v.Cholesky().Solve(difference));
        var f = square * (freedom - 1) / (Axes * freedom);
        var t = QuantileOf.T(freedom, TailShare.Middle(confidence));
        return Fit<MeanDifferenceTest>.Made(new MeanDifferenceTest
        {
            Difference = new PlaneVector(difference[0], difference[1]),
            Along = Within(0), Across = Within(1), TSquared = square, F = f, Freedom = freedom,
            PValue = Math.Exp(-(freedom - 1) / 2 * Kernels.Log1p(2 * f / (freedom - 1))), // the tail of F on 2 degrees is elementary
            FirstClusters = a.Count, SecondClusters = b.Count, FirstPoints = first.Placed.Count, SecondPoints = second.Placed.Count,
            LeftOut = first.Beyond.Count + second.Beyond.Count,
        });

        Estimate Within(int axis) => Estimate.Of(difference[axis],
            new Interval(difference[axis] - t * Math.Sqrt(v[axis, axis]), difference[axis] + t * Math.Sqrt(v[axis, axis])));
    }

    /// <summary>(p + p²) / Σ (tr(W²) + tr(W)²) / (n − 1), W the share of a sample in the covariance of the difference.</summary>
    private static double Freedoms(Matrix<double> v1, int n1, Matrix<double> v2, int n2, Matrix<double> inverse)
    {
        return (Axes + Axes * Axes) / (Part(v1 * inverse) / (n1 - 1) + Part(v2 * inverse) / (n2 - 1));

        static double Part(Matrix<double> share) => (share * share).Trace() + share.Trace() * share.Trace();
    }

    private static List<PlaneVector> ClusterMeans(PlaneSample sample)
    {
        var sums = new (double Along, double Across, int Count)[sample.Clusters];
        for (var i = 0; i < sample.Placed.Count; i++)
        {
            ref var sum = ref sums[sample.ClusterOfPlaced[i]];
            sum = (sum.Along + sample.Places[i].Along, sum.Across + sample.Places[i].Across, sum.Count + 1);
        }
        return [.. sums.Where(s => s.Count > 0).Select(s => new PlaneVector(s.Along / s.Count, s.Across / s.Count))];
    }

    private static (Vector<double> Mean, Matrix<double> Squares) Moments(List<PlaneVector> points)
    {
        var mean = Vector<double>.Build.Dense([points.Average(p => p.Along), points.Average(p => p.Across)]);
        var squares = Matrix<double>.Build.Dense(Axes, Axes);
        foreach (var p in points)
        {
            var off = Vector<double>.Build.Dense([p.Along, p.Across]) - mean;
            squares += off.OuterProduct(off);
        }
        return (mean, squares);
    }
}
