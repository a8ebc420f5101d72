namespace JumpAnalytics.Tests;

public sealed class DistanceSampleTests
{
    [Fact]
    public void Readings_say_what_is_known()
    {
        Assert.Equal((12.0, 12.0, true), Parts(DistanceReading.Exact(12)));
        Assert.Equal((12.0, double.PositiveInfinity, false), Parts(DistanceReading.Beyond(12)));
        Assert.Equal((0.0, 12.0, false), Parts(DistanceReading.Within(12)));
        Assert.Equal((9.0, 12.0, false), Parts(DistanceReading.Between(9, 12)));

        static (double, double, bool) Parts(DistanceReading r) => (r.Low, r.High, r.IsExact);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Readings_that_are_no_distances_are_refused(double bad)
    {
        Assert.Throws<ArgumentOutOfRangeException>("distance", () => DistanceReading.Exact(bad));
        Assert.Throws<ArgumentOutOfRangeException>("distance", () => DistanceReading.Beyond(bad));
        Assert.Throws<ArgumentOutOfRangeException>("low", () => DistanceReading.Between(bad, 5));
        Assert.Throws<ArgumentOutOfRangeException>("high", () => DistanceReading.Within(bad));
        Assert.Throws<ArgumentOutOfRangeException>("high", () => DistanceReading.Between(5, 5));
    }

    [Fact]
    public void Landings_are_counted_by_mission()
    {
        var sample = DistanceSample.Of([("m1", DistanceReading.Exact(3)), ("m2", DistanceReading.Exact(4)), ("m1", DistanceReading.Beyond(4))]);
        Assert.Equal((3, 2, false), (sample.Landings, sample.Missions, sample.IsIndependent));
        Assert.True(DistanceSample.Of([DistanceReading.Exact(3), DistanceReading.Exact(3)]).IsIndependent);
        Assert.Equal([DistanceReading.Exact(3), DistanceReading.Exact(4), DistanceReading.Beyond(4)], sample.Readings);
    }

    [Fact]
    public void Misses_give_their_lengths_and_keep_their_missions()
    {
        var sample = DistanceSample.Of(MissSample.Of([new MissReading("m1", new(3, -4)), new MissReading("m2", null, 30), new MissReading("m1", new(0, 2))]));
        Assert.Equal([DistanceReading.Exact(5), DistanceReading.Exact(2), DistanceReading.Beyond(30)], sample.Readings);
        Assert.Equal(2, sample.Missions);
        Assert.Equal([0, 0, 1], sample.MissionOf.ToArray());
    }

    // By hand: per landing the slope in log σ is r²/σ² - 2, the curvature at the top -4 n; the slopes summed by mission and squared, times M/(M - 1),
    // over (4 n)² give the variance of log σ; t(2) at 97.5 % is 4.302652729911275 (R 4.2.2).
    [Fact]
    public void Errors_allow_for_missions_that_landings_share()
    {
        (string Mission, double Distance)[] landings = [("a", 5), ("a", 7), ("a", 6), ("b", 20), ("b", 25), ("c", 11)];
        var fit = RayleighDistance.FitTo(DistanceSample.Of(landings.Select(l => (l.Mission, DistanceReading.Exact(l.Distance))))).Value!;
        var square = landings.Average(l => l.Distance * l.Distance) / 2;
        var meat = landings.GroupBy(l => l.Mission).Sum(g => Math.Pow(g.Sum(l => l.Distance * l.Distance / square - 2), 2)) * 3 / 2;
        var error = Math.Sqrt(meat) / (4 * 6);
        Close.Relative(Math.Sqrt(square) * error, fit.Parameters[0].StandardError!.Value, 1e-6);
        var range = fit.Derived(m => m.StandardDeviation, 0.95, IntervalScale.Log).Range!.Value;
        Close.Relative(Math.Sqrt(square) * Math.Exp(4.302652729911275 * error), range.High, 1e-6);
        Assert.Equal((6, 3), (fit.Landings, fit.Missions));
    }

    /// <summary>Half of a million landings measured, the rest in rings of 5 m or beyond 80 m, in 200,000 missions: every family in seconds.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void A_million_landings_are_fitted()
    {
        var (truth, random) = (new HoytDistance(30, 18), SeedStream.For(20_310_801, "a million distances"));
        var sample = DistanceSample.Of(Enumerable.Range(0, 1_000_000).Select(i =>
        {
            var r = truth.Draw(random);
            return ($"m{i / 5}", i % 2 == 0 && r < 80 ? DistanceReading.Exact(r) : r > 80 ? DistanceReading.Beyond(80) : DistanceReading.Between(Math.Floor(r / 5) * 5, Math.Floor(r / 5) * 5 + 5));
        }));
        Assert.Equal((1_000_000, 200_000), (sample.Landings, sample.Missions));
        foreach (var (name, fit) in RadialModels.FitAll(sample))
        {
            Assert.True(fit.Success, $"{name}: {fit.Reason}");
            Assert.Equal(name == "Rice" ? 1 : 0, fit.Value.Warnings.Count);
        }
        var hoyt = HoytDistance.FitTo(sample).Value!;
        foreach (var (parameter, planted) in hoyt.Parameters.Zip([30.0, 18.0])) // beyond five standard errors with probability 6e-7
            Assert.InRange(parameter.Value, planted - 5 * parameter.StandardError!.Value, planted + 5 * parameter.StandardError!.Value);
    }
}
