using JumpAnalytics.Internals;

namespace JumpAnalytics.Tests;

public sealed class EvenSpreadTests
{
    private static double[] NewHaven => [.. CheckData.NewHaven.Select(t => NormalInterval.Below((t - 51) / 1.25))];

    /// <summary>
    /// New Haven's temperatures against a normal of mean 51 and deviation 1.25: goftest 1.2-3 (A², W²) and ks.test(exact = TRUE) of R 4.2.2 (D).
    /// For n values goftest corrects a quick approximation of A²'s limit, .353414061981196 here; its own slow and exact one is .353394787575703.
    /// </summary>
    [Fact]
    public void A_normal_fixed_beforehand()
    {
        var (a, w, d) = (UniformityTests.AndersonDarling(NewHaven).Value!, UniformityTests.CramerVonMises(NewHaven).Value!, UniformityTests.KolmogorovSmirnov(NewHaven).Value!);
        Close.Relative(1.00742034355, a.Statistic, 1e-11);
        Close.Absolute(.353066407379 + .353394787575703 - .353414061981196, a.PValue, 1e-7);
        Close.Relative(.2134363940941, w.Statistic, 1e-11);
        Close.Relative(.243169617334, w.PValue, 1e-10);
        Close.Relative(.1244841652767, d.Statistic, 1e-11);
        Close.Relative(.285962765841, d.PValue, 1e-10);
        Assert.Equal(60, a.Points);
    }

    // Integral along a vertical line in the half plane of the moment-generating function, mpmath, 40 digits: another way than the one tested.
    [Theory]
    [InlineData(0.1, .999971921894873637)]
    [InlineData(0.2, .990412547249794117)]
    [InlineData(0.5, .746814373530344484)]
    [InlineData(1, .357266673214019086)]
    [InlineData(2, .0918367749412521167)]
    [InlineData(2.5, .0495411343761245117)]
    [InlineData(4, .0087181869139132869)]
    [InlineData(6, .000967451941520922922)]
    [InlineData(10, .0000138150354106858641)]
    [InlineData(50, 2.65562414446257336e-23)]
    public void Limit_of_A2(double x, double tail) => Close.Relative(tail, QuadraticLimits.AndersonDarling(x), 1e-13);

    // As above.
    [Theory]
    [InlineData(0.02, .996999385698398122)]
    [InlineData(0.05, .87628093104134899)]
    [InlineData(0.1, .584873438406794912)]
    [InlineData(0.2, .267470430540774894)]
    [InlineData(0.35, .0983270153073251477)]
    [InlineData(0.46, .0504049115304943693)]
    [InlineData(0.75, .00964368370739170109)]
    [InlineData(1, .00246045218013396387)]
    [InlineData(2, .0000127807361727816733)]
    [InlineData(10, 4.17894109288528815e-23)]
    public void Limit_of_W2(double x, double tail) => Close.Relative(tail, QuadraticLimits.CramerVonMises(x), 1e-13);

    // Stephens (1974), table 1A: upper percentage points of A² and W² without limit, to the digits printed.
    [Theory]
    [InlineData(1.933, .347, .10)]
    [InlineData(2.492, .461, .05)]
    [InlineData(3.857, .743, .01)]
    public void Tabled_points(double a, double w, double level)
    {
        Close.Absolute(level, QuadraticLimits.AndersonDarling(a), 3e-4);
        Close.Absolute(level, QuadraticLimits.CramerVonMises(w), 3e-4);
    }

    [Fact]
    public void The_limits_fall_from_one_to_zero()
    {
        foreach (var tail in new Func<double, double>[] { QuadraticLimits.AndersonDarling, QuadraticLimits.CramerVonMises })
        {
            var last = 1.0;
            for (var x = 0.0; x < 60; x += 0.0005 + x / 200)
            {
                var p = tail(x);
                Assert.InRange(p, 0, last + 1e-14);
                last = p;
            }
            Assert.Equal(1, tail(0));
            Assert.InRange(tail(1e4), 0, 1e-300);
        }
    }

    /// <summary>
    /// Tails in n values, counted in 1e8 (n = 5), 5e7 (10) and 2e7 (20) samples with xoshiro256** in C; the counts' own standard errors are below 1.1e-4.
    /// </summary>
    [Theory]
    [InlineData(5, 0.5, .738213, 0.1, .604584)]
    [InlineData(5, 1, .352601, 0.2, .272549)]
    [InlineData(5, 2.5, .051969, 0.46, .045881)]
    [InlineData(5, 4, .009613, 0.75, .006248)]
    [InlineData(5, 6, .001133, 1, .000890)]
    [InlineData(10, 0.5, .742755, 0.1, .594285)]
    [InlineData(10, 1, .355063, 0.2, .269803)]
    [InlineData(10, 2.5, .050767, 0.46, .048223)]
    [InlineData(10, 4, .009151, 0.75, .008032)]
    [InlineData(10, 6, .001048, 1, .001672)]
    [InlineData(20, 2.5, .050091, 0.46, .049309)]
    [InlineData(20, 6, .001004, 1, .002060)]
    public void Few_values(int n, double a, double aTail, double w, double wTail)
    {
        Close.Absolute(aTail, UniformityTests.AndersonDarlingTail(a, n), n < 10 ? 4e-4 : 2e-4);
        Close.Absolute(wTail, UniformityTests.CramerVonMisesTail(w, n), n < 10 ? 1.6e-3 : 4e-4);
    }

