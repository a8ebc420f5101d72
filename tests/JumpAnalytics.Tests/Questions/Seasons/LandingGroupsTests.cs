namespace JumpAnalytics.Tests;

/// <summary>Landings in groups of one's own.</summary>
public sealed class LandingGroupsTests
{
    private static readonly SeasonAccuracy _accuracy =
        SeasonAccuracy.Of(Demo.DemoLog.Log, new AccuracyOptions { Replicates = 200, Seed = 3 });

    [Fact]
    public void Groups_by_season_are_the_seasons_at_a_glance()
    {
        var groups = _accuracy.By("season", l => l.Drop.Season);
        Assert.Equal(_accuracy.Glance.Seasons.Select(s => (s.Season, s.Rate.Value, s.BiasDownwind.Value)),
            groups.Groups.Select(g => (g.Season, g.Rate.Value, g.BiasDownwind.Value)));
        Assert.Equal(0, groups.Without);
        Assert.Equal("season", groups.Tables[0].Columns[0].Label);
    }

    [Fact]
    public void Numbers_stand_in_their_order_and_landings_without_a_key_are_told()
    {
        var groups = _accuracy.By("age (10 min)", l => l.Drop.StreamerAge is { } age ? (int?)(int)(age / 600) : null);
        var keys = groups.Groups.SkipLast(1).Select(g => int.Parse(g.Season)).ToList();
        Assert.Equal(keys.Order(), keys);
        Assert.True(groups.Without > 0);
        Assert.Equal(_accuracy.Landings.Count(l => l.Drop.StreamerAge is null), groups.Without);
        Assert.EndsWith($"{groups.Without} landings belong to no group.", groups.Reading);
    }

    [Fact]
    public void Nothing_to_group_is_said_and_a_name_is_needed()
    {
        Assert.Equal("No rate can be given: no landing.",
            LandingGroups.Of([], "month", l => l.Drop.Time.Month, new AccuracyOptions()).Reading);
        Assert.Throws<ArgumentException>(() => _accuracy.By(" ", l => l.Drop.Season));
        Assert.Equal(["no", "yes", "all"], _accuracy.By("hung up", l => l.HungUp == true).Groups.Select(g => g.Season));
    }
}
