using System.Globalization;

namespace JumpAnalytics.Tests;

public sealed class DirectionKernelTests
{
    private static double[] Deg(params double[] degrees) => [.. degrees.Select(double.DegreesToRadians)];

    private static readonly double[] _roulette = Deg(43, 45, 52, 61, 75, 88, 88, 279, 357);
    private static readonly double[] _zar = Deg(45, 55, 81, 96, 110, 117, 132, 154);

    /// <summary>tests/reference/directions, mpmath 1.2.1, 34 digits; tolerance 1e-9 relative asked, 1e-12 held.</summary>
    [Fact]
    public void Concentration_is_the_inverse_of_the_mean_resultant()
    {
        var rows = ReferenceFiles.Rows("directions/vonmises_kappa.csv").ToList();
        Assert.Equal(25, rows.Count);
        foreach (var row in rows) Close.Relative(Number(row["kappa"]), BesselRatio.Inverse(Number(row["Rbar"])), 1e-12, row["Rbar"]);
    }

    /// <summary>The same source.</summary>
    [Fact]
    public void Bessel_ratio_and_log_of_I0_hold_from_near_zero_to_ten_thousand()
    {
        var rows = ReferenceFiles.Rows("directions/vonmises_A1_logI0.csv").ToList();
        Assert.Equal(16, rows.Count);
        foreach (var row in rows)
        {
            var kappa = Number(row["kappa"]);
            Close.Relative(Number(row["A1=I1/I0"]), BesselRatio.Of(kappa), 1e-13, "A " + row["kappa"]);
            Close.Relative(Number(row["log_I0"]), BesselRatio.LogI0(kappa), 1e-13, "log I0 " + row["kappa"]);
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    // Mardia and Jupp (2000), example 1.1: mean 51°, R̄ 0.711, median 52°; digits: mpmath 1.2.1.
    [Fact]
    public void Roulette_spins_of_Mardia_and_Jupp()
    {
        var summary = DirectionSummary.Of(_roulette).Value!;
        Close.Relative(51.0501771085, double.RadiansToDegrees(summary.Mean), 1e-11);
        Close.Relative(0.710990998863, summary.MeanResultant, 1e-11);
        Close.Relative(52, double.RadiansToDegrees(summary.Median), 1e-12);
        Close.Relative(0.289009001137, summary.CircularVariance, 1e-11);
        Close.Relative(2.0833034833, summary.Concentration, 1e-10);
        Close.Relative(0.825948556613, summary.CircularSd, 1e-11);
    }

    // Zar (2010, Biostatistical Analysis), examples 26.2, 26.4 and 27.1: mean 99°, r 0.82522, s 34°, s0 36°, median 103°; exact chance:
    // mpmath 1.3.0, 1 − R ∫ J1(Rt) J0(t)^8 dt.
    [Fact]
    public void Trees_of_Zar()
    {
        var summary = DirectionSummary.Of(_zar).Value!;
        Close.Relative(98.9877519504, double.RadiansToDegrees(summary.Mean), 1e-11);
        Close.Relative(0.82521774482, summary.MeanResultant, 1e-11);
        Close.Relative(33.8755456686, double.RadiansToDegrees(summary.AngularDeviation), 1e-11);
        Close.Relative(35.5148798044, double.RadiansToDegrees(summary.CircularSd), 1e-11);
        Close.Relative(103, double.RadiansToDegrees(summary.Median), 1e-12);
        Close.Relative(3.2231362089, summary.Concentration, 1e-10);
        var rayleigh = DirectionTests.Rayleigh(_zar).Value!;
        Close.Relative(5.44787461093, 8 * rayleigh.Statistic * rayleigh.Statistic, 1e-11);
        Close.Relative(0.001655114111918, rayleigh.PValue, 1e-8);
    }

    // 1 − R ∫ J1(Rt) J0(t)^n dt, mpmath 1.2.1, 10 digits given. Of 3 and 4: integrals over the angles, mpmath 1.2.1.
    [Theory]
    [InlineData(10, 5.40, 0.0501490525884)]
    [InlineData(10, 6, 0.0229466024)]
    [InlineData(10, 4, 0.2054813476)]
    [InlineData(20, 7.70, 0.0496509128)]
    [InlineData(20, 6, 0.1660999970)]
    [InlineData(30, 9, 0.0661153533)]
    [InlineData(15, 7.5, 0.0207617787)]
    [InlineData(6, 4.14, 0.0500372132)]
    public void Rayleigh_chances_are_exact(int n, double resultant, double chance) =>
        Close.Absolute(chance, DirectionTests.RayleighP(n, resultant), 1e-10);

    // The chance for sums of 3 and 4 by integration over the angles, of 7 or 10 unequal lengths by the integral above, and along a
    // direction by 1/2 − 1/π ∫ J0(t)^n sin(ct)/t dt: mpmath 1.3.0.
    [Fact]
    public void Chances_of_few_of_unequal_and_along_a_direction_are_exact()
    {
        (double R, double P)[] three = [(0.7, 0.9007695429779), (1.5, 0.488320506599), (2.4, 0.1746498054013), (2.9, 0.02780009267781)];
        (double R, double P)[] four = [(1.5, 0.612125526946), (3.2, 0.0755533083438), (3.8, 0.008743301691)];
        foreach (var (r, p) in three) Close.Absolute(p, DirectionTests.RayleighP(3, r), 1e-6);
        foreach (var (r, p) in four) Close.Absolute(p, DirectionTests.RayleighP(4, r), 1e-6);
        Close.Absolute(0.002165513432569, DirectionTests.RayleighP(8, 6.5), 1e-11);
        Close.Absolute(0.051575096558139, UniformResultant.Above([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 33), 1e-9);
        Close.Absolute(0.2093680541249, UniformResultant.Above([1, 2, 3.5, 3.5, 5, 6, 7], 15), 1e-8);
        Close.Absolute(0.036645510965983, UniformResultant.AboveAlong(10, 4), 1e-10);
        Close.Absolute(0.84373898014994, UniformResultant.AboveAlong(12, -2.5), 1e-10);
    }

    /// <summary>
    /// Moore's statistic by hand: lengths 1, 2, 3, 3 with ranks 1, 2, 3.5 and 3.5, directions 0°, 90°, 0° and 0°: |(8,
    /// 2)| / 4^1.5; it is scale free.
    /// </summary>
    [Fact]
    public void Moore_weights_directions_by_ranks()
    {
        var test = DirectionTests.Moore([(1, 0), (0, 2), (3, 0), (3, 0)]).Value!;
        Close.Relative(Math.Sqrt(68) / 8, test.Statistic, 1e-12);
        Close.Absolute(UniformResultant.Above([1, 2, 3.5, 3.5], Math.Sqrt(68)), test.PValue, 1e-12);
        Close.Relative(test.PValue, DirectionTests.Moore([(7, 0), (0, 14), (21, 0), (21, 0)]).Value!.PValue, 1e-12);
    }

    /// <summary>
    /// The V test of uniform directions: of 1,000 samples of 9 a share of 0.05 has p at most 0.05; outside of 0.025 to 0.077 by chance
    /// below 3e-4 (standard deviation 0.0069). Rayleigh and Moore alike.
    /// </summary>
    [Fact]
    public void Tests_of_uniform_directions_reject_as_often_as_they_say()
    {
        var random = SeedStream.For(2, "uniform directions");
        var rejected = new int[3];
        for (var s = 0; s < 1000; s++)
        {
            var angles = Enumerable.Range(0, 9).Select(_ => random.NextDouble() * Math.Tau).ToArray();
            if (DirectionTests.Rayleigh(angles).Value!.PValue <= 0.05) rejected[0]++;
            if (DirectionTests.Towards(angles, 1).Value!.PValue <= 0.05) rejected[1]++;
            if (DirectionTests.Moore([.. angles.Select((a, i) => ((i + 1) * Math.Cos(a), (i + 1) * Math.Sin(a)))]).Value!.PValue <= 0.05)
                rejected[2]++;
        }
        Assert.All(rejected, r => Assert.InRange(r / 1000.0, 0.025, 0.077));
    }

    /// <summary>Two directions: chance 1 − 2/π asin(R/2). A uniform sum of 500 or 5,000: exp(−R²/n) to 1/n.</summary>
    [Fact]
    public void Rayleigh_chances_of_few_and_of_many()
    {
        Close.Relative(1 - 2 / Math.PI * Math.Asin(0.8), DirectionTests.RayleighP(2, 1.6), 1e-12);
        foreach (var n in new[] { 500, 5000 }) Close.Relative(Math.Exp(-4), DirectionTests.RayleighP(n, 2 * Math.Sqrt(n)), 4.0 / n);
        Assert.Equal(1, DirectionTests.RayleighP(7, 0));
        Assert.InRange(DirectionTests.RayleighP(200, 199), 0, 1e-9);
    }

    // Zar (2010), example 27.10: F 1.61, p 0.22. R's circular 0.4-95, which takes κ from all directions together: F 1.61733692998.
    [Fact]
    public void Watson_and_Williams_compare_two_groups()
    {
        double[][] groups = [Deg(94, 65, 45, 52, 38, 47, 73, 82, 90, 40, 87), Deg(77, 70, 61, 45, 50, 35, 48, 65, 36)];
        var test = DirectionTests.WatsonWilliams(groups).Value!;
        Close.Absolute(1.61, test.Statistic, 0.005);
        Close.Absolute(0.22, test.PValue, 0.005);
        var within = BesselRatio.Inverse((10.317191465542 + 8.732300075909) / 20);
        Close.Relative(1.5586103726 * (1 + 3 / (8 * within)), test.Statistic, 1e-9);
    }

    // besselj at 30 digits, mpmath 1.3.0.
    [Theory]
    [InlineData(0.5, 0.93846980724081290423, 0.24226845767487388638)]
    [InlineData(12, 0.047689310796833536624, -0.22344710449062761237)]
    [InlineData(24.9, 0.083245968353015681694, -0.13485569953140874334)]
    [InlineData(25.1, 0.10827567149994928907, -0.11463478413442272782)]
    [InlineData(1000, 0.024786686152420174561, 0.0047283119070895239176)]
    public void Bessel_functions_hold(double x, double zero, double one)
    {
        Close.Absolute(zero, BesselJ.Zero(x), 2e-15);
        Close.Absolute(one, BesselJ.One(x), 2e-15);
    }

    /// <summary>Turning all directions turns mean, median and limits, and nothing else.</summary>
    [Fact]
    public void A_turn_turns_the_summary()
    {
        var plain = DirectionSummary.Of(_zar).Value!;
        foreach (var turn in new[] { 1.0, 3.7, -2.2 })
        {
            var turned = DirectionSummary.Of([.. _zar.Select(a => a + turn)]).Value!;
            Close.Absolute(0, DirectionSummary.Gap(turned.Mean, plain.Mean + turn), 1e-12);
            Close.Absolute(0, DirectionSummary.Gap(turned.Median, plain.Median + turn), 1e-12);
            Close.Absolute(plain.MeanRange!.Value.Low - plain.Mean, turned.MeanRange!.Value.Low - turned.Mean, 1e-12);
            Close.Relative(plain.MeanResultant, turned.MeanResultant, 1e-12);
        }
    }

    /// <summary>
    /// Intervals of the mean of 12 directions, half from a von Mises-like normal of 0.9 rad wrapped, half uniform: of 4,000 samples a true
    /// coverage of 0.95 gives a share outside of 0.935 to 0.965 with a chance below 2e-5 (standard deviation 0.0034). Where there is no
    /// interval it counts as holding.
    /// </summary>
    [Fact]
    public void Intervals_of_the_mean_direction_hold_it()
    {
        var random = SeedStream.For(1, "mean direction");
        var held = 0;
        for (var s = 0; s < 4000; s++)
        {
            var angles = Enumerable.Range(0, 12).Select(i => i % 4 == 0
                ? random.NextDouble() * Math.Tau : 2 + 0.9 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1)).ToArray();
            if (DirectionSummary.Of(angles).Value!.MeanRange is not { } range
                || Math.Abs(DirectionSummary.Gap(2, (range.Low + range.High) / 2)) <= (range.High - range.Low) / 2) held++;
        }
        Assert.InRange(held / 4000.0, 0.935, 0.97);
    }

    [Fact]
    public void What_cannot_be_said_is_refused_with_its_reason()
    {
        Assert.Equal("no direction", DirectionSummary.Of([]).Reason);
        Assert.Contains("cancel", DirectionSummary.Of(Deg(0, 180)).Reason, StringComparison.Ordinal);
        Assert.False(DirectionTests.Rayleigh([1]).Success);
        Assert.False(DirectionTests.Moore([(1, 0), (0, 0), (0, 1), (2, 2)]).Success);
        Assert.NotNull(DirectionSummary.Of(Deg(0, 90, 181, 270, 5)).Value!.WhyNoRange);
        Assert.Throws<ArgumentException>(() => DirectionSummary.Of([double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() => DirectionSummary.Of([1], confidence: 1));
    }
}
