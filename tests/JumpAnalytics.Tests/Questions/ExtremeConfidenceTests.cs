using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>Reports of the demo season at confidences next to 1: intervals are wide, and none is missing for want of a quantile.</summary>
public sealed class ExtremeConfidenceTests
{
    [Theory]
    [InlineData(0.9999)]
    [InlineData(1 - 1e-9)]
    public void Every_report_is_made(double confidence)
    {
        var options = new AccuracyOptions { Confidence = confidence, Replicates = 200 };
        var season = SeasonAccuracy.Of(DemoLog.Log, options);
        ShownResult[] results =
        [
            season, SpottingMargins.Of(DemoLog.Log, options), SpotterReview.Of(DemoLog.Log, options),
            MissionDebrief.Of(DemoLog.Log, options: options), ForecastReview.Of(DemoLog.Log, options),
        ];
        Assert.All(results, r => Assert.DoesNotContain("NaN", $"{r}", StringComparison.Ordinal));
    }

    // R 4.2.2: qt(4.9998893913993925e-13, 3, lower.tail = FALSE), the tail that 1 - 1e-12 leaves as a double.
    [Fact]
    public void Limits_at_a_confidence_next_to_one_follow_from_the_quantile_of_R()
    {
        int[] hits = [3, 1, 4, 2], landings = [4, 4, 4, 4];
        var near = ClusteredProportion.Of(hits, landings, 1 - 1e-12);
        var expected = ClusteredProportion.Wilson(near.Rate.Value, near.EffectiveLandings!.Value, 13016.476782874568);
        Close.Absolute(expected.Low, near.Rate.Range!.Value.Low, 1e-12);
        Close.Absolute(expected.High, near.Rate.Range!.Value.High, 1e-12);
    }
}
