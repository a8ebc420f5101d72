namespace JumpAnalytics.Tests;

public sealed class CautionsTests
{
    [Fact]
    public void Cautions_carry_the_numbers_of_the_log()
    {
        using var files = TempLog.Of(
            TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1, "d2,m2,2031-07-15T10:00,timber,25,8,300,90"),
            TempLog.Lines(TempLog.LandingsHeader + ",landing_beyond_yd,hung_up", "d1,12,45,,", "d1,9,45,,",
                "d2,,,80,", "d2,,,,yes", "d9,1,2,,"));
        var text = SeasonAccuracy.Of(files.Read(), new AccuracyOptions { Replicates = 200 }).Cautions.ToString();
        Assert.Contains("no authority to jump", text, StringComparison.Ordinal);
        Assert.Contains("current operations guide", text, StringComparison.Ordinal);
        Assert.Contains("2 missions and 3 landings", text, StringComparison.Ordinal);
        Assert.Contains("2 landing rows could not be used, 1 of them hang-ups without a distance, and 1 landing is known "
            + "only as beyond a distance", text, StringComparison.Ordinal);
        Assert.Contains("not the decision", text, StringComparison.Ordinal);
    }
}
