namespace JumpAnalytics.Tests;

/// <summary>
/// One base made by hand, written to 10 yards, all radii 40 yards. Meadow: 12 missions of 10, 20, 30, 40 yards; ridge: 12 missions of
/// 20, 40, 50, 60 yards, in one of which the second jumper has no row. As written 72 of 95 are hits, 24 of them on the radius. Spread, a
/// landing at 40 counts for 1/2, at 30 for 1 + 1/16 and at 50 for -1/16 (the quadratic density through three steps): 60 of 95.
/// </summary>
public sealed class RateReadingsTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    private static TempLog Base(bool gap = true, bool ordered = true, int step = 10)
    {
        var (drops, landings) = (new List<string>(), new List<string>());
        for (var m = 0; m < 24; m++)
        {
            var terrain = m < 12 ? "meadow" : "ridge";
            drops.Add($"d{m},m{m},2031-07-{m + 1:00}T10:00,{terrain},{4 * step},8,300,{15 * m}");
            int[] steps = m < 12 ? [1, 2, 3, 4] : [2, 6, 4, 5];
            for (var j = 0; j < 4; j++)
            {
                if (!gap || m != 20 || j != 1) landings.Add($"d{m},{steps[j] * step},{90 * j},{(ordered ? $"{j + 1}" : "")}");
            }
        }
        return TempLog.Of(TempLog.Lines([TempLog.DropsHeader, .. drops]),
            TempLog.Lines([TempLog.LandingsHeader + ",exit_order", .. landings]));
    }

    private static SeasonAccuracy Accuracy(bool gap = true, bool ordered = true, int step = 10)
    {
        using var files = Base(gap, ordered, step);
        return SeasonAccuracy.Of(files.Read(), _options);
    }

    [Fact]
    public void Each_row_is_an_independent_count()
    {
        var readings = Accuracy().Readings;
        Assert.Equal(["as written", "distances spread over their rounding", "hits exactly on the radius as misses",
            "all uncounted landings as misses", "all uncounted landings as hits"], readings.Rows.Select(r => r.Name));
        double[] expected = [72 / 95.0, 60 / 95.0, 48 / 95.0, 60 / 97.0, 74 / 97.0];
        foreach (var (row, rate) in readings.Rows.Zip(expected)) Close.Absolute(rate, row.Rate.Value, 1e-12, row.Name);
        Assert.Equal([95, 95, 95, 97, 97], readings.Rows.Select(r => r.Landings));
        Assert.Equal((95, 24), (readings.Spread!.Rounded, readings.Spread.OnTheRadius));
        Assert.Equal((0, 0, 1, 2), (readings.Refused, readings.Undecided, readings.MissingAtLeast, readings.MissingAbout));
        Assert.Equal(readings.Rows.Min(r => r.Rate.Range!.Value.Low), readings.Range!.Value.Low);
        Assert.Equal(readings.Rows.Max(r => r.Rate.Range!.Value.High), readings.Range!.Value.High);
        Assert.All(readings.Rows, r => Assert.True(r.Rate.Range!.Value.Contains(r.Rate.Value)));
    }

    [Fact]
    public void The_brief_has_both_rates_with_intervals_and_n_and_both_verdicts()
    {
        var accuracy = Accuracy();
        var (written, spread) = (Rounding.Percent(accuracy.Readings.Rows[0].Rate), Rounding.Percent(accuracy.Readings.Rows[1].Rate));
        Assert.StartsWith("76 % (", written);
        Assert.StartsWith("63 % (", spread);
        Assert.StartsWith($"As written, {written} of landings", accuracy.Brief.Reading);
        Assert.Contains($"over their rounding, {spread} did (95 % intervals; 24 missions, 95 landings;", accuracy.Brief.Reading);
        Assert.Contains(accuracy.Brief.Points, p => p.StartsWith("As written that is not clearly different from", StringComparison.Ordinal)
            ? p.Contains("spread, it is below it", StringComparison.Ordinal) && p.Contains("readings differ", StringComparison.Ordinal)
            : p.StartsWith("Both are below", StringComparison.Ordinal) && p.Contains("agree", StringComparison.Ordinal));
        var limits = accuracy.Readings.Rows.Take(2).Select(r => r.Rate.Range!.Value.High < 0.85).ToList();
        Assert.Equal(limits[0] == limits[1], accuracy.Brief.Points.Any(p => p.Contains("two readings agree", StringComparison.Ordinal)));
        Assert.Contains("95 of 95 landings have a rounded distance. 24 hits lie exactly on the target radius; were they misses, the rate "
            + "would be 51 % (", string.Join(' ', accuracy.Brief.Points));
        Assert.Contains("At least 1 never written down, about 2 with those that leave no gap. Were all misses the rate would be 61.9 %, "
            + "were all hits 76.3 %, against 75.8 % as counted.", string.Join(' ', accuracy.Brief.Points).Replace("at least", "At least"));
    }

    [Fact]
    public void Missing_landings_reach_conclusions_and_cautions()
    {
        var with = Accuracy();
        Assert.DoesNotContain("Every landing row", with.Conclusions.ToString());
        Assert.Contains("at least 1 never written down", with.Conclusions.ToString());
        Assert.Contains("At least 1 landing was never written down", with.Cautions.ToString());
        Assert.Equal(with.Readings.Tables[0].Rows.Count, with.Conclusions.Tables[0].Rows.Count);
        var without = Accuracy(gap: false);
        Assert.Contains("Every landing row could be counted, and the exit order has no gap.", without.Conclusions.ToString());
        Assert.DoesNotContain("never written down", without.Cautions.ToString());
        var blind = Accuracy(ordered: false);
        Assert.Contains("The exit order is not recorded, so a missing landing leaves no gap.", blind.Conclusions.ToString());
    }

    [Fact]
    public void The_claim_is_judged_as_written_and_spread()
    {
        var claim = Accuracy().Claim;
        Close.Absolute(60 / 95.0, claim.Rows[0].Spread!.Rate.Value, 1e-12);
        Close.Absolute(3.5625 / 4, claim.Rows.Single(r => r.Group == "meadow").Spread!.Rate.Value, 1e-12);
        Assert.True(claim.Rows[0].SpreadPValue < claim.Rows[0].PValue);
        Assert.True(claim.Rows[0].SpreadProbability < claim.Rows[0].ProbabilityAtLeast);
        Assert.Contains("With rounded distances spread the rate is 63 % (", claim.Reading);
        Assert.Matches("the two (agree|differ)", claim.Reading);
    }

    [Fact]
    public void Distances_off_the_round_steps_are_left_alone()
    {
        var accuracy = Accuracy(gap: false, step: 11);
        Assert.Null(accuracy.Readings.Spread);
        Assert.StartsWith("75 % (", accuracy.Brief.Reading);
        Assert.Null(accuracy.Claim.Rows[0].Spread);
    }

    /// <summary>Terrains that differ by more than their intervals are named lowest and highest; others are not.</summary>
    [Fact]
    public void Lowest_and_highest_are_named_only_where_their_intervals_lie_apart()
    {
        Assert.Contains(Accuracy().Brief.Points, p => p.StartsWith("Terrain: lowest ridge: 51 % (", StringComparison.Ordinal)
            && p.Contains("12 missions, 47 landings; highest meadow: 100 % (", StringComparison.Ordinal));
        List<Landing> Even(string terrain, int hits) => [.. Enumerable.Range(0, 12).SelectMany(m => Enumerable.Range(0, 4).Select(j =>
            Made.Landing(Made.Drop($"{terrain}{m}", $"{terrain}{m}", terrain: terrain), 4 * m + j < hits ? 10.3 : 50.7, 0)))];
        List<Landing> all = [.. Even("meadow", 36), .. Even("ridge", 33)];
        var log = new JumpLog("made", null, [.. all.Select(l => l.Drop).Distinct()], all, Made.NoIntake);
        Assert.Contains(SeasonAccuracy.Of(log, _options).Brief.Points,
            p => p.StartsWith("Terrain: no clear difference between ridge: 69 % (", StringComparison.Ordinal)
                && p.Contains("meadow: 75 % (", StringComparison.Ordinal));
    }

    /// <summary>How many of the missing would have to be misses: counted one by one from the rows.</summary>
    [Fact]
    public void The_tipping_point_is_a_count_of_misses()
    {
        var drops = Enumerable.Range(0, 60).Select(m => Made.Drop($"d{m}", $"m{m}")).ToList();
        var landings = Enumerable.Range(0, 60).SelectMany(m => Enumerable.Range(0, 4).Where(j => m >= 20 || j != 1).Select(j =>
            Made.Landing(drops[m], (m + j) % 16 == 3 ? 50.7 : 10.3, 0, j + 1))).ToList();
        var readings = SeasonAccuracy.Of(new JumpLog("made", null, drops, landings, Made.NoIntake), _options).Readings;
        var (open, n) = (readings.Uncounted, landings.Count);
        var rate = readings.Rows[0].Rate.Value;
        var counted = MissionSample.Of(landings).CountedRate(0.95).Value!;
        var above = Enumerable.Range(0, open + 1)
            .Count(k => counted.IntervalAt((rate * n + open - k) / (n + open), n + open, 0.95)!.Value.Low > 0.85);
        Assert.InRange(above, 1, open);
        Assert.Contains($"above 85 % with 0 to {above - 1}, and not clearly different from 85 % with {above} to ",
            readings.TippingSentence);
    }

    [Fact]
    public void One_mission_has_rates_and_no_interval()
    {
        var landings = Enumerable.Range(0, 24).Select(j => Made.Landing(Made.Drop(), new LocalVector(0, 5 * j), j + 1)).ToList();
        var log = new JumpLog("made", null, [landings[0].Drop], landings, Made.NoIntake);
        var readings = SeasonAccuracy.Of(log, _options).Readings;
        Assert.All(readings.Rows, r => Assert.Null(r.Rate.Range));
        Assert.Null(readings.Range);
        Assert.Contains("there is no interval", readings.VerdictSentence);
    }
}
