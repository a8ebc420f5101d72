namespace JumpAnalytics.Tests.Fits;

public partial class DiscProbabilityTests
{
    private const double Inf = double.PositiveInfinity;

    [Theory]
    [InlineData(0, 1, 2, 3, 4, 0, 0)]
    [InlineData(0, 0, 0, 0, 0, 0, 0)]
    [InlineData(Inf, 1, 2, 3, 4, 0, 1)]
    [InlineData(5, 3, 4, 0, 0, 0, 1)]
    [InlineData(4.999, 3, 4, 0, 0, 0, 0)]
    [InlineData(1, 0, 50, 1, 1, 0, 0)]
    [InlineData(50, 0, 1, 1, 1, 0, 1)]
    [InlineData(1e300, 1e300, 0, 1e-300, 1e-300, 0, 0.5)]
    [InlineData(1e300, 0, 0, 1e-300, 1e-300, 0, 1)]
    [InlineData(1, 1e300, -1e300, 1e-300, 0, 0, 0)]
    public void Certain_cases(double radius, double m1, double m2, double v1, double v2, double cov, double expected)
    {
        Assert.Equal(expected, DiscProbability.Inside(radius, m1, m2, v1, v2, cov));
        Assert.Equal(1 - expected, DiscProbability.Outside(radius, m1, m2, v1, v2, cov));
    }

    // Chords of the line that a singular distribution lives on, to 17 digits: Phi(1) - Phi(-1),
    // Phi(2/sqrt(3)) - Phi(-8/sqrt(3)) and Phi(1) - Phi(-2).
    [Theory]
    [InlineData(1, 0, 0, 1, 0, 0, 0.68268949213708590)]
    [InlineData(1, 0, 0, 0, 1, 0, 0.68268949213708590)]
    [InlineData(5, 3, 0, 0, 16, 0, 0.68268949213708590)]
    [InlineData(5, 3, 0, 3, 0, 0, 0.87589153069681968)]
    [InlineData(3, 1, 0, 4, 0, 0, 0.81859461412036130)]
    [InlineData(1, 0, 0, 0.5, 0.5, 0.5, 0.68268949213708590)]
    [InlineData(1, 0, 0, 0.36, 0.64, -0.48, 0.68268949213708590)]
    [InlineData(3, 4, 0, 0, 16, 0, 0)]
    public void Line_segments(double radius, double m1, double m2, double v1, double v2, double cov, double expected)
    {
        Near(expected, DiscProbability.Inside(radius, m1, m2, v1, v2, cov), 1e-14);
        Near(1 - expected, DiscProbability.Outside(radius, m1, m2, v1, v2, cov), 1e-14);
    }

    // Beyond the ends of a chord of the line, by mpmath 1.2.1: Phi(-30) + Phi(-32), Phi(-8) + Phi(-8), 2 Phi(-4 / 0.5).
    [Theory]
    [InlineData(31, 1, 0, 1, 0, 0, 4.9067139271487064e-198)]
    [InlineData(5, 3, 0, 0, 0.25, 0, 1.2441921148543568e-15)]
    [InlineData(8, 0, 0, 0.5, 0.5, -0.5, 1.2441921148543568e-15)]
    public void Beyond_line_segments(double radius, double m1, double m2, double v1, double v2, double cov, double expected) =>
        Near(expected, DiscProbability.Outside(radius, m1, m2, v1, v2, cov), 1e-12 * expected);

    // At the end of the doubles: the Bessel quadrature of the Marcum function by mpmath 1.3.0 (40 digits).
    [Fact]
    public void Least_probabilities()
    {
        Near(9.1924764269869355e-301, DiscProbability.Inside(1, 38, 0, 1, 1, 0), 1e-12 * 9.2e-301);
        Near(7.3468153941042787e-309, DiscProbability.Inside(1, 38.5, 0, 1, 1, 0), 1e-12 * 7.3e-309);
        Near(2.8679480453341701e-307, DiscProbability.Outside(38.5, 0, 1, 1, 1, 0), 1e-12 * 2.8e-307);
    }

    // Phi(-(8 - 1/(2R))) as above, the mean eight sigma inside; the first order in 1/R is 5e-7 of the tail at R = 1e7.
    [Theory]
    [InlineData(1.01e8)]
    [InlineData(1e10)]
    public void Tails_beyond_a_straight_rim(double radius)
    {
        const double beyond = 6.2209605742717841e-16; // Phi(-8)
        const double density = 5.0522710835368927e-15; // phi(8)
        var (expected, rounding) = (beyond + density / (2 * radius), 8 * radius * 1e-16);
        Near(expected, DiscProbability.Outside(radius, 0, radius - 8, 1, 1, 0), (1e-9 + rounding) * expected);
    }

