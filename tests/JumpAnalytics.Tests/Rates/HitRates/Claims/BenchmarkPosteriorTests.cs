using MathNet.Numerics;

namespace JumpAnalytics.Tests;

public sealed class BenchmarkPosteriorTests
{
    // The cbpp record of the R package lme4, 15 herds.
    private static readonly int[] _cases = [9, 5, 12, 4, 6, 4, 12, 12, 2, 4, 9, 3, 3, 11, 3];
    private static readonly int[] _sizes = [40, 61, 74, 35, 71, 72, 40, 34, 29, 84, 96, 29, 87, 26, 64];

    // R 4.2.2: integrate() over the angle and the correlation of exp(sum(lbeta(y + a, n - y + b) - lbeta(a, b))), both priors flat there.
    [Theory]
    [InlineData(0.10, 0.972472875)]
    [InlineData(0.12, 0.853384961)]
    [InlineData(0.15, 0.486060265)]
    public void The_herds_agree_with_numerical_integration(double benchmark, double expected) =>
        Close.Absolute(expected, BenchmarkPosterior.AtLeast(_cases, _sizes, benchmark), 1e-7, $"at least {benchmark}");

    /// <summary>With one landing a mission the correlation drops out, and the posterior is beta(hits + ½, misses + ½).</summary>
    [Theory]
    [InlineData(17, 20, 0.85)]
    [InlineData(20, 20, 0.85)]
    [InlineData(0, 5, 0.3)]
    [InlineData(700, 1000, 0.72)]
    public void Independent_landings_give_the_beta_distribution(int hits, int landings, double benchmark)
    {
        int[] each = [.. Enumerable.Range(0, landings).Select(i => i < hits ? 1 : 0)];
        var expected = 1 - SpecialFunctions.BetaRegularized(hits + 0.5, landings - hits + 0.5, benchmark);
        Close.Absolute(expected, BenchmarkPosterior.AtLeast(each, [.. each.Select(_ => 1)], benchmark), 1e-8, "beta");
    }

    /// <summary>Missions that are wholly hit or wholly missed tell no more than as many single landings.</summary>
    [Fact]
    public void Missions_of_one_fate_tell_little()
    {
        int[] hits = [.. Enumerable.Range(0, 40).Select(m => m < 36 ? 6 : 0)];
        int[] sizes = [.. hits.Select(_ => 6)];
        int[] mixed = [.. Enumerable.Range(0, 40).Select(m => m < 24 ? 5 : 6)];
        var (alike, unlike) = (BenchmarkPosterior.AtLeast(hits, sizes, 0.85), BenchmarkPosterior.AtLeast(mixed, sizes, 0.85));
        Assert.Equal(hits.Sum(), mixed.Sum());
        Assert.InRange(alike, 0.6, 0.9);
        Assert.InRange(unlike, 0.97, 1);
    }

    [Fact]
    public void Chances_of_hits_add_up_and_have_the_mean_and_the_correlation()
    {
        foreach (var (n, mean, correlation) in new[] { (1, 0.3, 0.2), (6, 0.85, 0.0), (6, 0.85, 0.15), (40, 0.5, 0.9) })
        {
            var p = SeasonSimulation.Probabilities(n, mean, correlation);
            Close.Absolute(1, p.Sum(), 1e-12, "sum");
            var m = p.Select((x, k) => k * x).Sum();
            Close.Absolute(n * mean, m, 1e-11, "mean");
            Close.Absolute(n * mean * (1 - mean) * (1 + (n - 1) * correlation),
                p.Select((x, k) => x * (k - m) * (k - m)).Sum(), 1e-9, "variance");
        }
    }
}
