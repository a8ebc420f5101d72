namespace JumpAnalytics.Tests;

/// <summary>Missions are the unit of independence: numbers that restart, and numbers that stand for more than one flight.</summary>
public sealed class MissionNumberTests
{
    private const string Header = TempLog.DropsHeader + ",spotter,base";

    private static string Row(string id, string mission, string time, string spotter = "s1", string place = "Oak") =>
        $"{id},{mission},{time},timber,25,8,300,90,{spotter},{place}";

    private static TempLog Log(params string[] drops) => TempLog.Of(TempLog.Lines([Header, .. drops]),
        TempLog.Lines([TempLog.LandingsHeader, .. drops.Select(d => d.Split(',')[0] + ",12,45")]));

    /// <summary>330 missions whose numbers restart in each of three seasons were read as 110.</summary>
    [Fact]
    public void Numbers_that_restart_each_season_are_named_by_season_and_number()
    {
        var drops = from year in new[] { 2029, 2030, 2031 } from n in Enumerable.Range(1, 110)
                    select Row($"{year}-{n}", $"{n}", $"{year}-07-14T15:20");
        using var log = Log([.. drops]);
        var read = log.Read();
        Assert.Equal(330, read.Drops.Select(d => d.Mission).Distinct().Count());
        Assert.Equal(330, read.Landings.Select(l => l.Drop.Mission).Distinct().Count());
        Assert.Equal("2029 1", read.Drops[0].Mission);
        Assert.All(read.Landings, l => Assert.Contains(l.Drop, read.Drops, ReferenceEqualityComparer.Instance));
        Assert.Contains("110 mission numbers came in more than one season. A mission is one flight, so they were read as 330 missions, "
            + "named by season and number ('2029 1').", read.Intake.Points);
    }

    [Fact]
    public void Numbers_of_one_season_stay_as_they_are()
    {
        using var log = Log(Row("a", "1", "2030-07-14T15:20"), Row("b", "1", "2031-07-14T15:20"), Row("c", "2", "2031-07-14T16:20"),
            Row("d", "2", "2031-07-14T16:40"));
        Assert.Equal(["2030 1", "2031 1", "2", "2"], log.Read().Drops.Select(d => d.Mission));
        using var plain = Log(Row("a", "1", "2030-07-14T15:20"), Row("b", "2", "2031-07-14T15:20"));
        var read = plain.Read();
        Assert.Equal(["1", "2"], read.Drops.Select(d => d.Mission));
        Assert.Empty(read.Intake.Remarks);
    }

    /// <summary>Nothing of this kind is planted in the demo season, and nothing of it is read otherwise than before.</summary>
    [Fact]
    public void The_demo_has_one_flight_a_mission_and_no_landing_out_of_reach()
    {
        var log = Demo.DemoLog.Log;
        Assert.Empty(log.Intake.NoRecords);
        Assert.DoesNotContain(log.Intake.Remarks, r => r.Contains("mission number", StringComparison.Ordinal));
        string[] checks = ["one flight a mission", "landings out of reach"];
        Assert.Equal([], RecordChecks.Of(log).Flags.Where(f => checks.Contains(f.Check)).Select(f => f.Found));
    }

    [Theory]
    [InlineData("2031-07-15T04:00", "s1", "Oak", "on different days in 1")]
    [InlineData("2031-07-15T03:20", "s1", "Oak", null)] // 12 hours: the limit itself
    [InlineData("2031-07-14T15:40", "s2", "Oak", "with different spotters in 1")]
    [InlineData("2031-07-14T15:40", "S-01", "Oak", null)] // one spotter, spelt otherwise
    [InlineData("2031-07-14T15:40", "s1", "Elm", "from different bases in 1")]
    [InlineData("2031-07-14T15:40", "", "", null)]
    [InlineData("2031-07-15", "s1", "Oak", "on different days in 1")]
    [InlineData("2031-07-14", "s1", "Oak", null)]
    public void A_mission_that_is_no_one_flight_is_flagged(string time, string spotter, string place, string? found)
    {
        using var log = Log(Row("a", "1", "2031-07-14T15:20"), Row("b", "1", time, spotter, place), Row("c", "2", "2031-07-14T17:20"));
        var flags = RecordChecks.Of(log.Read()).Flags.Where(f => f.Check == "one flight a mission").ToList();
        if (found is null)
        {
            Assert.Empty(flags);
            return;
        }
        var flag = Assert.Single(flags);
        Assert.Equal($"1 mission can't be one flight (1): passes {found}.", flag.Found);
        Assert.Equal([new RowSource("drops.csv", 2), new RowSource("drops.csv", 3)], flag.Rows);
        Assert.Equal((100 * (2 / 3.0), 2), (flag.Harm.Value, flag.Harm.N));
        Assert.StartsWith("They count as 1 and would be 2 missions at least", flag.Harm.Sentence, StringComparison.Ordinal);
    }
}
