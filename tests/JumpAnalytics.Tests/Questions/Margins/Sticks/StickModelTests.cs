using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class StickModelTests
{
    private static readonly StickModel _heavy = new(new(3, -1), 14, 16, 10, 10, 0.09, 6);

    private static readonly Gen<(StickModel Model, double Radius, PlaneVector Step)> _any =
        from bias in Gen.Double[-25, 25]
        from shared in Gen.Double[1, 30]
        from shape in Gen.Double[0.5, 2]
        from own in Gen.Double[3, 25]
        from wide in Gen.Double[0, 0.3]
        from widening in Gen.Double[1.5, 8]
        from radius in Gen.Double[5, 90]
        from step in Gen.Double[-30, 30]
        select (new StickModel(new(bias, -bias / 3), shared, shape * shared, own, own / shape, wide, widening),
            radius, new PlaneVector(step, step / 4));

    /// <summary>Adaptive quadrature of SciPy 1.10.1, tests/reference/sticks; its error estimate is 1e-9.</summary>
    [Fact]
    public void Chances_agree_with_an_adaptive_integral_of_another_library()
    {
        var cases = 0;
        foreach (var line in File.ReadLines(ReferenceFiles.PathOf("sticks/at-least.csv")).Skip(1))
        {
            var v = line.Split(',').Select(f => double.Parse(f, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
            var model = new StickModel(new(v[3], v[4]), v[5], v[6], v[7], v[7], v[8], v[9]);
            Close.Absolute(v[12], model.ProbabilityAtLeast((int)v[1], (int)v[0], v[2], new(v[10], v[11])), 2e-8, line);
            cases++;
        }
        Assert.Equal(4, cases);
    }

    /// <summary>
    /// One jumper is a landing of the mixture of the two normals with both parts added: known in closed form to
    /// 1e-12 by the disc probability.
    /// </summary>
    [Fact]
    public void One_jumper_is_the_disc_of_both_parts() => Cases.Each(_any, 60, 11, c =>
    {
        var m = c.Model;
        double Disc(double k) => DiscProbability.Inside(c.Radius, m.Bias.Along, m.Bias.Across,
            m.SharedDownwind * m.SharedDownwind + k * k * m.OwnDownwind * m.OwnDownwind,
            m.SharedRight * m.SharedRight + k * k * m.OwnRight * m.OwnRight, 0);
        Close.Absolute((1 - m.WideShare) * Disc(1) + m.WideShare * Disc(m.Widening), m.ProbabilityAll(1, c.Radius, c.Step), 1e-8);
    });

    [Fact]
    public void Without_a_shared_part_jumpers_are_independent()
    {
        var alone = _heavy with { SharedDownwind = 0, SharedRight = 0 };
        var p = alone.ProbabilityAll(1, 30);
        var counts = alone.InsideCounts(5, 30);
        for (var k = 0; k <= 5; k++) Close.Absolute(MathNet.Numerics.Distributions.Binomial.PMF(p, 5, k), counts[k], 1e-14);
        // Jumpers who leave far apart: the product of their own chances.
        var apart = new PlaneVector(20, 0);
        double At(double offset) => (alone with { Bias = new(alone.Bias.Along + offset, alone.Bias.Across) }).ProbabilityAll(1, 30);
        Close.Absolute(At(-20) * At(0) * At(20), alone.ProbabilityAll(3, 30, apart), 1e-14);
    }

    /// <summary>
    /// Then all share one fate: the chance of one is that of all. The integrand has a jump, so that the sum is good to 1e-3 only, as the
    /// remarks say: its grid has 301 steps over 13.6 standard deviations.
    /// </summary>
    [Fact]
    public void Without_an_own_part_all_share_one_fate()
    {
        var fate = new StickModel(new(4, 0), 15, 12, 0, 0);
        var one = DiscProbability.Inside(30, 4, 0, 225, 144, 0);
        Close.Absolute(one, fate.ProbabilityAll(6, 30), 1e-3);
        Close.Absolute(1 - one, fate.InsideCounts(6, 30)[0], 1e-3);
    }

    [Fact]
    public void Chances_add_up_fall_with_size_and_know_no_left_or_right_end() => Cases.Each(_any, 12, 12, c =>
    {
        var before = 1.0;
        foreach (var n in (int[])[1, 2, 5])
        {
            var counts = c.Model.InsideCounts(n, c.Radius, c.Step);
            Close.Absolute(1, counts.Sum(), 1e-12);
            Assert.All(counts, p => Assert.InRange(p, -1e-15, 1 + 1e-12));
            Assert.True(c.Step.Length > 15 || counts[n] <= before + 1e-9);
            before = counts[n];
            Close.Absolute(counts[n], c.Model.ProbabilityAll(n, c.Radius, new(-c.Step.Along, -c.Step.Across)), 1e-12);
        }
    });

    /// <summary>300,000 sticks of four; each share lies within 5 standard errors but for a chance of 6e-7 each.</summary>
    [Fact]
    public void Drawn_sticks_come_down_inside_as_often_as_reckoned()
    {
        const int Sticks = 300_000;
        var random = SeedStream.For(5, "sticks of four");
        var (step, radius, found) = (new PlaneVector(9, 7), 45.0, new int[5]);
        for (var s = 0; s < Sticks; s++)
        {
            var (a, b) = StandardNormal.Pair(random);
            var inside = 0;
            for (var j = 0; j < 4; j++)
            {
                var (d, r) = StandardNormal.Pair(random);
                var wide = random.NextDouble() < _heavy.WideShare ? _heavy.Widening : 1;
                var at = new PlaneVector(3 + 14 * a + 10 * wide * d + (j - 1.5) * step.Along,
                    -1 + 16 * b + 10 * wide * r + (j - 1.5) * step.Across);
                if (at.Length <= radius) inside++;
            }
            found[inside]++;
        }
        var counts = _heavy.InsideCounts(4, radius, step);
        for (var k = 0; k <= 4; k++)
            Close.Absolute(counts[k], found[k] / (double)Sticks, 5 * Math.Sqrt(counts[k] * (1 - counts[k]) / Sticks), $"{k} inside");
    }

    [Fact]
    public void Sizes_at_once_are_the_sizes_one_by_one()
    {
        var all = _heavy.Counts(6, 40, new(10, 3), 20);
        for (var n = 1; n <= 6; n++) Close.Absolute(_heavy.ProbabilityAll(n, 40, new(10, 3)), all[n - 1][n], 1e-7);
    }

    [Fact]
    public void Arguments_that_can_not_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => _heavy.InsideCounts(0, 30));
        Assert.Throws<ArgumentOutOfRangeException>(() => _heavy.InsideCounts(17, 30));
        Assert.Throws<ArgumentOutOfRangeException>(() => _heavy.InsideCounts(2, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => _heavy.ProbabilityAtLeast(-1, 2, 30));
        Assert.Equal(0, _heavy.ProbabilityAtLeast(3, 2, 30));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StickOptions { Largest = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StickOptions { PassThrough = 1.1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StickOptions { Wanted = 1 });
    }
}
