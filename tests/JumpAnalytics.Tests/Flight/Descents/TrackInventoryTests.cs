namespace JumpAnalytics.Tests;

/// <summary>What became of the tracks of a log, counted by what they were good for.</summary>
public sealed class TrackInventoryTests
{
    [Fact]
    public void Tracks_of_the_demo_are_counted_by_outcome()
    {
        var log = Demo.DemoLog.Log;
        var inventory = TrackInventory.Of(LogDescents.Of(log), log.Landings);
        Assert.Equal(53, inventory.Outcomes.Sum(o => o.Tracks)); // 51 files and two that rows name in vain
        Assert.Equal("told wind and steering apart", inventory.Outcomes[0].Outcome);
        Assert.Contains(inventory.Outcomes,
            o => o is { Outcome: "path only: a point every … s is too sparse to follow turns; every … s or closer is needed", Tracks: 1 });
        Assert.Contains(inventory.Outcomes,
            o => o.Outcome.StartsWith("not used: there is no file", StringComparison.Ordinal) && o.Tracks == 2);
        Assert.Contains(inventory.Oddities, o => o is { Kind: "matched", Tracks: 6 });
        Assert.Contains("53 descent tracks for 1,487 landings", inventory.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_tracks_it_says_where_they_go()
    {
        var log = new JumpLog("made", null, [], [], Made.NoIntake);
        Assert.Contains("Put files into a folder 'tracks' beside the log", TrackInventory.Of(LogDescents.Of(log), log.Landings).Reading,
            StringComparison.Ordinal);
    }
}
