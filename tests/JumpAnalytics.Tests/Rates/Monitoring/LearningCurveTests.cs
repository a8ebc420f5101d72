namespace JumpAnalytics.Tests.Monitoring;

public sealed class LearningCurveTests
{
    private static readonly AccuracyOptions _options = new();

    private static List<Landing> Learner(MadeMissions made, int missions, Func<int, double> factor) =>
        [.. Enumerable.Range(1, missions).SelectMany(i => made.Mission(factor: factor(i)))];

    /// <summary>
    /// Distances fall with the power −0.35 of the number, to 0.25 of the first after 50 missions: the interval leaves out no change, and
    /// holds the truth but for 1 seed in 20.
    /// </summary>
    [Fact]
    public void A_planted_curve_is_found()
    {
        var made = new MadeMissions(SeedStream.For(2, "learner"));
        var curve = LearningCurve.Of(Learner(made, 50, i => 3 * Math.Pow(i, -0.35)), made.Missions(300), _options);
        var power = curve.Fits.Value![(int)LearningShape.PowerLaw];
        Assert.True(power.Factor.Range!.Value.High < 1);
        Assert.True(power.Factor.Range!.Value.Contains(Math.Pow(50, -0.35)), power.ToString());
        Close.Relative(Math.Pow(50, power.Pace!.Value), power.Factor.Value, 1e-12);
        Assert.True(curve.Fits.Value.Min(f => f.Aicc) < curve.Fits.Value[0].Aicc - 2);
        Assert.Contains("Misses became shorter", curve.Reading, StringComparison.Ordinal);
        Assert.Equal(50, curve.Curve.Count);
        Close.Relative(power.Factor.Value, curve.Curve[^1] / curve.Curve[0], 1e-12);
    }

    /// <summary>
    /// No learning: a 95 % interval leaves out 1 in 1 of 20 runs. 40 runs: more than 8 have a chance below 5e-4, whatever the
    /// seed, if it does so in 5 of 100.
    /// </summary>
    [Fact]
    public void No_change_is_seldom_taken_for_one()
    {
        var claimed = 0;
        var reference = new MadeMissions(SeedStream.For(5, "usual")).Missions(60);
        for (var r = 0; r < 40; r++)
        {
            var curve = LearningCurve.Of(new MadeMissions(SeedStream.For(r, "no learning")).Missions(25), reference, _options);
            if (!curve.Fits.Value![(int)LearningShape.PowerLaw].Factor.Range!.Value.Contains(1)) claimed++;
            Assert.True(curve.Fits.Value[(int)LearningShape.Plateau].Factor.Range is { Low: > 0 });
        }
        Assert.InRange(claimed, 0, 8);
    }

    [Fact]
    public void Thin_records_can_not_be_told_and_say_how_many_missions_it_would_take()
    {
        var made = new MadeMissions(SeedStream.For(3, "thin"));
        var reference = made.Missions(100);
        Assert.Contains("7 missions with a distance, and at least 8", LearningCurve.Of(made.Missions(7), reference, _options).Reading,
            StringComparison.Ordinal);
        Assert.Contains("can't be told", LearningCurve.Of([], reference, _options).Reading, StringComparison.Ordinal);
        var curve = LearningCurve.Of(made.Missions(10), reference, _options);
        Assert.True(curve.MissionsToTell > 10);
        Assert.Contains("can't be told", curve.Reading, StringComparison.Ordinal);
        Assert.Contains("missions in all would tell", curve.Reading, StringComparison.Ordinal);
        Assert.True(LearningCurve.Of(made.Missions(12), [], _options).Fits.Success);
    }

    [Fact]
    public void Missions_are_counted_from_a_restart_and_landings_beyond_are_named()
    {
        var made = new MadeMissions(SeedStream.For(4, "restart"));
        Landing[] landings = [.. made.Missions(12, at: "A"), .. made.Missions(15, at: "B")];
        landings[^1] = Made.Beyond(landings[^1].Drop, 90);
        var curve = LearningCurve.Of(landings, made.Missions(100), _options);
        Assert.Equal((15, 1, "base B after A"), (curve.Missions, curve.Beyond, curve.CountedSince));
        Assert.Contains("1 of them known only as beyond a distance", curve.Reading, StringComparison.Ordinal);
    }
}
