namespace JumpAnalytics.Tests;

public sealed class RateDifferenceTests
{
    private static Landing Landing(int mission, bool hit, string kind)
    {
        var drop = Made.Drop($"{kind}{mission}", $"m{mission}");
        return Made.Landing(drop with { Remarks = kind }, hit ? 10 : 60, 0);
    }

    private static List<Landing> Group(string kind, IEnumerable<int> missions, Func<int, int> hits) =>
        [.. missions.SelectMany(m => Enumerable.Range(0, 3).Select(j => Landing(m, j < hits(m), kind)))];

    // R 4.2.2, survey 4.1.1: svyby(~hit, ~group, svydesign(ids = ~mission, weights = ~1), svymean, covmat = TRUE), then
    // svycontrast(c(-1, 1)) and cov2cor(vcov()), of the counts below: 12 missions with landings in both groups but for mission 3,
    // which has none in the second.
    [Fact]
    public void Of_shared_missions_error_and_correlation_are_those_of_the_survey_package()
    {
        var missions = Enumerable.Range(0, 12).ToList();
        var difference = RateDifference.Of(Group("a", missions, m => 5 * m % 4),
            Group("b", missions.Where(m => m != 3), m => (7 * m + 1) % 4));
        Close.Absolute(-0.015151515152, difference.Change.Value!.Value, 1e-11);
        Close.Absolute(0.111144308195, difference.StandardError!.Value, 1e-11);
        Close.Absolute(0.550481882563, difference.Correlation, 1e-11);
        Assert.Equal((11, 12, 11), (difference.SharedMissions, difference.First.Rate.Value!.Missions,
            difference.Second.Rate.Value!.Missions));
        var unpaired = RateDifference.Between(difference.First.Rate.Value!.Rate, difference.Second.Rate.Value!.Rate).Range!.Value;
        var paired = difference.Change.Value.Range!.Value;
        Assert.True(paired.Low > unpaired.Low && paired.High < unpaired.High);
        Assert.Contains("11 missions have landings in both, which the interval allows for", difference.Reading, StringComparison.Ordinal);
    }

    // The same in R of six missions in each group, none in both. The interval is that of seasons, which share no mission either.
    [Fact]
    public void Without_a_shared_mission_it_is_the_difference_of_independent_rates()
    {
        var (even, odd) = (Enumerable.Range(0, 12).Where(m => m % 2 == 0), Enumerable.Range(0, 12).Where(m => m % 2 == 1));
        var difference = RateDifference.Of(Group("a", even, m => 5 * m % 4), Group("b", odd, m => (7 * m + 1) % 4));
        Close.Absolute(0, difference.Change.Value!.Value, 1e-12);
        Close.Absolute(0.201007563052, difference.StandardError!.Value, 1e-11);
        Assert.Equal((0, 0), (difference.SharedMissions, difference.Correlation));
        Assert.Equal(RateDifference.Between(difference.First.Rate.Value!.Rate, difference.Second.Rate.Value!.Rate).Range,
            difference.Change.Value.Range);
        Assert.Contains("No mission has landings in both.", difference.Reading, StringComparison.Ordinal);
        Assert.Contains("not clearly different from no change; anything from a fall of", difference.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Seasons_are_compared_by_the_same_computation()
    {
        var landings = Demo.DemoLog.Log.Landings;
        var change = SeasonChanges.Of(landings, new AccuracyOptions()).Changes.Last(c => c.Group == Cell.Any);
        var same = RateDifference.Of(Demo.DemoLog.Log.Where($"season={change.From}"), Demo.DemoLog.Log.Where($"season={change.To}"));
        Assert.Equal(change.Change, same.Change.Value);
        Assert.Equal(($"season={change.From}", change.Before.Missions, change.After.Landings),
            (same.First.Name, same.First.Rate.Value!.Missions, same.Second.Rate.Value!.Landings));
    }

    [Fact]
    public void What_can_t_be_compared_has_a_reason_and_no_number()
    {
        var few = Group("a", [1], _ => 1);
        var many = Group("b", [2, 3, 4], m => m % 3);
        string Why(IReadOnlyCollection<Landing> first, IReadOnlyCollection<Landing> second)
        {
            var difference = RateDifference.Of(first, second, null, "one", "other");
            Assert.Null(difference.StandardError);
            Assert.Contains(difference.Change.Reason!, difference.Reading, StringComparison.Ordinal);
            Assert.Contains("No change: ", difference.Tables[0].Note, StringComparison.Ordinal);
            return difference.Change.Reason!;
        }
        Assert.Equal("'one' has no interval: a single mission", Why(few, many));
        Assert.Equal("'other' has no landing", Why(many, []));
        Assert.Equal("'other' has no landing that can be told a hit or a miss", Why(many, [Made.Beyond(Made.Drop(), 5)]));
        Assert.Equal("3 landings stand in both groups; compare a group with the rest", Why(many, [.. many.Take(3), .. few]));
    }

    [Fact]
    public void Groups_are_called_as_they_are_written()
    {
        var few = Group("a", [1, 2], m => m);
        var many = Group("b", [2, 3, 4], m => m % 3);
        var difference = RateDifference.Of(few, many);
        Assert.Equal(("few", "many"), (difference.First.Name, difference.Second.Name));
        Assert.Equal(["few", "many"], difference.Tables[0].Rows.Select(r => r[0]));
    }

    /// <summary>
    /// 95 % intervals over 400 seasons of 40 missions, each with landings in both groups and a forecast that its jumpers share: a true
    /// coverage of 0.95 leaves 367 to 392 with probability 0.996; the bounds are those of a coverage between 0.93 and 0.97.
    /// </summary>
    [Fact]
    public void The_interval_holds_the_truth_as_often_as_it_says()
    {
        var random = new Random(20310716);
        var held = 0;
        for (var s = 0; s < 400; s++)
        {
            var (first, second) = (new List<Landing>(), new List<Landing>());
            for (var m = 0; m < 40; m++)
            {
                var share = MathNet.Numerics.Distributions.Beta.Sample(random, 3, 1); // mean 0.75
                for (var j = 0; j < 3; j++) first.Add(Landing(m, random.NextDouble() < share, "a"));
                for (var j = 0; j < 1 + random.Next(4); j++) second.Add(Landing(m, random.NextDouble() < 0.8 * share, "b")); // mean 0.6
            }
            if (RateDifference.Of(first, second).Change.Value!.Range!.Value.Contains(-0.15)) held++;
        }
        Assert.InRange(held, 360, 397);
    }
}
