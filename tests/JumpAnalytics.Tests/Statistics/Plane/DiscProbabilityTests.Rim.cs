using CsCheck;

namespace JumpAnalytics.Tests.Fits;

public partial class DiscProbabilityTests
{
    // The same integral round the rim written plainly: no vectors, the platform's exponential, more angles than needed.
    private static (double Inside, double Beyond) PlainRim(
        double radius, double mean1, double mean2, double sigma1, double sigma2, int angles)
    {
        double inside = 0, beyond = 0;
        for (var i = 0; i < angles; i++)
        {
            var (sin, cos) = Math.SinCos(Math.Tau * (i + 0.5) / angles);
            var x = (radius * cos - mean1) / sigma1;
            var y = (radius * sin - mean2) / sigma2;
            var square = x * x + y * y;
            var turn = (radius - mean1 * cos - mean2 * sin) * radius / (sigma1 * sigma2 * square * angles);
            inside += turn * (1 - Math.Exp(-0.5 * square));
            beyond += turn * Math.Exp(-0.5 * square);
        }

        return (inside, beyond);
    }

    // Metres: sigma ratio 0.3 to 1 along the axes, radius 0.3 to 3 sigma, means up to eight sigma away.
    private static readonly Gen<Case> Ordinary =
        from sigma in Gen.Double[20, 80]
        from ratio in Gen.Double[0.3, 1]
        from radius in Gen.Double[0.3, 3]
        from distance in Gen.Double[0, 8]
        from angle in Gen.Double[-Math.PI, Math.PI]
        select new Case(
            radius * sigma,
            distance * sigma * Math.Cos(angle),
            distance * sigma * Math.Sin(angle),
            sigma * sigma,
            sigma * sigma * ratio * ratio,
            0);

    [Fact]
    public void The_vectors_sum_what_a_plain_loop_sums() =>
        Sample(Ordinary, c => NearPlainRim(c, 400, 2e-14));

    // The sum over chords takes over where the one round the rim would need more than 256 angles, at ratios of about
    // 0.06 and 0.1 here.
    [Fact]
    public void The_ways_of_reckoning_join()
    {
        for (var i = 0; i <= 400; i++)
        {
            var ratio = 0.04 + 0.08 * i / 400;
            NearPlainRim(new Case(1.5, 2 * ratio, 0.7, ratio * ratio, 1, 0), 2000, 1e-13);
            NearPlainRim(new Case(6, 2 * ratio, 0.7, ratio * ratio, 1, 0), 2000, 1e-13);
            NearPlainRim(new Case(1.5, 2 * ratio, 7.5, ratio * ratio, 1, 0), 2000, 1e-13);
        }
    }

    private static void NearPlainRim(Case c, int angles, double rounding)
    {
        var (inside, beyond) = PlainRim(c.Radius, c.Mean1, c.Mean2, Math.Sqrt(c.Variance1), Math.Sqrt(c.Variance2), angles);
        Near(inside, c.Inside(), rounding);
        Near(1 - inside, c.Outside(), rounding);

        // The part beyond the rim is the outside for a mean inside, and less the inside for a mean outside. Its plain sum
        // needs a rim that is clear of the mean.
        if (beyond is > 0 and < 1e-5)
            Near(beyond, c.Outside(), 1e-10 * beyond);
        else if (beyond is < 0 and > -1e-5)
            Near(-beyond, c.Inside(), 1e-10 * -beyond);
    }

    // Only correctly rounded operations in a fixed order. The same bits were found with vectors of 512, 256 and 128 bits
    // and with none (DOTNET_EnableAVX512=0, DOTNET_EnableAVX2=0, DOTNET_EnableHWIntrinsic=0).
    [Theory]
    [InlineData(120, 35, -20, 2500, 1600, 700, 0.9252596116976957, 0.07474038830230434)]
    [InlineData(60, 10, 90, 900, 2500, -400, 0.20475644929040634, 0.7952435507095936)]
    [InlineData(400, 0, 0, 1600, 900, 300, 1, 5.520274634887659E-22)]
    public void The_same_bits_on_every_processor(
        double radius, double m1, double m2, double v1, double v2, double cov, double inside, double outside)
    {
        Assert.Equal(inside, DiscProbability.Inside(radius, m1, m2, v1, v2, cov));
        Assert.Equal(outside, DiscProbability.Outside(radius, m1, m2, v1, v2, cov));
    }
}
