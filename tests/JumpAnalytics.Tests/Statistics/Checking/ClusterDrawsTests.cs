namespace JumpAnalytics.Tests;

public sealed class MissionDrawsTests
{
    private static Fit<FitTest> Zirkler(IReadOnlyList<DownwindVector> misses) => NormalityTests.HenzeZirkler(misses);

    private static double Rejected(MadeSeason season, int seasons, Func<MissSample, Fit<FitTest>> test) =>
        Enumerable.Range(0, seasons).AsParallel().Count(s => test(season.Draw(s)).Value!.PValue < 0.05) / (double)seasons;

    /// <summary>
    /// 200 seasons of 150 missions, likeness of a mission's landings 0.4. A test of level 0.05 exactly rejects more than 20 times (0.10) with
    /// a probability of 1.3e-3; what is counted is 0. Seeds are fixed.
    /// </summary>
    [Fact]
    public void Landings_that_share_missions_hold_the_level() =>
        Assert.InRange(Rejected(new MadeSeason(150), 200, s => MissionDraws.Test(s, Zirkler)), 0, 0.10);

    /// <summary>
    /// Why the draws are needed: 200 seasons with a likeness of 0.8, landings taken as independent. Counted of 1,000 others: 0.65. For a true share of 0.4 the
    /// chance of counting less than 0.25 is below 1e-5. Seeds are fixed.
    /// </summary>
    [Fact]
    public void Taking_landings_as_independent_rejects_far_too_often() =>
        Assert.InRange(Rejected(new MadeSeason(150, 0.8), 200, s => Zirkler(s.Placed)), 0.25, 1);

    /// <summary>
    /// A far tail (Student's, 4 degrees of freedom) at 150 missions and a likeness of 0.4: found in 0.98 of 300 other seasons. For a true share of 0.93 the
    /// chance of counting less than 0.84 of 100 is below 1e-3. Seeds are fixed.
    /// </summary>
    [Fact]
    public void A_far_tail_is_found_in_150_missions() =>
        Assert.InRange(Rejected(new MadeSeason(150) { Freedom = 4 }, 100, s => MissionDraws.Test(s, Zirkler)), 0.84, 1);

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
        Assert.InRange(Rejected(season, 3000, s => MissionDraws.Test(s, Zirkler)), 0, 0.0625);
        Assert.InRange(Rejected(season, 3000, s => MissionDraws.Test(s, NormalityTests.MardiaKurtosis)), 0, 0.0625);
    }

    [Fact]
    public void Missions_of_one_landing_are_tested_as_they_are()
    {
        var sample = MissSample.Of(CheckData.Arrows);
        Assert.Equal(Zirkler(CheckData.Arrows).Value, MissionDraws.Test(sample, Zirkler).Value);
    }

    [Fact]
    public void Twice_the_p_value_of_the_draw_in_the_middle()
    {
        var sample = new MadeSeason(40).Draw(1);
        var each = MissionDraws.Of(sample, 7, 5).Select(d => Zirkler(d.Placed).Value!).OrderBy(t => t.PValue).ToList();
        var test = MissionDraws.Test(sample, Zirkler, 7, 5).Value!;
        Assert.Equal(Math.Min(1, 2 * each[3].PValue), test.PValue);
        Assert.Equal(each[3].Statistic, test.Statistic);
        Assert.Equal(40, test.Points);
        Assert.Equal("Henze-Zirkler, one landing of each mission", test.Name);
        Assert.Equal("twice the median of 7 draws with seed 5; lognormal approximation", test.Method);
        // Of an even number the lower of the two in the middle would do too (half of them are below): it is the one taken.
        each = [.. MissionDraws.Of(sample, 8, 5).Select(d => Zirkler(d.Placed).Value!).OrderBy(t => t.PValue)];
        Assert.Equal(each[3].Statistic, MissionDraws.Test(sample, Zirkler, 8, 5).Value!.Statistic);
    }

    [Fact]
    public void Each_draw_has_one_landing_of_each_mission_and_each_landing_its_turn()
    {
        var sample = MissSample.Of(new MissReading[] { new("a", new(1, 0)), new("b", new(2, 0)), new("b", null, 80), new("b", new(4, 0), null, 2.5), new("c", null, 90) });
        var seen = new HashSet<string>();
        foreach (var draw in MissionDraws.Of(sample, 60, 1))
        {
            Assert.True(draw.IsIndependent);
            Assert.Equal(3, draw.Missions);
            Assert.Equal(new DownwindVector(1, 0), draw.Placed[0]);
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
        Assert.True(MissionDraws.Test(sample, m => turn++ < 2 ? Fit<FitTest>.Refused("no") : Zirkler(m), 5).Success);
        turn = 0;
        Assert.Equal("no", MissionDraws.Test(sample, m => turn++ < 3 ? Fit<FitTest>.Refused("no") : Zirkler(m), 5).Reason);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void Few_missions_give_the_reason_of_the_test(int missions) =>
        Assert.Equal($"{missions} point{(missions == 1 ? "" : "s")}; a test of normality needs 8", MissionDraws.Test(new MadeSeason(missions).Draw(8), Zirkler).Reason);

    [Fact]
    public void Landings_beyond_a_distance_are_left_out_and_so_are_missions_of_nothing_else()
    {
        var readings = CheckData.Arrows.SelectMany((m, i) => new MissReading[] { new($"{i}", m), new($"{i}", null, 50) }).Append(new MissReading("far", null, 60));
        Assert.Equal(Zirkler(CheckData.Arrows).Value, MissionDraws.Test(MissSample.Of(readings), Zirkler).Value);
    }

    [Fact]
    public void Some_missions_keep_all_their_landings()
    {
        var sample = new MadeSeason(50).Draw(3);
        Assert.Same(sample, MissionDraws.Some(sample, 50, 1));
        var some = MissionDraws.Some(sample, 20, 1);
        Assert.Equal(20, some.Missions);
        Assert.Equal(some.Placed, MissionDraws.Some(sample, 20, 1).Placed);
        Assert.NotEqual(some.Placed, MissionDraws.Some(sample, 20, 2).Placed);
        var sizes = sample.MissionOfPlaced.ToArray().CountBy(m => m).ToDictionary();
        var mission = sample.Placed.Zip(sample.MissionOfPlaced.ToArray()).ToDictionary(p => p.First, p => p.Second);
        Assert.All(some.Placed.GroupBy(m => mission[m]), g => Assert.Equal(sizes[g.Key], g.Count()));
    }

    [Fact]
    public void Draws_must_be_one_or_more() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MissionDraws.Test(new MadeSeason(20).Draw(1), Zirkler, 0));
}
