namespace JumpAnalytics;

/// <summary>
/// What a reference of finite length does to a chart: mean and spread of the scores are estimates, so that the chart without
/// change has another run length than its limit says. Drawn from their normal and chi distributions for so many missions; the 5th
/// and 95th of 100 run lengths.
/// </summary>
internal static class ReferenceLength
{
    private const int Draws = 100;

    /// <summary>Run lengths of charts of scores, by the error of their mean and the ratio of the true spread to that taken.</summary>
    public static Interval Range(int missions, int seed, string purpose, int axes, Func<double, double, double> averageAt)
    {
        var random = SeedStream.For(seed, $"reference of {purpose}");
        var draws = new (double Offset, double Spread)[Draws];
        for (var i = 0; i < Draws; i++)
        {
            var (x, y) = StandardNormal.Pair(random);
            var freedom = axes * (missions - 1.0);
            draws[i] = ((axes == 1 ? Math.Abs(x) : Math.Sqrt(x * x + y * y)) / Math.Sqrt(missions),
                Math.Sqrt(freedom / QuantileOf.ChiSquared(freedom, TailShare.Below(random.NextDouble()))));
        }
        var runs = new double[Draws];
        Parallel.For(0, Draws, i => runs[i] = averageAt(draws[i].Offset, draws[i].Spread));
        Array.Sort(runs);
        return new Interval(runs[(int)(0.05 * Draws)], runs[(int)(0.95 * Draws) - 1]);
    }

    /// <summary>
    /// Run lengths of a chart by the error of one level: 19 evenly likely errors of it, from the 5th to the 95th percentile, and the least
    /// and greatest run length among them.
    /// </summary>
    public static Interval Range(double error, Func<double, double> averageAt)
    {
        var runs = Enumerable.Range(1, 19).Select(i => averageAt(error * QuantileOf.Normal(TailShare.Below(i / 20.0)))).Order().ToList();
        return new Interval(runs[0], runs[^1]);
    }
}
