namespace JumpAnalytics.Statistics;

/// <summary>Where the diagram of right forecasts lies at one forecast.</summary>
/// <param name="Forecast">The forecast probability.</param>
/// <param name="Range">Rates between which it lies with the confidence of the band.</param>
[TypeFormatterSource]
public sealed record ReliabilityBandPoint(double Forecast, Interval Range);

/// <summary>
/// The consistency band of a reliability diagram: where it would lie, forecast by forecast, if the forecasts were right.
/// </summary>
/// <remarks>
/// <para>Diagrams are drawn under that hypothesis as for CORP, forecasts resampled and outcomes drawn by their probabilities, with two
/// changes because points of one cluster share a forecast and its error: clusters are resampled whole, and outcomes of one cluster are
/// drawn together, by normals of a common correlation. Drawn independently the band would be too narrow; clusters resampled with their
/// own outcomes would tell where the diagram lies and not where it would lie if forecasts were right.</para>
/// <para>Unless given, the likeness is estimated from the outcomes as if the forecasts were right. Errors that clusters share widen the
/// band, then, and forecasts that are wrong alike everywhere look a little like clusters that are alike: the band errs on the wide
/// side.</para>
/// </remarks>
[TypeFormatterSource]
public sealed class ReliabilityBand
{
    private const int MostPoints = 101;

    private ReliabilityBand(double likeness, IReadOnlyList<ReliabilityBandPoint> points, double chance) =>
        (Likeness, Points, ChanceIfRight) = (likeness, points, chance);

    /// <summary>Correlation within a cluster that the outcomes were drawn with.</summary>
    public double Likeness { get; }

    /// <summary>The band at the forecasts that were made, at most 101 of them, in rising order.</summary>
    public IReadOnlyList<ReliabilityBandPoint> Points { get; }

    /// <summary>
    /// How often right forecasts would show as much miscalibration as these or more: (1 + drawn diagrams that do) / (1 + drawn diagrams).
    /// Small when the forecasts are hardly right.
    /// </summary>
    public double ChanceIfRight { get; }

    internal static ReliabilityBand Of(
        ForecastTally[] tallies, CalibratedOutcomes outcomes, double[] probabilities, double likeness, double miscalibration,
        double confidence, int replicates, int seed)
    {
        var values = tallies.Select(t => t.Forecast).ToArray();
        var place = probabilities.Select(p => Array.BinarySearch(values, p)).ToArray();
        int[] shown = values.Length <= MostPoints ? [.. Enumerable.Range(0, values.Length)]
            : [.. Enumerable.Range(0, MostPoints).Select(i => (int)((long)i * (values.Length - 1) / (MostPoints - 1)))];
        var rates = shown.Select(_ => new double[replicates]).ToArray();
        var random = SeedStream.For(seed, "reliability band");
        var (drawn, fitted, asFar) = (new ForecastTally[values.Length], new double[values.Length], 0);
        for (var b = 0; b < replicates; b++)
        {
            for (var k = 0; k < drawn.Length; k++) drawn[k] = new ForecastTally(values[k], 0, 0);
            outcomes.Draw(random, likeness, (i, success) =>
            {
                ref var t = ref drawn[place[i]];
                t = t with { Count = t.Count + 1, Successes = t.Successes + (success ? 1 : 0) };
            });
            var blocks = ForecastTally.Rising(drawn);
            if (BrierDecomposition.OfRising(drawn, blocks).Miscalibration >= miscalibration) asFar++;
            Fill(drawn, blocks, fitted);
            for (var s = 0; s < shown.Length; s++) rates[s][b] = fitted[shown[s]];
        }
        var tail = (1 - confidence) / 2;
        return new ReliabilityBand(likeness, [.. shown.Select((k, s) =>
        {
            Array.Sort(rates[s]);
            return new ReliabilityBandPoint(values[k], new Interval(Quantile(rates[s], tail), Quantile(rates[s], 1 - tail)));
        })], (1.0 + asFar) / (1 + replicates));
    }

    private static double Quantile(double[] sorted, double share) =>
        HyndmanFan.OfSorted(sorted, share);

    /// <summary>The rate at every forecast: that of its block, and on a straight line between neighbours where none was drawn.</summary>
    private static void Fill(ForecastTally[] drawn, List<ForecastTally> blocks, double[] fitted)
    {
        var (block, left, before) = (0, 0.0, -1);
        for (var k = 0; k < drawn.Length; k++)
        {
            if (drawn[k].Count == 0) continue;
            if (left == 0 && before >= 0) block++;
            if (left == 0) left = blocks[block].Count;
            left -= drawn[k].Count;
            fitted[k] = blocks[block].Rate;
            for (var gap = before + 1; gap < k; gap++)
            {
                fitted[gap] = before < 0 ? fitted[k]
                    : fitted[before] + (fitted[k] - fitted[before]) * (drawn[gap].Forecast - drawn[before].Forecast) / (drawn[k].Forecast
                        - drawn[before].Forecast);
            }
            before = k;
        }
        for (var k = before + 1; k < drawn.Length; k++) fitted[k] = fitted[before];
    }
}
