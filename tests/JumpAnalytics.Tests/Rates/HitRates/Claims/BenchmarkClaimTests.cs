using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class BenchmarkClaimTests
{
    private static List<Landing> Landings(int missions, Func<int, int, bool> hit, string terrain = "timber") =>
        [.. Enumerable.Range(0, missions).SelectMany(m => Enumerable.Range(0, 4).Select(j =>
            Made.Landing(Made.Drop($"{terrain}{m}", $"{terrain}{m}", terrain: terrain), hit(m, j) ? 10 : 50, 0)))];

    /// <summary>
    /// The test is the interval turned round: p is below 1 − confidence exactly when the interval leaves the benchmark out.
    /// </summary>
    [Fact]
    public void The_test_and_the_interval_never_disagree()
    {
        var seen = new HashSet<bool>();
        for (var misses = 0; misses < 60; misses++)
        {
            var row = BenchmarkClaim.Of(Landings(60, (m, j) => m >= misses || j > 0), new AccuracyOptions()).Rows[0];
            var outside = !row.Counted.Rate.Range!.Value.Contains(0.85);
            Assert.Equal(outside, row.PValue < 0.05);
            seen.Add(outside);
        }
        Assert.Equal(2, seen.Count);
    }

    [Fact]
    public void Each_group_has_its_own_row_and_the_reading_tells_what_is_missing()
    {
        var claim = BenchmarkClaim.Of([.. Landings(20, (m, j) => m % 3 > 0 || j > 0), .. Landings(12, (_, _) => true, "meadow")],
            new AccuracyOptions());
        Assert.Equal(["all", "5-10 mph", "meadow", "timber"], claim.Rows.Select(r => r.Group));
        // meadow: all of 12 missions alike, so that each counts once; t on 11 degrees
        var meadow = StudentT.CDF(0, 1, 11, 0.15 / Math.Sqrt(0.85 * 0.15 / 12));
        Close.Absolute(meadow, claim.Rows[2].ProbabilityAtLeast!.Value, 1e-12, "meadow");
        Assert.Equal([0.75, 0.80, 0.90], claim.Planning.Select(p => p.TrueRate));
        Assert.Contains("(32 missions, 128 landings;", claim.Reading);
        Assert.Contains("four times in five; there are 32 missions, so that ", claim.Reading);
    }

    /// <summary>Needed less there are is more needed, in the sentence and in the table, with many missions and with few.</summary>
    [Theory]
    [InlineData(8)]
    [InlineData(15)]
    [InlineData(327)]
    public void The_missions_needed_the_missions_there_are_and_the_difference_agree(int missions)
    {
        var claim = BenchmarkClaim.Of(Landings(missions, (m, j) => m % 3 > 0 || j > 0), new AccuracyOptions());
        var plan = claim.Planning.Single(p => p.TrueRate == 0.8);
        var needed = plan.BySimulation!.Value;
        Assert.Contains($"About {needed} missions like these would be enough to detect a true rate of 80 % four times in five; there are "
            + $"{missions} missions{(needed > missions ? $", so that {needed - missions} more are needed." : ".")}", claim.Reading);
        Assert.Contains($",{needed},", claim.Tables[1].ToCsv());
    }

    /// <summary>By hand: 4 missions of 4 with 4 4 3 3 hits; effective landings 16, since the missions agree; t on 3 degrees.</summary>
    [Fact]
    public void The_probability_is_the_one_sided_level_of_the_test()
    {
        int[] hits = [4, 4, 3, 3];
        var row = BenchmarkClaim.Of(Landings(4, (m, j) => j < hits[m]), new AccuracyOptions()).Rows[0];
        var t = (14 / 16.0 - 0.85) / Math.Sqrt(0.85 * 0.15 / 16);
        Close.Absolute(0.6011, row.ProbabilityAtLeast!.Value, 1e-4, "pt(0.280056, 3) of R 4.2.2");
        Close.Absolute(StudentT.CDF(0, 1, 3, t), row.ProbabilityAtLeast.Value, 1e-12, "probability");
        Close.Absolute(2 * (1 - row.ProbabilityAtLeast.Value), row.PValue!.Value, 1e-12, "p");
    }

    [Fact]
    public void Without_landings_nothing_is_claimed()
    {
        var claim = BenchmarkClaim.Of([], new AccuracyOptions());
        Assert.Empty(claim.Rows);
        Assert.StartsWith("Nothing can be said", claim.Reading);
        Assert.All(claim.Tables, t => Assert.Empty(t.Rows));
    }

    [Fact]
    public void A_single_mission_has_neither_a_probability_nor_a_test()
    {
        var row = BenchmarkClaim.Of(Landings(1, (_, j) => j > 0), new AccuracyOptions()).Rows[0];
        Assert.Null(row.PValue);
        Assert.Null(row.ProbabilityAtLeast);
    }
}
