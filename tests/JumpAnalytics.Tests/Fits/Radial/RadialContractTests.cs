namespace JumpAnalytics.Tests;

/// <summary>What every distribution of distances must do, whatever its name.</summary>
public sealed class RadialContractTests
{
    private static readonly IRadialModel[] _all =
    [
        new RayleighDistance(30),
        new RiceDistance(0, 30), new RiceDistance(25, 20), new RiceDistance(400, 7),
        new HoytDistance(30, 30), new HoytDistance(30, 11), new HoytDistance(30, 0.05), new HoytDistance(30, 0),
        new WeibullDistance(40, 1.4), new WeibullDistance(40, 0.5), new WeibullDistance(40, 20),
        new GammaDistance(35, 2.5), new GammaDistance(35, 0.3), new GammaDistance(35, 400),
        new LognormalDistance(30, 0.7), new LognormalDistance(30, 0.02),
    ];

    public static TheoryData<int> All => [.. Enumerable.Range(0, _all.Length)];

    [Theory]
    [MemberData(nameof(All))]
    public void The_density_integrates_to_one_and_is_the_slope_of_the_share_within(int which)
    {
        var model = _all[which];
        const int Steps = 40_000; // Simpson's rule in the logarithm of the distance
        var (start, end) = (Math.Log(model.RadiusHolding(1e-13)), Math.Log(model.RadiusHolding(1 - 1e-13)));
        var (sum, step) = (0.0, (end - start) / Steps);
        for (var i = 0; i <= Steps; i++)
        {
            var r = Math.Exp(start + i * step);
            sum += (i is 0 or Steps ? 1 : i % 2 == 0 ? 2 : 4) * r * Math.Exp(model.LogDensity(r));
        }
        Close.Absolute(1, sum * step / 3, 1e-10, "integral");

        foreach (var share in (double[])[1e-9, 0.01, 0.3, 0.6, 0.99, 0.999999])
        {
            var r = model.RadiusHolding(share);
            var (low, high) = (r * (1 - 1e-7), r * (1 + 1e-7));
            Close.Relative(Math.Exp(model.LogDensity(r)), model.ProbabilityBetween(low, high) / (high - low), 1e-9, $"slope at {share}");
        }
        Assert.Equal(double.NegativeInfinity, model.LogDensity(double.PositiveInfinity));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Shares_add_up_and_the_tail_keeps_its_digits(int which)
    {
        var model = _all[which];
        double[] shares = [1e-12, 1e-6, 0.01, 0.3, 0.5, 0.7, 0.99, 0.9999999];
        foreach (var share in shares)
        {
            var r = model.RadiusHolding(share);
            Close.Absolute(1, model.ProbabilityWithin(r) + model.ProbabilityBeyond(r), 1e-14, "within and beyond");
            Close.Relative(model.ProbabilityBetween(0, r), model.ProbabilityWithin(r), 1e-14);
            Close.Relative(model.ProbabilityBetween(r, double.PositiveInfinity), model.ProbabilityBeyond(r), 1e-14);
        }
        Assert.Equal(0, model.ProbabilityWithin(0));
        Assert.Equal(1, model.ProbabilityBeyond(0));
        Assert.Equal(1, model.ProbabilityWithin(double.PositiveInfinity));
        Assert.Equal(0, model.ProbabilityBeyond(double.PositiveInfinity));
        Assert.Equal(0, model.ProbabilityBetween(7, 7));
        Assert.Equal(0, model.ProbabilityBetween(double.PositiveInfinity, double.PositiveInfinity));

        // Beyond about 1e-100: ring by ring out to nothing.
        var edge = model.RadiusHolding(0.5);
        for (var growth = 2.0; growth > 1.0001; growth = Math.Sqrt(growth))
        {
            while (model.ProbabilityBeyond(edge * growth) > 1e-100) edge *= growth;
        }
        var (pieces, inner) = (0.0, edge);
        for (var k = 0; k < 100_000; k++)
        {
            var ring = model.ProbabilityBetween(inner, inner += edge * 0.003 * (1 + k));
            pieces += ring;
            if (ring < 1e-18 * pieces) break;
        }
        Assert.InRange(model.ProbabilityBeyond(edge), 1e-100, 1e-90);
        Close.Relative(model.ProbabilityBeyond(edge), pieces, 1e-11, "rings of the tail");
    }

    /// <summary>Rice and Hoyt by the chord integral of DiscProbability, to 1e-9; the others to a rounding.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void The_radius_is_the_inverse_of_the_share(int which)
    {
        var model = _all[which];
        var last = 0.0;
        foreach (var share in (double[])[1e-60, 1e-12, 1e-6, 0.001, 0.1, 0.499, 0.5, 0.501, 0.9, 0.95, 0.999, 1 - 1e-9])
        {
            var r = model.RadiusHolding(share);
            Close.Relative(share, model.ProbabilityWithin(r), 1e-9);
            Close.Relative(1 - share, model.ProbabilityBeyond(r), share > 0.9999 ? 1e-3 : 1e-9); // a chord integral near 1 has 1e-12 of 1
            Assert.True(r > last);
            last = r;
        }
    }

    /// <summary>Kolmogorov's bound (Massart 1990): 16 samples of 20,000 lie beyond it with a total probability below 2e-5.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void Draws_follow_the_distribution(int which)
    {
        var (model, random) = (_all[which], SeedStream.For(20_310_714, $"radial draws {which}"));
        const int Count = 20_000;
        var draws = Enumerable.Range(0, Count).Select(_ => model.Draw(random)).Order().ToArray();
        var distance = draws.Select((r, i) => model.ProbabilityWithin(r) is var p ? Math.Max(p - i / (double)Count, (i + 1) / (double)Count - p) : 0).Max();
        Assert.InRange(distance, 0, Math.Sqrt(Math.Log(2 / 1e-6) / (2 * Count)));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Bad_arguments_are_named(int which)
    {
        var model = _all[which];
        foreach (var bad in (double[])[-1, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>("distance", () => model.LogDensity(bad));
            Assert.Throws<ArgumentOutOfRangeException>("radius", () => model.ProbabilityWithin(bad));
            Assert.Throws<ArgumentOutOfRangeException>("radius", () => model.ProbabilityBeyond(bad));
            Assert.Throws<ArgumentOutOfRangeException>("low", () => model.ProbabilityBetween(bad, 1));
        }
        Assert.Throws<ArgumentOutOfRangeException>("high", () => model.ProbabilityBetween(2, 1));
        Assert.Throws<ArgumentOutOfRangeException>("high", () => model.ProbabilityBetween(2, double.NaN));
        foreach (var bad in (double[])[0, 1, -0.1, double.NaN]) Assert.Throws<ArgumentOutOfRangeException>("probability", () => model.RadiusHolding(bad));
    }

    [Fact]
    public void Parameters_out_of_range_are_refused()
    {
        foreach (var bad in (double[])[0, -1, double.NaN, double.PositiveInfinity])
        {
            Assert.Throws<ArgumentOutOfRangeException>("StandardDeviation", () => new RayleighDistance(bad));
            Assert.Throws<ArgumentOutOfRangeException>("StandardDeviation", () => new RiceDistance(1, bad));
            Assert.Throws<ArgumentOutOfRangeException>("Larger", () => new HoytDistance(bad, 0));
            Assert.Throws<ArgumentOutOfRangeException>("Scale", () => new WeibullDistance(bad, 1));
            Assert.Throws<ArgumentOutOfRangeException>("Shape", () => new WeibullDistance(1, bad));
            Assert.Throws<ArgumentOutOfRangeException>("Mean", () => new GammaDistance(bad, 1));
            Assert.Throws<ArgumentOutOfRangeException>("Shape", () => new GammaDistance(1, bad));
            Assert.Throws<ArgumentOutOfRangeException>("Median", () => new LognormalDistance(bad, 1));
            Assert.Throws<ArgumentOutOfRangeException>("LogSpread", () => new LognormalDistance(1, bad));
        }
        Assert.Throws<ArgumentOutOfRangeException>("Bias", () => new RiceDistance(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("Smaller", () => new HoytDistance(1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("Smaller", () => new HoytDistance(1, 1.001));
    }

    /// <summary>The same distribution under two names, and the plane that Rice's and Hoyt's come from.</summary>
    [Fact]
    public void Families_meet_where_they_should()
    {
        foreach (var r in (double[])[0.01, 3, 20, 35, 80, 250])
        {
            var rayleigh = new RayleighDistance(30);
            foreach (IRadialModel same in (IRadialModel[])[new RiceDistance(0, 30), new HoytDistance(30, 30), new WeibullDistance(30 * Math.Sqrt(2), 2)])
                Same(rayleigh, same, r);
            Same(new WeibullDistance(30, 1), new GammaDistance(30, 1), r);
            Close.Relative(DiscProbability.Inside(r, 12, -9, 400, 400, 0), new RiceDistance(15, 20).ProbabilityWithin(r), 1e-12);
            Close.Relative(DiscProbability.Inside(r, 0, 0, 400, 25, 30), Turned(400, 25, 30).ProbabilityWithin(r), 1e-12);
        }

        static HoytDistance Turned(double v1, double v2, double c)
        {
            var half = double.Hypot((v1 - v2) / 2, c);
            return new HoytDistance(Math.Sqrt((v1 + v2) / 2 + half), Math.Sqrt((v1 + v2) / 2 - half));
        }

        static void Same(IRadialModel one, IRadialModel other, double r)
        {
            Close.Relative(one.ProbabilityWithin(r), other.ProbabilityWithin(r), 1e-13, other.Name);
            Close.Relative(one.ProbabilityBeyond(r), other.ProbabilityBeyond(r), 1e-13, other.Name);
            Close.Absolute(one.LogDensity(r), other.LogDensity(r), 1e-13 * Math.Max(1, Math.Abs(one.LogDensity(r))), other.Name);
        }
    }
}
