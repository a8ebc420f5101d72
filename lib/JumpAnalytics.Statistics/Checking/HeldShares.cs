namespace JumpAnalytics.Statistics;

/// <summary>
/// The share of points that a model holds within the distance of one of them, and that one's cluster. When the model is right such
/// shares are spread
/// evenly from 0 to 1 (probability-integral transform).
/// </summary>
/// <param name="Within">The share within, 0 to 1.</param>
/// <param name="Beyond">1 less that share, with digits of its own when the point is far off.</param>
/// <param name="Cluster">Number of its cluster in the sample; points of one cluster are not independent.</param>
[TypeFormatterSource]
public readonly record struct HeldShare(double Within, double Beyond, int Cluster);

/// <summary>The probability-integral transform of points in the plane.</summary>
public static class HeldShares
{
    // From here on the share beyond is taken from the model itself.
    private const double Far = 0.9;

    /// <summary>By distance from the origin: the share that the model holds within each point's distance.</summary>
    /// <param name="sample">Places, placed ones first in the result.</param>
    /// <param name="model">The model.</param>
    /// <param name="seed">
    /// Seed for points known only as beyond a distance. Such a point's share is drawn evenly from those beyond its distance, so that the
    /// shares stay even when the model is right.
    /// </param>
    public static IReadOnlyList<HeldShare> Radial(PlaneSample sample, IPlaneModel model, int seed = 1) =>
        Radial(sample, ModelUnderTest.Of(model), SeedStream.For(seed, $"shares of {sample.Nouns.Points} beyond"));

    /// <summary>
    /// By ellipse: the share that a normal holds in the ellipse of equal density through each point, 1 − exp(−d²/2)
    /// for Mahalanobis' distance d.
    /// </summary>
    /// <param name="sample">Places; points known only as beyond a distance have no ellipse and are left out.</param>
    /// <param name="model">The normal.</param>
    public static IReadOnlyList<HeldShare> Elliptic(PlaneSample sample, BivariateNormal model) =>
        Elliptic(sample, model.SquaredDistance, squared => Math.Exp(-squared / 2));

    internal static HeldShare[] Radial(PlaneSample sample, ModelUnderTest model, Random random)
    {
        var shares = new HeldShare[sample.Points];
        var points = sample.Places;
        for (var i = 0; i < points.Length; i++)
        {
            var within = model.Within(points[i].Length);
            shares[i] = new HeldShare(within, within > Far ? model.Beyond(points[i].Length) : 1 - within, sample.ClusterOfPlaced[i]);
        }
        for (var i = 0; i < sample.Beyond.Count; i++)
        {
            var beyond = model.Beyond(sample.Beyond[i]) * (1 - random.NextDouble());
            shares[points.Length + i] = new HeldShare(1 - beyond, beyond, sample.ClusterOfBeyond[i]);
        }
        return shares;
    }

    /// <param name="sample">The points.</param>
    /// <param name="squaredDistance">Squared Mahalanobis distance of a point.</param>
    /// <param name="beyond">Probability of a larger one under the model.</param>
    internal static HeldShare[] Elliptic(PlaneSample sample, Func<PlaneVector, double> squaredDistance, Func<double, double> beyond)
    {
        var shares = new HeldShare[sample.Places.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            var tail = beyond(squaredDistance(sample.Places[i]));
            shares[i] = new HeldShare(1 - tail, tail, sample.ClusterOfPlaced[i]);
        }
        return shares;
    }

    /// <summary>Anderson and Darling's A² of shares from an even spread.</summary>
    internal static double AndersonDarling(HeldShare[] shares)
    {
        var below = Array.ConvertAll(shares, s => s.Within);
        var beyond = Array.ConvertAll(shares, s => s.Beyond);
        Array.Sort(below);
        Array.Sort(beyond);
        Array.Reverse(beyond);
        return EmpiricalDistance.AndersonDarling(below, beyond);
    }
}