    // Unit spread, mean half a sigma outside: the integral below R = 1e7 and the half plane above it both give
    // Phi(-(1/2 + 1/(2R))), here to the first order in 1/R.
    [Theory]
    [InlineData(1e6)]
    [InlineData(9.9e6)]
    [InlineData(1.01e7)]
    [InlineData(1e9)]
    public void Straight_rim_joins_the_integral(double radius)
    {
        const double atHalf = 0.30853753872598690; // Phi(-1/2)
        const double density = 0.35206532676429948; // phi(1/2)
        Near(atHalf - density / (2 * radius), DiscProbability.Inside(radius, 0, -(radius + 0.5), 1, 1, 0), 1e-12);
        Near(atHalf - density / (2 * radius), DiscProbability.Inside(radius, radius + 0.5, 0, 1, 1, 0), 1e-12);
    }

    [Theory]
    [InlineData("radius", -1, 0, 0, 1, 1, 0)]
    [InlineData("radius", double.NaN, 0, 0, 1, 1, 0)]
    [InlineData("mean1", 1, Inf, 0, 1, 1, 0)]
    [InlineData("mean2", 1, 0, double.NaN, 1, 1, 0)]
    [InlineData("variance1", 1, 0, 0, -1, 1, 0)]
    [InlineData("variance1", 1, 0, 0, Inf, 1, 0)]
    [InlineData("variance2", 1, 0, 0, 1, double.NaN, 0)]
    [InlineData("covariance", 1, 0, 0, 1, 4, 2.0001)]
    [InlineData("covariance", 1, 0, 0, 0, 4, -0.1)]
    [InlineData("covariance", 1, 0, 0, 1, 1, double.NaN)]
    public void Invalid_arguments(string name, double radius, double m1, double m2, double v1, double v2, double cov)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(
            () => DiscProbability.Inside(radius, m1, m2, v1, v2, cov));
        Assert.Equal(name, error.ParamName);
        Assert.Contains("must be", error.Message);
        Assert.Throws<ArgumentOutOfRangeException>(name, () => DiscProbability.Outside(radius, m1, m2, v1, v2, cov));
        if (name != "radius")
            Assert.Throws<ArgumentOutOfRangeException>(name, () => DiscProbability.Radius(0.5, m1, m2, v1, v2, cov));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    public void Invalid_probabilities(double probability) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            "probability", () => DiscProbability.Radius(probability, 0, 0, 1, 1, 0));

    [Fact]
    public void Message_gives_value_and_range()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => DiscProbability.Inside(1, 0, 0, 1, 4, 2.5));
        Assert.StartsWith("covariance is 2.5; it must be from -2 to 2.", error.Message);
    }

    [Fact]
    public void Radius_without_variance_is_the_distance_of_the_mean() =>
        Assert.Equal(5, DiscProbability.Radius(0.3, 3, -4, 0, 0, 0));

    [Theory]
    [InlineData(1e-12)]
    [InlineData(1e-60)]
    [InlineData(1e-250)]
    [InlineData(0.999999)]
    [InlineData(1 - 1.0 / (1L << 52))]
    public void Radius_of_the_centred_circle_is_closed_form(double probability)
    {
        var expected = Math.Sqrt(-2 * (probability < 1e-9 ? -probability : Math.Log(1 - probability)));
        Near(expected, DiscProbability.Radius(probability, 0, 0, 1, 1, 0), 1e-9 * expected);
    }

    // All but 2^-n: roots of the Marcum function Q1(1, R) = 2^-n by Bessel quadrature in mpmath 1.3.0 (40 digits).
    [Theory]
    [InlineData(30, 7.1716944743145636)]
    [InlineData(40, 8.195960503873893)]
    [InlineData(50, 9.0941111743630109)]
    public void Radius_that_holds_all_but_little(int n, double expected) =>
        Near(expected, DiscProbability.Radius(1 - Math.ScaleB(1, -n), 0.6, -0.8, 1, 1, 0), 1e-11 * expected);

    [Fact]
    public void Allocates_nothing()
    {
        Both();
        var before = GC.GetAllocatedBytesForCurrentThread();
        Both();
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);

        static void Both()
        {
            DiscProbability.Radius(0.5, 1, 2, 3, 4, 1);
            DiscProbability.Outside(90, 1, 2, 3, 0.004, 0);
        }
    }

    // Extremes of a double in every argument: an answer from 0 to 1, at once.
    [Fact]
    public void Extreme_arguments_give_a_probability()
    {
        double[] values = [0, double.Epsilon, 1e-300, 1e-154, 1e-16, 1, 1 + 1e-15, 1e8, 1e160, double.MaxValue];
        double[] correlations = [-1, -0.5, 0, 1 - 1e-13, 1];
        foreach (var radius in values)
        foreach (var m1 in values)
        foreach (var m2 in values)
        foreach (var v1 in values)
        foreach (var v2 in values)
        foreach (var rho in correlations)
        {
            var covariance = rho * Math.Sqrt(v1) * Math.Sqrt(v2);
            var inside = DiscProbability.Inside(radius, m1, m2, v1, v2, covariance);
            var outside = DiscProbability.Outside(radius, m1, m2, v1, v2, covariance);
            if (!(inside is >= 0 and <= 1 && outside is >= 0 and <= 1 && Math.Abs(inside + outside - 1) < 1e-12))
                Assert.Fail($"{inside} and {outside} for {radius:R} {m1:R} {m2:R} {v1:R} {v2:R} correlation {rho:R}");
        }
    }
}
