namespace JumpAnalytics.Tests;

public sealed class RayleighLimitTests
{
    // √(2n/qchisq(.05, 2n)), and times √(−2 ln .1); R 4.2.2.
    [Theory]
    [InlineData(5, 1.593071996, 3.41867838)]
    [InlineData(10, 1.357637704, 2.913444388)]
    [InlineData(25, 1.19927439, 2.573602096)]
    [InlineData(60, 1.119757894, 2.402962398)]
    public void Limits_per_sigma_agree_with_R(int landings, double sigma, double r90)
    {
        Close.Relative(sigma, RayleighLimit.OfSigma(1, landings, 0.95), 1e-9);
        Close.Relative(r90, RayleighLimit.OfRadius(1, landings, 0.90, 0.95), 1e-9);
        Close.Relative(7 * sigma, RayleighLimit.OfSigma(7, landings, 0.95), 1e-9);
    }

    // The 72 arrows of the data set archery1 of the R package MSQC about the centre: √(Σr²/2n) = 12.4365133333; 95 % interval of sigma, and
    // the one-sided 95 % limit of the radius that holds 90 %; R 4.2.2.
    [Fact]
    public void Limits_of_the_arrows_agree_with_R()
    {
        const double Sigma = 12.4365133333;
        Close.Relative(14.059619203, RayleighLimit.OfSigma(Sigma, 72, 0.975), 1e-9);
        Close.Relative(11.1510434902, RayleighLimit.OfSigma(Sigma, 72, 0.025), 1e-9);
        Close.Relative(29.5741620234, RayleighLimit.OfRadius(Sigma, 72, 0.90, 0.95), 1e-10);
    }

    [Fact]
    public void A_sample_gives_the_same_limit_and_says_so_when_landings_share_missions()
    {
        (double, double)[] misses = [(3, 4), (-6, 8), (0, 5), (12, -5), (1, 1)]; // Σr² = 25 + 100 + 25 + 169 + 2
        var sigma = Math.Sqrt(321 / 10.0);
        var alone = RadiusLimit.OfRayleigh(PlaneSample.Of(misses.Select(m => new PlaneVector(m.Item1, m.Item2))), 0.9, 0.95).Value!;
        Close.Relative(sigma * 3.41867838, alone.UpperLimit, 1e-8);
        Close.Relative(sigma * 2.145966026289347, alone.Radius, 1e-13);
        Assert.Equal((5, 5, RadiusLimitMethod.Rayleigh, null), (alone.Clusters, alone.Points, alone.Method, alone.Warning));

        var shared = RadiusLimit.OfRayleigh(
            PlaneSample.Of(misses.Select((m, i) => new PlaneReading(i < 3 ? "a" : "b", new(m.Item1, m.Item2)))), 0.9, 0.95).Value!;
        Assert.Equal(alone.UpperLimit, shared.UpperLimit);
        Assert.Contains("5 points as independent, but they share 2 clusters", shared.Warning, StringComparison.Ordinal);
    }

    [Fact]
    public void No_landing_one_beyond_or_all_on_the_spot_have_a_reason()
    {
        Assert.Equal("no point", RadiusLimit.OfRayleigh(PlaneSample.Of(Array.Empty<PlaneReading>()), 0.9, 0.9).Reason);
        Assert.Equal("all points lie on the origin", RadiusLimit.OfRayleigh(PlaneSample.Of([new PlaneVector(0, 0)]), 0.9, 0.9).Reason);
        Assert.StartsWith("1 of 2 points", RadiusLimit.OfRayleigh(PlaneSample.Of(
            [new PlaneReading("a", new(1, 2)), new PlaneReading("b", null, 30)]), 0.9, 0.9).Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 5, 0.9, 0.9)]
    [InlineData(double.NaN, 5, 0.9, 0.9)]
    [InlineData(1, 0, 0.9, 0.9)]
    [InlineData(1, 5, 1, 0.9)]
    [InlineData(1, 5, 0.9, 0)]
    public void Arguments_that_can_not_be_are_refused(double sigma, int landings, double share, double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => RayleighLimit.OfRadius(sigma, landings, share, confidence));

    // R 4.2.2: sqrt(2e9 / qchisq(0.1, 2e9)) and the same at 1 - 1e-9.
    [Theory]
    [InlineData(0.9, 1.0000202636182696)]
    [InlineData(1 - 1e-9, 1.0000948413174759)]
    public void A_thousand_million_points_have_a_limit(double confidence, double expected) =>
        Close.Relative(expected, RayleighLimit.OfSigma(1, 1_000_000_000, confidence), 1e-13);
}