    // R 4.2.2, the exact distribution behind ks.test(exact = TRUE), for d = z/√n.
    [Theory]
    [InlineData(1, .8, .4)]
    [InlineData(5, .5, .916208282296365)]
    [InlineData(5, 1, .199518838510954)]
    [InlineData(5, 1.63, .00311125550322855)]
    [InlineData(20, .8, .489084954942459)]
    [InlineData(20, 1.36, .0387635376519452)]
    [InlineData(50, .5, .948794487516298)]
    [InlineData(50, 1.36, .0428642342369179)]
    [InlineData(200, 1, .257653179779214)]
    [InlineData(200, 1.63, .00902623389753865)]
    [InlineData(500, .5, .959154808892243)]
    [InlineData(500, 1.63, .00934191066729406)]
    public void Exact_tails_of_D(int n, double z, double tail) => Close.Absolute(tail, KolmogorovLaw.Tail(n, z / Math.Sqrt(n)), 1e-13);

    // The same distribution at n = 2,000 (R 4.2.2), where the expansion takes over; the limit at 1e6 and 1 to the order 1/√n; scipy 1.10.1, kstwo, in the tail.
    [Fact]
    public void Tails_of_D_in_many_values()
    {
        Close.Absolute(.266034622329137, KolmogorovLaw.Tail(2000, 1 / Math.Sqrt(2000)), 2e-8);
        Close.Absolute(.0217129417870752, KolmogorovLaw.Tail(2000, 1.5 / Math.Sqrt(2000)), 2e-8);
        Close.Relative(1.1111031760225773e-08, KolmogorovLaw.Tail(50, 3 / Math.Sqrt(50)), 1e-10);
        Close.Relative(3.0398127499352355e-08, KolmogorovLaw.Tail(1_000_000, 3e-3), 1e-8);
    }

    /// <summary>Where one formula hands over to another, the two agree.</summary>
    [Theory]
    [InlineData(100, 1e-12)]
    [InlineData(500, 1e-12)]
    [InlineData(501, 1e-8)]
    [InlineData(5000, 1e-9)]
    public void The_formulas_of_D_join(int n, double tolerance)
    {
        var join = 2 / Math.Sqrt(n);
        Close.Absolute(KolmogorovLaw.Tail(n, join * (1 + 1e-13)), KolmogorovLaw.Tail(n, join * (1 - 1e-13)), tolerance);
    }

    [Fact]
    public void D_at_its_ends()
    {
        Assert.Equal(1, KolmogorovLaw.Tail(10, 0.05));
        Assert.Equal(1, KolmogorovLaw.Tail(1, 0.5));
        Assert.Equal(0, KolmogorovLaw.Tail(10, 1));
        Assert.Equal(0, KolmogorovLaw.Tail(1_000_000, 0.9), 1e-300);
        Close.Relative(2 * Math.Pow(0.25, 3), KolmogorovLaw.Tail(3, 0.75), 1e-13); // Smirnov's sum has one term, (1 − d)^n, when n(1 − d) < 1
    }

    private static Fit<FitTest>[] All(IReadOnlyList<double> values) => [UniformityTests.AndersonDarling(values), UniformityTests.CramerVonMises(values), UniformityTests.KolmogorovSmirnov(values)];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Too_few_values_are_refused(int count) =>
        Assert.All(All(NewHaven[..count]), t => Assert.Equal($"{count} value{(count == 1 ? "" : "s")}; this test needs 5", t.Reason));

    [Theory]
    [InlineData(0.5)]
    [InlineData(0)]
    [InlineData(1)]
    public void Values_that_are_all_the_same_are_not_even(double value) => Assert.All(All([.. Enumerable.Repeat(value, 100)]), t =>
    {
        Assert.True(double.IsFinite(t.Value!.Statistic));
        Assert.InRange(t.Value.PValue, 0, 1e-8);
    });

    [Theory]
    [InlineData(-0.001)]
    [InlineData(1.001)]
    [InlineData(double.NaN)]
    public void A_value_outside_0_and_1_is_an_error(double value) => Assert.Throws<ArgumentOutOfRangeException>(() => UniformityTests.AndersonDarling([.. NewHaven, value]));

    [Fact, Trait("Category", "Long")]
    public void A_million_values_are_tested()
    {
        var even = Enumerable.Range(0, 1_000_000).Select(i => (i + 0.5) / 1e6).ToArray();
        Assert.All(All(even), t => Assert.InRange(t.Value!.PValue, 0.999, 1));
        var uneven = even.Select(u => Math.Pow(u, 1.01)).ToArray();
        Assert.All(All(uneven), t => Assert.InRange(t.Value!.PValue, 0, 1e-6));
    }
}
