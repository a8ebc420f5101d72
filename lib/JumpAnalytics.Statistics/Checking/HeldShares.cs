namespace JumpAnalytics;

/// <summary>
/// The share of landings that a model holds within one landing's distance, and its mission. When the model is right such shares are spread
/// evenly from 0 to 1 (probability-integral transform).
/// </summary>
/// <param name="Within">The share within, 0 to 1.</param>
/// <param name="Beyond">1 less that share, with digits of its own when the landing is far off.</param>
/// <param name="Mission">Number of its mission in the sample; landings of one mission are not independent.</param>
[TypeFormatterSource]
public readonly record struct HeldShare(double Within, double Beyond, int Mission);

/// <summary>The probability-integral transform of misses in the plane.</summary>
public static class HeldShares
{
    // From here on the share beyond is taken from the model itself.
    private const double Far = 0.9;

    /// <summary>By distance from the spot, the one that matters for hit rates: the share that the model holds within each miss distance.</summary>
    /// <param name="sample">Misses, placed ones first in the result.</param>
    /// <param name="model">The model.</param>
    /// <param name="seed">
    /// Seed for landings known only as beyond a distance. Such a landing's share is drawn evenly from those beyond its distance, so that the
    /// shares stay even when the model is right.
    /// </param>
    public static IReadOnlyList<HeldShare> Radial(MissSample sample, IMissModel model, int seed = 1) =>
        Radial(sample, ModelUnderTest.Of(model), SeedStream.For(seed, "shares of landings beyond"));

    /// <summary>By ellipse: the share that a normal holds in the ellipse of equal density through each miss, 1 − exp(−d²/2) for Mahalanobis' distance d.</summary>
    /// <param name="sample">Misses; landings known only as beyond a distance have no ellipse and are left out.</param>
    /// <param name="model">The normal.</param>
    public static IReadOnlyList<HeldShare> Elliptic(MissSample sample, BivariateNormal model) =>
        Elliptic(sample, model.SquaredDistance, squared => Math.Exp(-squared / 2));

    internal static HeldShare[] Radial(MissSample sample, ModelUnderTest model, Random random)
    {
        var shares = new HeldShare[sample.Landings];
        var misses = sample.Misses;
        for (var i = 0; i < misses.Length; i++)
        {
            var within = model.Within(misses[i].Length);
            shares[i] = new HeldShare(within, within > Far ? model.Beyond(misses[i].Length) : 1 - within, sample.MissionOfPlaced[i]);
        }
        for (var i = 0; i < sample.Beyond.Count; i++)
        {
            var beyond = model.Beyond(sample.Beyond[i]) * (1 - random.NextDouble());
            shares[misses.Length + i] = new HeldShare(1 - beyond, beyond, sample.MissionOfBeyond[i]);
        }
        return shares;
    }

    /// <param name="sample">The misses.</param>
    /// <param name="squaredDistance">Squared Mahalanobis distance of a miss.</param>
    /// <param name="beyond">Probability of a larger one under the model.</param>
    internal static HeldShare[] Elliptic(MissSample sample, Func<DownwindVector, double> squaredDistance, Func<double, double> beyond)
    {
        var shares = new HeldShare[sample.Misses.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            var tail = beyond(squaredDistance(sample.Misses[i]));
            shares[i] = new HeldShare(1 - tail, tail, sample.MissionOfPlaced[i]);
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
