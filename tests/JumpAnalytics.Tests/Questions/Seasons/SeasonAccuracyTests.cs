namespace JumpAnalytics.Tests;

public sealed class SeasonAccuracyTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    private static TempLog ThreeSeasons()
    {
        var (drops, landings) = (new List<string>(), new List<string>());
        foreach (var year in new[] { 2029, 2030, 2031 })
        {
            for (var m = 0; m < 6; m++)
            {
                drops.Add($"{year}-{m},{year}-{m},{year}-07-0{m + 1}T10:00,timber,25,8,300,{40 * m}");
                for (var j = 0; j < 3; j++) landings.Add($"{year}-{m},{5 + 9 * ((m + j) % 4)},{110 * j}");
            }
        }
        return TempLog.Of(TempLog.Lines([TempLog.DropsHeader, .. drops]), TempLog.Lines([TempLog.LandingsHeader, .. landings]));
    }

    [Fact]
    public void The_rate_table_rests_on_the_seasons_asked_for_and_the_rest_on_all()
    {
        using var files = ThreeSeasons();
        var log = files.Read();
        Assert.Equal(["2029", "2030", "2031"], log.Seasons);
        Assert.Equal(54, SeasonAccuracy.Of(log, _options).Landings.Count);
        var one = SeasonAccuracy.Of(log, _options, "2030");
        Assert.Equal(18, one.Rates.Overall.Landings);
        Assert.All(one.Landings, l => Assert.Equal("2030", l.Drop.Season));
        Assert.Equal(36, SeasonAccuracy.Of(log, _options, "2029, 2031").Rates.Overall.Landings);
        Assert.Equal(["2029", "2030", "2031", "all"], one.Glance.Seasons.Select(s => s.Season));
        Assert.Equal(54, one.Glance.Seasons[^1].Placed);
        Assert.Contains(one.Changes.Changes, c => c is { Group: "all", From: "2030", To: "2031" });
    }

    [Theory]
    [InlineData("2028")]
    [InlineData("2030,2028")]
    [InlineData("")]
    [InlineData(" , ")]
    [InlineData("ALL")]
    public void A_season_that_is_not_in_the_log_is_refused_with_those_there_are(string seasons)
    {
        using var files = ThreeSeasons();
        var error = Assert.Throws<ArgumentException>(() => SeasonAccuracy.Of(files.Read(), _options, seasons));
        Assert.Contains("2029, 2030, 2031, and all", error.Message, StringComparison.Ordinal);
        Assert.Contains($"'{seasons}'", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_season_of_a_drop_is_the_year_unless_the_log_says_otherwise()
    {
        using var files = TempLog.Of(
            TempLog.Lines(TempLog.DropsHeader + ",season", "a,m,2031-01-05T10:00,timber,25,8,300,90,2030-31",
                "b,n,2031-06-05T10:00,timber,25,8,300,90,"),
            TempLog.Lines(TempLog.LandingsHeader, "a,10,20"));
        Assert.Equal(["2030-31", "2031"], files.Read().Seasons);
    }

    [Fact]
    public void The_same_log_gives_the_same_text()
    {
        using var files = ThreeSeasons();
        Assert.Equal(Text(), Text());

        string Text()
        {
            var accuracy = SeasonAccuracy.Of(files.Read(), _options);
            return string.Join('\n', accuracy.Glance, accuracy.Rates, accuracy.Changes, accuracy.Conclusions,
                accuracy.Cautions, accuracy.Log.Intake);
        }
    }

    /// <summary>
    /// 18 placed landings, of them 9 hits; 2 rows refused, one a hang-up without distance, and 1 undecided: 9 of 21 to 12 of 21.
    /// </summary>
    [Fact]
    public void Conclusions_bound_the_rate_by_what_could_not_be_counted()
    {
        var drops = Enumerable.Range(0, 6).Select(m => $"d{m},m{m},2031-07-0{m + 1}T10:00,timber,25,8,300,0");
        var landings = Enumerable.Range(0, 18).Select(i => $"d{i % 6},{(i < 9 ? 10 : 40)},{20 * i},,");
        using var files = TempLog.Of(TempLog.Lines([TempLog.DropsHeader, .. drops]),
            TempLog.Lines([TempLog.LandingsHeader + ",landing_beyond_yd,hung_up", .. landings, "d0,,,,yes", "d1,x,20,,no", "d2,,,20,no"]));
        var log = files.Read();
        var refused = log.Intake.RefusedLandings(log.Seasons);
        Assert.Equal((2, 1), (refused.Count, refused.Count(r => r.IsHangUpWithoutDistance)));
        var point = Assert.Single(SeasonAccuracy.Of(log, _options).Conclusions.Points,
            p => p.Contains("in no count", StringComparison.Ordinal));
        Assert.StartsWith("About 3 landings are in no count: 2 rows could not be used, 1 of them a hang-up without a distance; "
            + "1 undecided; none seen to be missing.", point, StringComparison.Ordinal);
        Assert.Contains("misses the rate would be 42.9 %", point, StringComparison.Ordinal);
        Assert.Contains("all hits 57.1 %", point, StringComparison.Ordinal);
        Assert.Contains("against 50.0 % as counted", point, StringComparison.Ordinal);
    }
}
