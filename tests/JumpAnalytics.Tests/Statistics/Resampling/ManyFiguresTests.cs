namespace JumpAnalytics.Tests;

/// <summary>Several figures under one set of resamples.</summary>
public sealed class ManyFiguresTests
{
    private static readonly double[] _values = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, 3];

    private static double? Mean(int[] draws) => draws.Select((d, i) => d * _values[i]).Sum() / draws.Sum();

    private static double? Greatest(int[] draws) => draws.Index().Where(d => d.Item > 0).Max(d => _values[d.Index]);

    /// <summary>
    /// The variance of a mean under resampling is that of the values, 1/n by n: of 20,000 resamples the standard deviation has a relative
    /// error of 0.5 %, so 3 % are six.
    /// </summary>
    [Fact]
    public void Each_figure_has_its_law_and_they_share_their_resamples()
    {
        var options = new ResampleOptions { Replicates = 20_000, Seed = 4, Choice = ResampleChoice.Random };
        var made = ClusterBootstrap.OfMany(_values.Length, [Mean, Greatest, d => 2 * Mean(d) + 1, _ => null], options);
        var mean = _values.Average();
        Close.Relative(Math.Sqrt(_values.Average(v => (v - mean) * (v - mean)) / _values.Length),
            made[0].Value!.StandardError!.Value, 0.03);
        Close.Relative(2 * made[0].Value!.StandardError!.Value, made[2].Value!.StandardError!.Value, 1e-12); // the same resamples
        Assert.Equal(9, made[1].Value!.Value);
        Assert.Equal("the figure can't be computed from all clusters", made[3].Reason);
        // no draw of the four greatest (three nines, one eight): (13/16)^16 leaves out the nines
        // Four standard errors: 6e-5.
        Close.Absolute(Math.Pow(13 / 16.0, 16), Share(made[1].Value!, 8.5), 4 * Math.Sqrt(0.036 * 0.964 / 20_000));

        static double Share(ClusterBootstrap law, double below) =>
            Enumerable.Range(1, 9999).Count(i => law.Quantile(i / 10_000.0) < below) / 9999.0;
    }

    [Fact]
    public void The_numbers_do_not_depend_on_threads_and_few_missions_are_looked_at_whole()
    {
        var options = new ResampleOptions { Replicates = 1000, Seed = 9, Purpose = "many" };
        var first = ClusterBootstrap.OfMany(16, [Mean], options)[0].Value!;
        ThreadPool.GetMinThreads(out var workers, out var ports);
        ThreadPool.SetMinThreads(workers + 8, ports);
        try
        {
            Assert.All(Enumerable.Range(0, 5).AsParallel().Select(_ => ClusterBootstrap.OfMany(16, [Mean, Greatest],
                options)[0].Value!.StandardError).ToList(), se => Assert.Equal(first.StandardError, se));
        }
        finally
        {
            ThreadPool.SetMinThreads(workers, ports);
        }
        var few = ClusterBootstrap.OfMany(4, [d => d[0] + 2.0 * d[1]], new ResampleOptions())[0].Value!;
        Assert.True(few.IsExact);
        Assert.Equal("no cluster", ClusterBootstrap.OfMany(0, [Mean], options)[0].Reason);
    }

    /// <summary>From either end the same quantile as by repeating each landing.</summary>
    [Fact]
    public void Drawn_quantiles_are_those_of_repeated_landings()
    {
        var random = new Random(2);
        for (var round = 0; round < 300; round++)
        {
            var missions = random.Next(1, 9);
            (int Mission, double Distance)[] sorted = [.. Enumerable.Range(0, random.Next(1, 25))
                .Select(_ => (random.Next(missions), Math.Round(20 * random.NextDouble()))).OrderBy(l => l.Item2)];
            var draws = Enumerable.Range(0, missions).Select(_ => random.Next(0, 4)).ToArray();
            var repeated = sorted.SelectMany(l => Enumerable.Repeat(l.Distance, draws[l.Mission])).ToArray();
            foreach (var share in new[] { 0.0, 0.1, 0.5, 0.62, 0.9, 1 })
            {
                var found = DrawnQuantile.Of(sorted, draws, share);
                if (repeated.Length == 0) Assert.Null(found);
                else Close.Absolute(MathNet.Numerics.Statistics.SortedArrayStatistics.QuantileCustom(repeated, share,
                    MathNet.Numerics.Statistics.QuantileDefinition.R8), found!.Value, 1e-12);
            }
        }
    }
}
