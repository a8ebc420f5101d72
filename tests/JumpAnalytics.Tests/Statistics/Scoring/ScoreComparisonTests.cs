namespace JumpAnalytics.Tests;

public sealed class ScoreComparisonTests
{
    // Six litters of Weil (1970), in aod::rats of R: animals and survivors among them.
    private static readonly int[] _n = [9, 7, 10, 6, 10, 7];
    private static readonly int[] _y = [7, 4, 5, 3, 3, 0];
    private static readonly int[] _missions = [.. Enumerable.Range(0, 6).SelectMany(m => Enumerable.Repeat(m + 100, _n[m]))];
    private static readonly double[] _survived =
        [.. Enumerable.Range(0, 6).SelectMany(m => Enumerable.Range(0, _n[m]).Select(i => i < _y[m] ? 1.0 : 0))];
    private static readonly double[] _ones = [.. _missions.Select(_ => 1.0)];

    /// <summary>
    /// A score of 1 for each survivor against 0 makes the difference the share of survivors, and against 1 makes the skill its complement:
    /// the limits lie between quantiles of all 46,656 resamples (base R 4.2.2) at the widened tail (.0024318) less and plus four standard
    /// errors of a counted share in 10,000; outside by chance in fewer than 1 of 5,000 seeds. The seed is fixed.
    /// </summary>
    [Fact]
    public void Limits_agree_with_all_resamples_of_the_missions()
    {
        var difference = ScoreComparison.Of(_survived, [.. _missions.Select(_ => 0.0)], _missions, replicates: 10_000, seed: 3).Value!;
        Assert.Equal((49, 6), (difference.Points, difference.Clusters));
        Close.Absolute(22 / 49.0, difference.Difference.Value, 1e-15);
        Assert.InRange(difference.Difference.Range!.Value.Low, .1111111111, .1818181819);
        Assert.InRange(difference.Difference.Range.Value.High, .6808510638, .72);
        Assert.Contains("not above 0", difference.Skill.Reason, StringComparison.Ordinal);

        var skill = ScoreComparison.Of(_survived, _ones, _missions, replicates: 10_000, seed: 3).Value!;
        Close.Absolute(27 / 49.0, skill.Skill.Value!.Value, 1e-15);
        Close.Absolute(1 - difference.Difference.Range.Value.High, skill.Skill.Value.Range!.Value.Low, 1e-14);
        Close.Absolute(1 - difference.Difference.Range.Value.Low, skill.Skill.Value.Range.Value.High, 1e-14);
        Assert.Equal((22 / 49.0, 1), (skill.Mean, skill.ReferenceMean));
    }

    /// <summary>
    /// What missions share falls out: forecasters that differ by nearly one number everywhere differ by it in every resample.
    /// </summary>
    [Fact]
    public void Pairs_cancel_what_they_share()
    {
        var random = SeedStream.For(2, "pairs");
        double[] hard = [.. _missions.Select(m => 100 * (m - 99) + random.NextDouble())];
        var found = ScoreComparison.Of([.. hard.Select((h, i) => h - 0.5 + 1e-6 * (i % 3 - 1))], hard, _missions).Value!;
        Close.Absolute(-0.5, found.Difference.Value, 1e-6);
        Close.Absolute(-0.5, found.Difference.Range!.Value.Low, 2e-6);
        Close.Absolute(-0.5, found.Difference.Range.Value.High, 2e-6);
        Assert.True(found.Skill.Value!.Range!.Value.Low > 0);
    }

    [Fact]
    public void A_single_mission_no_landing_and_infinite_scores_are_told()
    {
        var one = ScoreComparison.Of([.1, .2], [.2, .4], [7, 7]).Value!;
        Assert.Equal("a single cluster", one.Difference.WhyNoRange);
        Close.Absolute(.5, one.Skill.Value!.Value, 1e-15);
        Assert.Equal("a single cluster", one.Skill.Value.WhyNoRange);
        Assert.Equal("no point", ScoreComparison.Of([], [], []).Reason);
        Assert.Equal("infinite scores: 1 of the forecaster and 2 of the one compared with, in 3 points",
            ScoreComparison.Of([1, double.PositiveInfinity, 2], [double.PositiveInfinity, 1, double.PositiveInfinity], [1, 2, 3]).Reason);
        Assert.Throws<ArgumentException>(() => ScoreComparison.Of([1, 2], [1], [1, 2]));
        Assert.Throws<ArgumentException>(() => ScoreComparison.Of([1, double.NaN], [1, 2], [1, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ScoreComparison.Of([1], [1], [1], confidence: 2));
    }
}
