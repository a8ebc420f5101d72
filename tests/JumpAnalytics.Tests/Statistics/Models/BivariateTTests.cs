using System.Globalization;

namespace JumpAnalytics.Tests;

public sealed class BivariateTTests
{
    // Body (kg) and brain (g) weights of 28 animals, the data set Animals of the R package MASS 7.3-58.2 (Rousseeuw and Leroy
    // 1987); logarithms are fitted.
    private static readonly double[] _body =
        [1.35, 465, 36.33, 27.66, 1.04, 11700, 2547, 187.1, 521, 10, 3.3, 529, 207, 62, 6654, 9400, 6.8, 35, 0.12, 0.023, 2.5, 55.5,
            100, 52.16, 0.28, 87000, 0.122, 192];

    private static readonly double[] _brain =
        [8.1, 423, 119.5, 115, 5.5, 50, 4603, 419, 655, 115, 25.6, 680, 406, 1320, 5712, 70, 179, 56, 1, 0.4,
            12.1, 175, 157, 440, 1.9, 154.5, 3, 180];

    private static readonly PlaneSample _animals = PlaneSample.Of(_body.Zip(_brain, (a, b) => new PlaneVector(Math.Log(a), Math.Log(b))));

    public static TheoryData<string> Discs => [.. ReferenceFiles.Rows("bivariate-t/disc.csv").Select(r => string.Join(' ', r.Values))];

    /// <summary>mpmath 1.2.1, 40 digits, chords under the conditional t: tests/reference/bivariate-t. Worst found: 7e-14.</summary>
    [Theory, MemberData(nameof(Discs))]
    public void Probabilities_within_and_beyond_agree_with_chords_in_high_precision(string row)
    {
        var v = row.Split(' ').Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
        var model = new BivariateT(new BivariateNormal(v[1], v[2], v[3], v[4], v[5]), v[6]);
        Close.Relative(v[7], model.ProbabilityWithin(v[0]), 1e-12, "within");
        Close.Relative(v[8], model.ProbabilityBeyond(v[0]), 1e-12, "beyond");
    }

    /// <summary>
    /// The definition: a normal whose variance is divided by a chi-square over its degrees of freedom, here two, so that an
    /// exponential of mean one divides it.
    /// </summary>
    [Theory]
    [InlineData(5, 3, 4)]
    [InlineData(40, -20, 10)]
    [InlineData(15, 60, 0)]
    public void It_is_a_normal_whose_variance_is_divided_by_chance(double radius, double centre1, double centre2)
    {
        var core = new BivariateNormal(4, -3, 144, 60, 30);
        var (sum, step) = (0.0, 0.01); // the trapezoid rule on the logarithm of the divisor
        for (var k = -4000; k <= 400; k++)
        {
            var w = Math.Exp(step * k);
            var normal = core.Widened(1 / w);
            sum += step * w * Math.Exp(-w) * normal.ProbabilityWithin(radius, new(centre1, centre2));
        }
        Close.Relative(sum, new BivariateT(core, 2).ProbabilityWithin(radius, new(centre1, centre2)), 1e-10);
    }

    [Theory]
    [InlineData(0.7)]
    [InlineData(3)]
    [InlineData(200)]
    public void A_centred_circular_t_has_a_closed_form(double freedom)
    {
        var model = new BivariateT(new BivariateNormal(0, 0, 25, 25, 0), freedom);
        foreach (var radius in (double[])[1e-6, 0.3, 5, 40, 3e3, 1e9])
        {
            var beyond = Math.Pow(1 + radius * radius / (25 * freedom), -freedom / 2);
            if (beyond > 1e-300) Close.Relative(beyond, model.ProbabilityBeyond(radius), 1e-12, $"beyond {radius}");
            if (beyond < 0.9) Close.Relative(1 - beyond, model.ProbabilityWithin(radius), 1e-12, $"within {radius}");
        }
        foreach (var p in (double[])[1e-9, 0.5, 0.9, 1 - 1e-9])
            // 1 - p has few digits of p left.
            Close.Relative(5 * Math.Sqrt(freedom * (Math.Pow(1 - p, -2 / freedom) - 1)),
                model.RadiusHolding(p), p < 1e-6 ? 1e-6 : 1e-9, $"{p}");
    }

