using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ClusterDrawsTests
{
    /// <summary>Student's test of the mean of the first coordinate, which is 10 where nothing is wrong.</summary>
    private static Fit<FitTest> Mean(IReadOnlyList<PlaneVector> misses) => Mean(misses, 10);

    private static Fit<FitTest> Mean(IReadOnlyList<PlaneVector> misses, double expected)
    {
        if (misses.Count < 8) return Fit<FitTest>.Refused($"{misses.Count} of 8");
        var t = Math.Sqrt(misses.Count) * (misses.Average(m => m.Along) - expected)
            / MathNet.Numerics.Statistics.Statistics.StandardDeviation(misses.Select(m => m.Along));
        return Fit<FitTest>.Made(new FitTest("mean", Math.Abs(t), 2 * StudentT.CDF(0, 1, misses.Count - 1, -Math.Abs(t)),
            misses.Count, "Student's t"));
    }

    private static double Rejected(MadeSeason season, int seasons, Func<PlaneSample, Fit<FitTest>> test) =>
        Enumerable.Range(0, seasons).AsParallel().Count(s => test(season.Draw(s)).Value!.PValue < 0.05) / (double)seasons;

    /// <summary>
    /// 200 seasons of 150 missions, likeness of a mission's landings 0.4. A test of level 0.05 exactly rejects more than 20 times (0.10)
    /// with a probability of 1.3e-3; what is counted is 0. Seeds are fixed.
    /// </summary>
    [Fact]
    public void Landings_that_share_missions_hold_the_level() =>
        Assert.InRange(Rejected(new MadeSeason(150), 200, s => ClusterDraws.Test(s, Mean)), 0, 0.10);

    /// <summary>
    /// A test that never rejects would hold every level: a mean off by 20 m, half of the scatter and six standard errors of 150
    /// missions, is found in 95 of 100 or more (the power of each is above 0.99: more than 5 missed has a chance below 1e-3).
    /// </summary>
    [Fact]
    public void A_wrong_mean_is_found() =>
        Assert.InRange(Rejected(new MadeSeason(150), 100, s => ClusterDraws.Test(s, m => Mean(m, OffMean))), 0.95, 1);

    private const double OffMean = 30;

    /// <summary>
    /// Why the draws are needed: 200 seasons with a likeness of 0.8, landings taken as independent. Counted 0.365 (standard error 0.034):
    /// for a true share of 0.365 the chance of counting less than 0.25 or more than 0.5 is below 1e-3. Seeds are fixed.
    /// </summary>
    [Fact]
    public void Taking_landings_as_independent_rejects_far_too_often() =>
        Assert.InRange(Rejected(new MadeSeason(150, 0.8), 200, s => Mean(s.Placed)), 0.25, 0.5);

    /// <summary>
    /// 3,000 seasons at each setting: a test of level 0.05 exactly exceeds 0.0625 with a probability of 1.3e-3. Seeds are fixed.
    /// </summary>
    [Theory, Trait("Category", "Long")]
    [InlineData(20, 0.4)]
    [InlineData(60, 0)]
    [InlineData(60, 0.4)]
    [InlineData(60, 0.9)]
    [InlineData(150, 0.4)]
    [InlineData(150, 0.95)]
    public void The_level_is_held_for_every_likeness(int missions, double likeness)
    {
        var season = new MadeSeason(missions, likeness);
        Assert.InRange(Rejected(season, 3000, s => ClusterDraws.Test(s, Mean)), 0, 0.0625);
    }

    [Fact]
    public void Missions_of_one_landing_are_tested_as_they_are()
    {
        var sample = PlaneSample.Of(CheckData.Arrows);
        Assert.Equal(Mean(CheckData.Arrows).Value, ClusterDraws.Test(sample, Mean).Value);
    }

    [Fact]
    public void Twice_the_p_value_of_the_draw_in_the_middle()
    {
        var sample = new MadeSeason(40).Draw(1);
        var each = ClusterDraws.Of(sample, 7, 5).Select(d => Mean(d.Placed).Value!).OrderBy(t => t.PValue).ToList();
        var test = ClusterDraws.Test(sample, Mean, 7, 5).Value!;
        Assert.Equal(Math.Min(1, 2 * each[3].PValue), test.PValue);
        Assert.Equal(each[3].Statistic, test.Statistic);
        Assert.Equal(40, test.Points);
        Assert.Equal("mean, one point of each cluster", test.Name);
        Assert.Equal("twice the median of 7 draws with seed 5; Student's t", test.Method);
        // Of an even number the lower of the two in the middle would do too (half of them are below): it is the one taken.
        each = [.. ClusterDraws.Of(sample, 8, 5).Select(d => Mean(d.Placed).Value!).OrderBy(t => t.PValue)];
        Assert.Equal(each[3].Statistic, ClusterDraws.Test(sample, Mean, 8, 5).Value!.Statistic);
    }

    [Fact]
    public void Each_draw_has_one_landing_of_each_mission_and_each_landing_its_turn()
    {
        var sample = PlaneSample.Of(new PlaneReading[] { new("a", new(1, 0)), new("b", new(2, 0)), new("b", null, 80),
            new("b", new(4, 0), null, 2.5), new("c", null, 90) });
        var seen = new HashSet<string>();
        foreach (var draw in ClusterDraws.Of(sample, 60, 1))
        {
            Assert.True(draw.IsIndependent);
            Assert.Equal(3, draw.Clusters);
            Assert.Equal(new PlaneVector(1, 0), draw.Placed[0]);
            Assert.Contains(90, draw.Beyond);
            if (draw.Placed.Contains(new(4, 0))) Assert.Equal(2.5, draw.MeasuredSd[1]);
            seen.Add(string.Join(';', draw.Placed) + string.Join(';', draw.Beyond));
        }
        Assert.Equal(3, seen.Count); // one of the three is missed by 60 draws with a probability of 3·(2/3)^60 = 8e-11
    }

    [Fact]
    public void Draws_that_can_not_be_tested_refuse_the_whole_when_they_are_the_most()
    {
        var sample = new MadeSeason(40).Draw(2);
        var turn = 0;
        Assert.True(ClusterDraws.Test(sample, m => turn++ < 2 ? Fit<FitTest>.Refused("no") : Mean(m), 5).Success);
        turn = 0;
        Assert.Equal("no", ClusterDraws.Test(sample, m => turn++ < 3 ? Fit<FitTest>.Refused("no") : Mean(m), 5).Reason);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void Few_missions_give_the_reason_of_the_test(int missions) =>
        Assert.Equal($"{missions} of 8", ClusterDraws.Test(new MadeSeason(missions).Draw(8), Mean).Reason);

    [Fact]
    public void Landings_beyond_a_distance_are_left_out_and_so_are_missions_of_nothing_else()
    {
        var readings = CheckData.Arrows.SelectMany((m, i) => new PlaneReading[] { new($"{i}", m), new($"{i}", null, 50) })
            .Append(new PlaneReading("far", null, 60));
        Assert.Equal(Mean(CheckData.Arrows).Value, ClusterDraws.Test(PlaneSample.Of(readings), Mean).Value);
    }

    [Fact]
    public void Some_missions_keep_all_their_landings()
    {
        var sample = new MadeSeason(50).Draw(3);
        Assert.Same(sample, ClusterDraws.Some(sample, 50, 1));
        var some = ClusterDraws.Some(sample, 20, 1);
        Assert.Equal(20, some.Clusters);
        Assert.Equal(some.Placed, ClusterDraws.Some(sample, 20, 1).Placed);
        Assert.NotEqual(some.Placed, ClusterDraws.Some(sample, 20, 2).Placed);
        var sizes = sample.ClusterOfPlaced.ToArray().CountBy(m => m).ToDictionary();
        var mission = sample.Placed.Zip(sample.ClusterOfPlaced.ToArray()).ToDictionary(p => p.First, p => p.Second);
        Assert.All(some.Placed.GroupBy(m => mission[m]), g => Assert.Equal(sizes[g.Key], g.Count()));
    }

    [Fact]
    public void Draws_must_be_one_or_more() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ClusterDraws.Test(new MadeSeason(20).Draw(1), Mean, 0));
}
