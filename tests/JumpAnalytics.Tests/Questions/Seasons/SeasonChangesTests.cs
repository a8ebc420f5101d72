namespace JumpAnalytics.Tests;

public sealed class SeasonChangesTests
{
    private static readonly AccuracyOptions _options =
        new() { Replicates = 200, Bands = WindBands.FromLowerEdges([0, 5], MeasureUnit.Speed("mps")) };

    /// <summary>Missions of four jumpers each, of whom a number hit.</summary>
    private static IEnumerable<Landing> Season(string season, int missions, int hits, string terrain = "timber", double wind = 3)
    {
        for (var m = 0; m < missions; m++)
        {
            var id = $"{season} {terrain} {wind} {m}";
            var drop = Made.Drop(id, id, season, terrain, windSpeed: wind);
            for (var j = 0; j < 4; j++)
                yield return Made.Landing(drop, LocalVector.FromPolar(j < (hits + m % 2) ? 10 : 60, Bearing.FromDegrees(50 * m + 90 * j)));
        }
    }

    // Newcombe (1998, Statistics in Medicine 17:873-890, table II, example a): 56/70 - 48/80 = 0.2, method 10 gives 0.0524 to 0.3339.
    // Ten digits by the formula in base R 4.2.2 from the two Wilson intervals with qnorm(.975): .0524314724 to .3338726540.
    [Fact]
    public void The_interval_of_a_difference_is_newcombes_method_10()
    {
        const double Z = 1.9599639845400545;
        var after = Estimate.Of(0.8, ClusteredProportion.Wilson(0.8, 70, Z));
        var before = Estimate.Of(0.6, ClusteredProportion.Wilson(0.6, 80, Z));
        var rise = RateDifference.Between(before, after);
        Close.Absolute(0.2, rise.Value, 1e-15);
        Close.Absolute(.0524314724, rise.Range!.Value.Low, 1e-10);
        Close.Absolute(.3338726540, rise.Range.Value.High, 1e-10);

        // The other way round the same with the sign turned.
        var fall = RateDifference.Between(after, before);
        Close.Absolute(-.3338726540, fall.Range!.Value.Low, 1e-10);
        Close.Absolute(-.0524314724, fall.Range.Value.High, 1e-10);
    }

    [Fact]
    public void Every_pair_is_compared_over_all_and_only_the_last_pair_in_parts()
    {
        var landings = Season("2029", 8, 1).Concat(Season("2030", 8, 1)).Concat(Season("2030", 6, 3, "grass", 7))
            .Concat(Season("2031", 8, 3)).Concat(Season("2031", 6, 3, "grass", 7)).ToList();
        var changes = SeasonChanges.Of(landings, _options);
        Assert.Equal(
            ["all 2029 2030", "all 2030 2031", "0-5 mps 2030 2031", "5+ mps 2030 2031", "grass 2030 2031", "timber 2030 2031"],
            changes.Changes.Select(c => $"{c.Group} {c.From} {c.To}"));
        Assert.Empty(changes.Skipped);
        var timber = changes.Changes[^1];
        Assert.Equal((8, 8), (timber.Before.Missions, timber.After.Missions));
        Close.Absolute(timber.After.Rate.Value - timber.Before.Rate.Value, timber.Change.Value, 1e-15);
        Assert.True(timber.Change.Range!.Value.Low > 0);
        Assert.Contains(": higher.", changes.Reading, StringComparison.Ordinal);
    }

    [Fact]
    public void A_comparison_that_can_not_be_made_is_said_with_its_reason()
    {
        var landings = Season("2030", 8, 2).Concat(Season("2031", 8, 2)).Concat(Season("2031", 1, 2, "grass", 7)).ToList();
        var changes = SeasonChanges.Of(landings, _options);
        Assert.Equal(["5+ mps, 2030 to 2031: fewer than 2 missions in one of them",
            "grass, 2030 to 2031: fewer than 2 missions in one of them"], changes.Skipped);
        Assert.Contains(changes.Skipped[1], changes.Tables[0].Note, StringComparison.Ordinal);
        Assert.Equal(["all", "0-5 mps", "timber"], changes.Changes.Select(c => c.Group));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Less_than_two_seasons_is_nothing_to_compare(int seasons)
    {
        var changes = SeasonChanges.Of([.. Season("2030", 8, 2).Take(32 * seasons)], _options);
        Assert.Empty(changes.Changes);
        Assert.Empty(changes.Skipped);
        Assert.Equal("There is no pair of seasons to compare.", changes.Reading);
    }
}