    /// <summary>
    /// Next to the rim of a circle many spreads wide the rim is straight, and what lies within is the t in one
    /// dimension: half at the rim itself.
    /// </summary>
    [Theory]
    [InlineData(1e6)]
    [InlineData(1e10)]
    public void A_wide_rim_is_straight(double radius)
    {
        foreach (var freedom in (double[])[1, 4])
        {
            // Distribution function of the t with 1 and 4 degrees of freedom, in closed form.
            var below = (double t) =>
                freedom == 1 ? 0.5 + Math.Atan(t) / Math.PI : 0.5 + t / Math.Sqrt(4 + t * t) * (0.5 + 1 / (4 + t * t));
            foreach (var depth in (double[])[-6, -1, 0, 0.5, 8])
            {
                var model = new BivariateT(new BivariateNormal(radius - depth, 0, 1, 4, 1.2), freedom);
                var exact = radius - (radius - depth); // as rounded
                Close.Absolute(below(exact), model.ProbabilityWithin(radius),
                    40 / Math.Pow(radius, freedom == 1 ? 0.7 : 1), $"{freedom}, {depth}");
                Close.Absolute(1, model.ProbabilityWithin(radius) + model.ProbabilityBeyond(radius), 1e-12);
            }
        }
    }

    // R 4.2.2: EM and direct optimisation agree to 1e-6; log-likelihood 12 digits.
    [Fact]
    public void The_fit_is_that_of_R()
    {
        var fit = BivariateT.FitTo(_animals).Value!;
        var (core, freedom) = (fit.Model.Core, fit.Model.DegreesOfFreedom);
        Close.Absolute(-123.123810483, fit.LogLikelihood!.Value, 5e-10);
        Close.Absolute(2.182399, freedom, 1e-6);
        Close.Absolute(3.5809176, core.MeanAlong, 1e-6);
        Close.Absolute(4.6865518, core.MeanAcross, 1e-6);
        Close.Absolute(7.132368, core.VarianceAlong, 2e-6);
        Close.Absolute(4.938342, core.Covariance, 2e-6);
        Close.Absolute(3.926516, core.VarianceAcross, 2e-6);
        Assert.Equal(6, fit.FreeParameters);
        Assert.Empty(fit.Warnings);
    }

    // MASS 7.3-58.2: cov.trob(log(Animals), nu = 5, tol = 1e-12, maxit = 1e4), 12 digits.
    [Fact]
    public void With_five_degrees_of_freedom_held_the_fit_is_that_of_cov_trob()
    {
        var fit = BivariateT.FitTo(_animals, 5).Value!;
        Close.Relative(3.46559476887, fit.Model.Core.MeanAlong, 1e-11);
        Close.Relative(4.57267798059, fit.Model.Core.MeanAcross, 1e-11);
        Close.Relative(9.04144917746, fit.Model.Core.VarianceAlong, 1e-11);
        Close.Relative(5.82758854328, fit.Model.Core.Covariance, 1e-11);
        Close.Relative(4.72678131977, fit.Model.Core.VarianceAcross, 1e-11);
        Close.Absolute(-124.463467886, fit.LogLikelihood!.Value, 5e-10);
        Assert.Equal(5, fit.FreeParameters);
    }

    // A grid of the quantiles of a chi-square with two degrees of freedom, cut short: lighter in the tail than any normal.
    private static readonly PlaneSample _disc = PlaneSample.Of(Enumerable.Range(0, 200).Select(i => new PlaneVector(
        40 + 10 * Math.Sqrt((i + 0.5) / 200) * Math.Cos(2.4 * i), 30 * Math.Sqrt((i + 0.5) / 200) * Math.Sin(2.4 * i))));

    [Fact]
    public void Misses_without_a_heavy_tail_give_the_normal_and_a_warning()
    {
        var (t, normal) = (BivariateT.FitTo(_disc).Value!, BivariateNormal.FitTo(_disc).Value!);
        Assert.Equal(double.PositiveInfinity, t.Model.DegreesOfFreedom);
        Close.Absolute(normal.LogLikelihood!.Value, t.LogLikelihood!.Value, 1e-8);
        Close.Relative(normal.Model.VarianceAcross, t.Model.Core.VarianceAcross, 1e-8);
        Assert.Contains("no heavier tail than a normal", Assert.Single(t.Warnings), StringComparison.Ordinal);
        Assert.Equal(6, t.FreeParameters);
        Assert.Null(t.Parameters[^1].StandardError); // of the degrees of freedom
        Assert.All(t.Parameters.SkipLast(1), p => Assert.True(p.StandardError > 0));
        Close.Relative(normal.Derived(m => m.RadiusHolding(0.9), 0.95).Range!.Value.High,
            t.Derived(m => m.RadiusHolding(0.9), 0.95).Range!.Value.High, 1e-5);
    }

