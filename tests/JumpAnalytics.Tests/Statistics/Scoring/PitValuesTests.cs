namespace JumpAnalytics.Tests;

public sealed class PitValuesTests
{
    private static readonly BivariateNormal _normal = new(8, -5, 900, 400, 120);

    [Fact]
    public void Distance_is_the_share_that_falls_nearer()
    {
        Close.Absolute(1 - Math.Exp(-2), PitValues.Distance(new BivariateNormal(0, 0, 625, 625, 0), 50), 1e-14);
        var range = PitValues.DistanceBeyond(_normal, 30);
        Assert.Equal((_normal.ProbabilityWithin(30), 1), (range.Low, range.High));
    }

    // 1 − exp(−q/2) with q = dᵀΣ⁻¹d by hand: d = (30, 0) has q = 900·400/(900·400 − 120²) = 1/0.96.
    [Fact]
    public void Box_transform_of_a_normal_is_its_chi_square_probability()
    {
        var shares = PitValues.Box(_normal, [new(38, -5), new(8, -5), new(8 + 1e-9, -5)]).Value!;
        Close.Relative(1 - Math.Exp(-0.5 / 0.96), shares[0], 1e-14);
        Assert.Equal(0, shares[1]);
        Close.Relative(1e-18 / 900 / 0.96 / 2, shares[2], 1e-5); // small ones keep their digits, but for the rounding of 8 + 1e-9
    }

    /// <summary>Ranks among 10,000 draws: each share has a standard deviation of at most .005, so .02 is passed with a chance below 1e-4. The seed is fixed.</summary>
    [Fact]
    public void Box_transform_by_draws_agrees()
    {
        DownwindVector[] misses = [new(38, -5), new(8, -5), new(-20, 30), new(100, 0)];
        var (exact, drawn) = (PitValues.Box(_normal, misses).Value!, PitValues.Box(new Disguised(_normal), misses).Value!);
        for (var i = 0; i < misses.Length; i++) Close.Absolute(exact[i], drawn[i], .02);
        Assert.InRange(drawn[1], 0, .001);
        Assert.Equal(drawn, PitValues.Box(new Disguised(_normal), misses).Value!);
        Assert.NotEqual(drawn, PitValues.Box(new Disguised(_normal), misses, seed: 2).Value!);
    }

    /// <summary>
    /// Both transforms of a model's own 2,000 misses are uniform: Kolmogorov and Smirnov's distance stays below 1.95/√n with probability
    /// .999. The seeds are fixed.
    /// </summary>
    [Fact]
    public void A_models_own_misses_have_uniform_shares()
    {
        var random = SeedStream.For(4, "own misses");
        DownwindVector[] misses = [.. Enumerable.Range(0, 2000).Select(_ => _normal.Draw(random))];
        foreach (var shares in new[] { PitValues.Box(_normal, misses).Value!, [.. misses.Select(m => PitValues.Distance(_normal, m.Length))] })
        {
            var sorted = shares.Order().ToArray();
            Assert.True(sorted.Select((u, i) => Math.Max((i + 1) / 2000.0 - u, u - i / 2000.0)).Max() < 1.95 / Math.Sqrt(2000));
        }
    }

    [Fact]
    public void A_model_without_density_has_no_Box_transform() =>
        Assert.Equal("a few places has no density", PitValues.Box(new PlacesModel(new DownwindVector(1, 2)), [new(1, 2)]).Reason);

    [Fact]
    public void Too_few_draws_are_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => PitValues.Box(_normal, [], draws: 10));
}
