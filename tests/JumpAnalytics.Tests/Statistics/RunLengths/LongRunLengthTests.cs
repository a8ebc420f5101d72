namespace JumpAnalytics.Tests.Monitoring;

/// <summary>Charts that run long: exact up to a billion points, and refused with a reason beyond.</summary>
public sealed class LongRunLengthTests
{
    /// <summary>mewma.arl, xewma.arl and xcusum.arl of spc 0.6.7, R 4.2.2 (40 nodes, with shift 60; 100; 100).</summary>
    [Fact]
    public void Long_run_lengths_are_those_of_spc()
    {
        Close.Relative(2114.21909704, MewmaRunLength.Plane(0.1, 14).Average, 1e-9);
        Close.Relative(5292.92418942, MewmaRunLength.Plane(0.1, 16).Average, 1e-9);
        Close.Relative(89635.4309193, MewmaRunLength.Plane(0.1, 22).Average, 1e-8);
        Close.Relative(24560.5857476, MewmaRunLength.Plane(0.25, 20).Average, 1e-8);
        Close.Relative(4289937.9816, MewmaRunLength.Plane(0.1, 30).Average, 1e-5);
        Close.Relative(234.63385692169, MewmaRunLength.Plane(0.1, 13.88, 0.3).Average, 1e-9);
        Close.Relative(1090.1022966602, MewmaRunLength.Plane(0.1, 15.88, 0.2).Average, 1e-9);
        Close.Relative(41955.671627467, MewmaRunLength.Plane(0.1, 22, 0.1).Average, 1e-6); // with 40 nodes spc has 41960.8
        Close.Relative(219359.819459, EwmaRunLength.TwoSided(0.1, 4.5).Average, 1e-8);
        Close.Relative(33677693.4632, EwmaRunLength.TwoSided(0.1, 5.5).Average, 1e-6);
        Close.Relative(579981.431658, EwmaRunLength.TwoSided(0.1, 5, 0.1).Average, 1e-8);
        Close.Relative(125623781.963, EwmaRunLength.TwoSided(0.5, 6, 0.2).Average, 1e-6);
        Close.Relative(25793.598201, CusumRunLength.TwoSided(0.5, 9).Average, 1e-8);
        Close.Relative(10410375.6339, CusumRunLength.TwoSided(0.5, 15).Average, 1e-7);
        Close.Relative(115394.105202, CusumRunLength.TwoSided(0.5, 12, 0.1).Average, 1e-8);
        Close.Relative(93845.279311, CusumRunLength.TwoSided(0.1, 40).Average, 1e-8);
    }

    [Fact]
    public void A_chart_that_runs_beyond_a_billion_points_is_refused()
    {
        foreach (var chart in new Func<RunLengthLaw>[]
        {
            () => EwmaRunLength.TwoSided(0.1, 8), () => EwmaRunLength.OneSided(0.1, 9), () => CusumRunLength.TwoSided(0.5, 40),
            () => CusumRunLength.OneSided(0.5, 40), () => MewmaRunLength.Plane(0.1, 60), () => ShewhartRunLength.TwoSided(7),
            () => ShewhartRunLength.Plane(60), () => BernoulliCusumRunLength.OneSided([new(1, 0.01), new(-1, 0.99)], 30),
            () => BernoulliCusumRunLength.TwoSided([new(1, 0.01), new(-1, 0.99)], [new(1, 0.01), new(-1, 0.99)], 30),
        })
        {
            Assert.Contains("1,000,000,000 points", Assert.Throws<ArgumentOutOfRangeException>(chart).Message, StringComparison.Ordinal);
        }
        Assert.Contains("with a shift", Assert.Throws<ArgumentOutOfRangeException>(() => MewmaRunLength.Plane(0.02, 14, 0.1)).Message,
            StringComparison.Ordinal);
    }

    /// <summary>With k of 3 a chart without any limit has a signal in 1/(2·Φ(−3)) = 370.4 points (pnorm of R 4.2.2).</summary>
    [Fact]
    public void An_average_that_no_limit_gives_is_refused()
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => CusumRunLength.LimitFor(300, 3));
        Assert.Contains("at least 370.4", refusal.Message, StringComparison.Ordinal);
        Assert.True(CusumRunLength.LimitFor(372, 3) < 0.01);
        Close.Relative(1e6, MewmaRunLength.Plane(0.1, MewmaRunLength.LimitFor(1e6, 0.1)).Average, 1e-7);
        Close.Relative(1e6, CusumRunLength.TwoSided(3, CusumRunLength.LimitFor(1e6, 3)).Average, 1e-7);
    }

    /// <summary>The law on fewer nodes gives the chance of an early signal to 1e-5, with and without a shift.</summary>
    [Fact]
    public void Early_chances_are_those_of_the_full_law()
    {
        foreach (var (weight, limit) in new[] { (0.1, 12.9), (0.25, 8.0), (0.5, 15.0), (1.0, 10.0) })
        {
            foreach (var shift in new[] { 0.02, 0.15, 0.4 })
            {
                foreach (var points in new[] { 5, 40, 120 })
                    Close.Absolute(MewmaRunLength.Plane(weight, limit, shift).ProbabilityWithin(points),
                        MewmaRunLength.Early(weight, limit, shift).ProbabilityWithin(points), 1e-5, $"{weight} {limit} {shift} {points}");
            }
        }
    }
}