    /// <summary>
    /// The profile of a far share starts from the end of the degrees of freedom and leaves it upwards, where a far tail
    /// explains the misses nearly as well.
    /// </summary>
    [Fact]
    public void An_interval_by_profile_leaves_the_end_of_the_degrees_of_freedom()
    {
        var random = SeedStream.For(3, "edge");
        var sample = PlaneSample.Of(Enumerable.Range(0, 30).Select(_ => new BivariateNormal(8, -3, 400, 225, 60).Draw(random)));
        var (t, normal) = (BivariateT.FitTo(sample).Value!, BivariateNormal.FitTo(sample).Value!);
        Assert.Equal(double.PositiveInfinity, t.Model.DegreesOfFreedom);
        var (far, near) =
            (t.Profile(m => m.ProbabilityBeyond(60), 0.95).Range!.Value, normal.Profile(m => m.ProbabilityBeyond(60), 0.95).Range!.Value);
        Close.Relative(near.Low, far.Low, 1e-6);
        Assert.InRange(far.High, 1.2 * near.High, 5 * near.High);
    }

    /// <summary>
    /// The profile of the degrees of freedom by its definition: what is best with them held, half of 3.841458820694124 below the top.
    /// </summary>
    [Fact]
    public void The_profile_of_the_degrees_of_freedom_is_that_of_fits_that_hold_them()
    {
        var fit = BivariateT.FitTo(_animals).Value!;
        var range = fit.Profile(m => m.DegreesOfFreedom, 0.95).Range!.Value;
        Assert.InRange(fit.Model.DegreesOfFreedom, range.Low, range.High);
        foreach (var limit in (double[])[range.Low, range.High])
            Close.Absolute(fit.LogLikelihood!.Value - 3.841458820694124 / 2,
                BivariateT.FitTo(_animals, limit).Value!.LogLikelihood!.Value, 1e-5);
    }

    /// <summary>With a far tail the profile of R90 bends upwards before it has fallen far enough.</summary>
    [Fact]
    public void A_profile_that_flattens_out_is_followed_to_its_limit()
    {
        var random = SeedStream.For(1, "x");
        var truth = new BivariateT(new BivariateNormal(8, -3, 400, 225, 60), 4);
        var fit = BivariateT.FitTo(PlaneSample.Of(Enumerable.Range(0, 40).Select(_ => truth.Draw(random)))).Value!;
        var range = fit.Profile(m => m.RadiusHolding(0.9), 0.95).Range!.Value;
        var value = fit.Model.RadiusHolding(0.9);
        Assert.InRange(range.High - value, 1.5 * (value - range.Low), 5 * (value - range.Low));
    }

    [Fact]
    public void Held_at_infinity_it_is_the_normal()
    {
        var (t, normal) = (BivariateT.FitTo(_animals, double.PositiveInfinity).Value!, BivariateNormal.FitTo(_animals).Value!);
        Close.Absolute(normal.LogLikelihood!.Value, t.LogLikelihood!.Value, 1e-9);
        Close.Relative(normal.Model.RadiusHolding(0.9), t.Model.RadiusHolding(0.9), 1e-9);
        Assert.Equal(normal.Model.ProbabilityWithin(3), t.Model.ProbabilityWithin(3), 1e-9);
    }

    [Fact]
    public void Few_clustered_or_impossible_arguments_are_named()
    {
        Assert.Equal("6 points with a known place; a bivariate "
            + "t needs 7", BivariateT.FitTo(PlaneSample.Of(_animals.Placed.Take(6))).Reason);
        Assert.Equal("most points lie at one point or on one line",
            BivariateT.FitTo(PlaneSample.Of([.. Enumerable.Repeat(default(PlaneVector), 25), .. _animals.Placed.Take(4)])).Reason);
        Assert.Throws<ArgumentOutOfRangeException>(() => BivariateT.FitTo(_animals, 0.4));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BivariateT(new BivariateNormal(0, 0, 1, 1, 0), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BivariateT(new BivariateNormal(0, 0, 1, 1, 1), 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BivariateT(new BivariateNormal(double.NaN, 0, 1, 1, 0), 3));
    }

    /// <summary>A tail heavier than half a degree of freedom has no summit to settle on.</summary>
    [Fact]
    public void A_tail_without_end_is_refused()
    {
        var misses = Enumerable.Range(1, 60)
            .Select(i => new PlaneVector(Math.Exp(0.5 * i) * Math.Cos(2.4 * i), Math.Exp(0.5 * i) * Math.Sin(2.4 * i)));
        Assert.NotNull(BivariateT.FitTo(PlaneSample.Of(misses)).Reason);
    }
}
