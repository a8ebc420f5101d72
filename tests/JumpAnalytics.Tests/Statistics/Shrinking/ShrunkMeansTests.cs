using System.Globalization;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ShrunkMeansTests
{
    /// <summary>
    /// Efron and Morris (1975, 1977): 18 averages after 45 trials; factor 0.212 and the sums of squares as printed,
    /// further digits by R 4.2.2.
    /// </summary>
    [Fact]
    public void The_averages_of_Efron_and_Morris_are_theirs()
    {
        var rows = ReferenceFiles.Rows("shrinking/averages.csv").Select(r =>
            (Y: double.Parse(r["y"], CultureInfo.InvariantCulture), P: double.Parse(r["p"], CultureInfo.InvariantCulture))).ToList();
        var mean = rows.Average(r => r.Y);
        var shrunk = ShrunkMeans.Of([.. rows.Select(r => r.Y)], mean * (1 - mean) / 45).Value!;
        Close.Absolute(0.265388888889, shrunk.Mean, 1e-12);
        Assert.All(shrunk.Effects, e => Close.Absolute(0.212390537705, e.Kept, 1e-12));
        double[] printed = [.2940, .2893, .2846, .2797, .2751, .2751, .2704, .2657, .2608, .2608, .2562, .2562,
            .2562, .2562, .2562, .2515, .2468, .2422];
        for (var i = 0; i < 18; i++) Close.Absolute(printed[i], shrunk.Effects[i].Value, 5.1e-5, $"player {i}");
        var (before, after) = (rows.Sum(r => Math.Pow(r.Y - r.P, 2)), shrunk.Effects.Zip(rows, (e, r) => Math.Pow(e.Value - r.P, 2)).Sum());
        Close.Absolute(0.075374, before, 5e-7);
        Close.Absolute(0.0213097630971, after, 1e-12);
        Close.Absolute(3.53706419243, before / after, 1e-10);
    }

    /// <summary>Morris (1983) from its equations in R 4.2.2: tests/reference/shrinking.</summary>
    [Fact]
    public void Means_of_unequal_variance_are_those_of_Morris()
    {
        var (y, v) = RandomEffectsMeanTests.Set("viechtbauer");
        var shrunk = ShrunkMeans.Of(y, v).Value!;
        for (var i = 0; i < y.Length; i++)
        {
            Close.Relative(RandomEffectsMeanTests.Reference("morris", $"Value{i + 1}"), shrunk.Effects[i].Value, 1e-11);
            Close.Relative(RandomEffectsMeanTests.Reference("morris", $"Error{i + 1}"), shrunk.Effects[i].StandardError, 1e-11);
        }
    }

    [Fact]
    public void Both_kinds_agree_for_equal_variances_where_the_means_differ_enough()
    {
        double[] y = [1, 4, 2, 9, 5, -3];
        var (one, other) = (ShrunkMeans.Of(y, 2).Value!, ShrunkMeans.Of(y, [2, 2, 2, 2, 2, 2]).Value!);
        for (var i = 0; i < y.Length; i++)
        {
            Close.Relative(one.Effects[i].Value, other.Effects[i].Value, 1e-12);
            Close.Relative(one.Effects[i].StandardError, other.Effects[i].StandardError, 1e-12);
        }
        Assert.All(ShrunkMeans.Of([1, 1.1, 0.9, 1, 1.05], 2).Value!.Effects, e => Assert.Equal(0, e.Kept)); // the positive part
        // 2/(k − 1).
        Assert.All(ShrunkMeans.Of([1, 1.1, 0.9, 1, 1.05], [2, 2, 2, 2, 2]).Value!.Effects, e => Close.Relative(0.5, e.Kept, 1e-12));
    }

    /// <summary>
    /// 4,000 sets of 8 means with standard errors 0.6 to 1.4. The theorem: squared errors weighted by precision are fewer than those of the
    /// means as they came. Intervals of ± 1.96 errors hold at least 95 % of the true means, averaged over all (32,000 of them, in sets: a
    /// standard deviation is below 0.002, so that a true 0.95 gives less than 0.94 with a chance below 1e-6).
    /// </summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(1)]
    [InlineData(3)]
    public void Shrunken_means_lie_nearer_and_their_errors_cover(double tau)
    {
        var random = SeedStream.For(9, $"shrunk means {tau}");
        double[] v = [.. Enumerable.Range(0, 8).Select(i => Math.Pow(0.6 + 0.8 * i / 7, 2))];
        var (plain, shrunken, covered) = (0.0, 0.0, 0);
        for (var set = 0; set < 4000; set++)
        {
            double[] truth = [.. v.Select(_ => Normal.Sample(random, 5, tau))],
                y = [.. truth.Zip(v, (t, x) => Normal.Sample(random, t, Math.Sqrt(x)))];
            var made = ShrunkMeans.Of(y, v).Value!.Effects;
            for (var i = 0; i < 8; i++)
            {
                plain += Math.Pow(y[i] - truth[i], 2) / v[i];
                shrunken += Math.Pow(made[i].Value - truth[i], 2) / v[i];
                if (Math.Abs(made[i].Value - truth[i]) <= 1.96 * made[i].StandardError) covered++;
            }
        }
        Assert.True(shrunken < (tau < 2 ? 0.75 : 0.98) * plain, $"{shrunken / plain}");
        Assert.InRange(covered / 32000.0, 0.94, 1); // where the means hardly differ, 0.99
    }

    [Fact]
    public void Too_few_means_are_refused() =>
        Assert.Equal("3 means; shrinkage can be judged from 4 on", ShrunkMeans.Of([1, 2, 3], 1).Reason);
}
