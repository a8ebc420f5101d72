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
        Assert.True(claim.Rows[2].ProbabilityAtLeast > claim.Rows[3].ProbabilityAtLeast);
        Assert.Equal([0.75, 0.80, 0.90], claim.Planning.Select(p => p.TrueRate));
        Assert.Contains("more than there are", claim.Reading);
        Assert.Contains("(32 missions, 128 landings;", claim.Reading);
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
    public void A_single_mission_has_a_probability_and_no_test()
    {
        var row = BenchmarkClaim.Of(Landings(1, (_, j) => j > 0), new AccuracyOptions()).Rows[0];
        Assert.Null(row.PValue);
        Assert.InRange(row.ProbabilityAtLeast, 0.1, 0.6);
    }
}
