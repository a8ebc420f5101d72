namespace JumpAnalytics.Tests;

public sealed class KernelDensityTests
{
    private static readonly DownwindVector[] _five = [new(0, 0), new(3, 1), new(-2, 4), new(5, -3), new(1, 6)];

    private static DownwindVector[] Drawn(int count)
    {
        var (model, random) = (new BivariateT(new BivariateNormal(8, -3, 400, 225, 60), 4), SeedStream.For(3, "kernel"));
        return [.. Enumerable.Range(0, count).Select(_ => model.Draw(random))];
    }

    /// <summary>By hand: covariance (divisor four) times the cube root of one fifth.</summary>
    [Fact]
    public void The_kernel_follows_the_rule()
    {
        var kernel = KernelDensity.FitTo(MissSample.Of(_five)).Value!.Model.Kernel;
        var share = Math.Pow(5, -1 / 3.0);
        Close.Relative(share * (1.4 * 1.4 + 1.6 * 1.6 + 3.4 * 3.4 + 3.6 * 3.6 + 0.4 * 0.4) / 4, kernel.VarianceDownwind, 1e-13);
        Close.Relative(share * (1.6 * 1.6 + 0.6 * 0.6 + 2.4 * 2.4 + 4.6 * 4.6 + 4.4 * 4.4) / 4, kernel.VarianceRight, 1e-13);
        Close.Relative(share * (1.4 * 1.6 - 1.6 * 0.6 - 3.4 * 2.4 - 3.6 * 4.6 - 0.4 * 4.4) / 4, kernel.Covariance, 1e-13);
    }

    [Fact]
    public void Missions_and_not_landings_set_the_bandwidth()
    {
        var misses = Drawn(300);
        var (alone, shared) = (KernelDensity.FitTo(MissSample.Of(misses)).Value!.Model, KernelDensity.FitTo(MissSample.Of(misses.Select((m, i) => new MissReading($"{i / 10}", m)))).Value!.Model);
        Close.Relative(Math.Cbrt(10), shared.Kernel.VarianceDownwind / alone.Kernel.VarianceDownwind, 1e-12);
        Assert.Equal("4 missions with placed landings; a kernel density needs 5", KernelDensity.FitTo(MissSample.Of(misses.Select((m, i) => new MissReading($"{i % 4}", m)))).Reason);
    }

    [Theory]
    [InlineData(2500)]
    [InlineData(15000)]
    public void Gathering_landings_in_cells_changes_no_probability_by_a_millionth(int count)
    {
        var misses = Drawn(count);
        var model = KernelDensity.FitTo(MissSample.Of(misses)).Value!.Model;
        foreach (var radius in (double[])[3, 20, 50])
        {
            var exact = misses.Average(m => (model.Kernel with { MeanDownwind = m.Downwind, MeanRight = m.Right }).ProbabilityWithin(radius, new(3, 4)));
            Close.Absolute(exact, model.ProbabilityWithin(radius, new(3, 4)), 1e-6, $"{radius}");
        }
    }

    /// <summary>By hand from the definition, six missions of one or two landings.</summary>
    [Fact]
    public void Each_mission_is_foretold_by_the_others_alone()
    {
        MissReading[] readings = [.. _five.Select((m, i) => new MissReading($"{i}", m)), new("4", new(2, 5))];
        var sample = MissSample.Of(readings);
        var kernel = KernelDensity.FitTo(sample).Value!.Model.Kernel;
        var sum = readings.Sum(r => Math.Log(readings.Where(o => o.Mission != r.Mission)
            .Average(o => Math.Exp((kernel with { MeanDownwind = o.Miss!.Value.Downwind, MeanRight = o.Miss.Value.Right }).LogDensity(r.Miss!.Value)!.Value))));
        Close.Absolute(sum, KernelDensity.LeftOut(sample)!.Value, 1e-12);
        Assert.Null(KernelDensity.LeftOut(MissSample.Of(_five.Take(4))));
    }

    [Fact]
    public void It_has_no_likelihood_and_says_what_it_leaves_out()
    {
        var fit = KernelDensity.FitTo(MissSample.Of([.. Drawn(20).Select((m, i) => new MissReading($"{i}", m)), new("a", null, 90), new("b", null, 70)])).Value!;
        Assert.Null(fit.LogLikelihood);
        Assert.Null(fit.Aicc);
        Assert.NotNull(fit.WhyNoErrors);
        Assert.Equal("2 landings known only as beyond a distance are left out: the smoothed misses are too short", Assert.Single(fit.Warnings));
        Assert.Equal(22, fit.Landings);
    }

    /// <summary>Far from every landing the logarithm of the density is a number still.</summary>
    [Fact]
    public void Far_away_the_density_is_small_and_not_nothing() =>
        Assert.InRange(KernelDensity.FitTo(MissSample.Of(_five)).Value!.Model.LogDensity(new(1e6, 0))!.Value, -1e13, -1e9);
}
