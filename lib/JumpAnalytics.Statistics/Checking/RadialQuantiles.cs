namespace JumpAnalytics.Statistics;

/// <summary>One mark of a radial quantile plot; distances in metres.</summary>
/// <param name="Position">Share of points within the observed distance, as an order statistic has it.</param>
/// <param name="Observed">The distance of an observed point.</param>
/// <param name="Model">The distance that holds that share under the model.</param>
/// <param name="Low">Lower limit of the observed distance if the model is right, for this quantile alone.</param>
/// <param name="High">Upper limit of it.</param>
[TypeFormatterSource]
public readonly record struct RadialQuantile(double Position, double Observed, double Model, double Low, double High);

/// <summary>
/// Distances of observed points in rising order against those of a model: on the diagonal where the model is right, above it where
/// points lie
/// farther off than it has them.
/// </summary>
/// <remarks>
/// <para>Position of the i-th of n distances: (i − 1/3)/(n + 1/3), close to the median of its distribution. Points known only as beyond a
/// distance are not drawn but shift those farther off, as in Kaplan and Meier's estimate (Michael and Schucany 1979, Technometrics
/// 21:435-441).</para>
/// <para>Limits: the i-th of n evenly spread shares is a beta(i, n − i + 1) variate. Points of one cluster are not independent, so n is the
/// effective number of points, their number over the design effect of the distribution function: the between-cluster variance of the
/// share within a distance over that of independent points, both summed over all observed distances, at least 1; with one cluster the
/// points count as one. The position is kept and i follows from it. The limits are for one mark at a time: with 95 % limits
/// and a right model about one mark in twenty lies outside, and neighbours go together.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record RadialQuantiles
{
    private const double PlottingConstant = 1.0 / 3;

    private RadialQuantiles(IReadOnlyList<RadialQuantile> quantiles) => Quantiles = quantiles;

    /// <summary>The quantiles in rising order.</summary>
    public IReadOnlyList<RadialQuantile> Quantiles { get; }

    /// <summary>Number of clusters.</summary>
    public required int Clusters { get; init; }

    /// <summary>Number of points, those known only as beyond a distance included.</summary>
    public required int Points { get; init; }

    /// <summary>Points known only as beyond a distance.</summary>
    public required int Beyond { get; init; }

    /// <summary>Number of independent points that would tell as much.</summary>
    public required double EffectivePoints { get; init; }

    /// <summary>Coverage of the limits of a mark.</summary>
    public required double Confidence { get; init; }

    /// <summary>Compares a sample with a model.</summary>
    /// <param name="sample">Places and clusters.</param>
    /// <param name="model">The model, fitted to them or not. Limits make no allowance for fitting, which draws marks towards the
    /// diagonal.</param>
    /// <param name="confidence">Coverage of the limits of a mark, between 0 and 1.</param>
    /// <param name="most">Most marks to give: of more distances, some are picked, evenly in log odds of their rank, so that both ends
    /// stay.</param>
    /// <returns>The marks, or that no point has a known place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1, or there are fewer than two marks to
    /// give.</exception>
    public static Fit<RadialQuantiles> Of(PlaneSample sample, IPlaneModel model, double confidence = 0.95, int most = 200) =>
        Of(sample, ModelUnderTest.Of(model), confidence, most);

    internal static Fit<RadialQuantiles> Of(PlaneSample sample, ModelUnderTest model, double confidence, int most)
    {
        Guard.Confidence(confidence);
        Guard.AtLeast(most, 2);
        if (sample.Placed.Count == 0) return Fit<RadialQuantiles>.Refused($"no {sample.Nouns.Point} with a known place");
        var distances = sample.Placed.Select(m => m.Length).ToArray();
        var clusters = sample.ClusterOfPlaced.ToArray();
        Array.Sort(distances, clusters);
        var positions = Positions(distances, [.. sample.Beyond.Order()]);
        var effective = sample.Points / DesignEffect(sample, clusters);
        var points = Picked(distances.Length, most).Select(i => At(positions[i], distances[i])).ToList();
        return Fit<RadialQuantiles>.Made(new RadialQuantiles(points)
        {
            Clusters = sample.Clusters,
            Points = sample.Points,
            Beyond = sample.Beyond.Count,
            EffectivePoints = effective,
            Confidence = confidence,
        });

        RadialQuantile At(double position, double observed)
        {
            var a = position * (effective + PlottingConstant) + PlottingConstant;
            var b = effective + 1 - a;
            var end = TailShare.Middle(confidence);
            return new RadialQuantile(position, observed, Radius(position), Radius(QuantileOf.Beta(a, b, end.Opposite)),
                Radius(QuantileOf.Beta(a, b, end)));
        }

        double Radius(double share) => share > 0 ? model.RadiusHolding(Math.Min(share, 1 - 1e-16)) : 0;
    }

    /// <summary>Position of each distance; with no point beyond a distance, (i − 1/3)/(n + 1/3).</summary>
    private static double[] Positions(double[] sorted, double[] beyond)
    {
        var positions = new double[sorted.Length];
        double n = sorted.Length + beyond.Length, left = (n + 1 - PlottingConstant) / (n + 1 - 2 * PlottingConstant);
        var passed = 0;
        for (var i = 0; i < sorted.Length; i++)
        {
            while (passed < beyond.Length && beyond[passed] < sorted[i]) passed++;
            var rank = i + 1 + passed;
            left *= (n - rank + 1 - PlottingConstant) / (n - rank + 2 - PlottingConstant);
            positions[i] = 1 - left;
        }
        return positions;
    }

    /// <summary>Design effect of the distribution function of distances; points beyond a distance count as beyond all.</summary>
    /// <param name="sample">The points.</param>
    /// <param name="clusters">Clusters of the placed ones, by rising distance.</param>
    private static double DesignEffect(PlaneSample sample, int[] clusters)
    {
        if (sample.IsIndependent) return 1;
        if (sample.Clusters == 1) return sample.Points;
        var (total, within) = (new int[sample.Clusters], new int[sample.Clusters]);
        foreach (var m in sample.ClusterOfPlaced) total[m]++;
        foreach (var m in sample.ClusterOfBeyond) total[m]++;
        double n = sample.Points, squares = 0, products = 0, totals = total.Sum(t => (double)t * t), between = 0, independent = 0;
        for (var i = 0; i < clusters.Length; i++)
        {
            var m = clusters[i];
            squares += 2 * within[m]++ + 1;
            products += total[m];
            var p = (i + 1) / n;
            between += squares - 2 * p * products + p * p * totals;
            independent += n * p * (1 - p);
        }
        return independent > 0 ? Math.Max(1, between * sample.Clusters / (sample.Clusters - 1.0) / independent) : sample.Points;
    }

    private static IEnumerable<int> Picked(int count, int most)
    {
        if (count <= most) return Enumerable.Range(0, count);
        var end = Math.Log(2.0 * count - 1); // log odds of the last rank
        return Enumerable.Range(0, most)
            .Select(k => (int)Math.Clamp(count / (1 + Math.Exp(end * (1 - 2.0 * k / (most - 1)))), 0, count - 1)).Distinct();
    }
}
