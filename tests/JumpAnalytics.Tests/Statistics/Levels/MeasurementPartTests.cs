using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class MeasurementPartTests
{
    /// <summary>The mean square of errors, weighted by 1 − 1/n, by hand: missions of 3, 1 and 2 landings.</summary>
    [Fact]
    public void The_recorded_errors_are_taken_off_the_scatter_within_missions()
    {
        double?[] sd = [3, 5, 4, 100, 6, 2];
        var model = Model([("a", 10, 30), ("a", -20, 5), ("a", 0, -25), ("b", 40, 40), ("c", -30, 10), ("c", 5, -20)], sd);
        var measurement = model.Measurement!;
        Close.Relative((9 + 25 + 16) * 2.0 / 3 / 3 + (36 + 4) * 0.5 / 3, measurement.Variance, 1e-14); // weights sum to 3
        Assert.Equal((6, 6, true), (measurement.Recorded, measurement.Points, measurement.IsKnown));
        var own = measurement.Own.Value!;
        Assert.Equal(model.Within.Value.VarianceAlong - measurement.Variance, own.VarianceAlong);
        Assert.Equal(model.Within.Value.VarianceAcross - measurement.Variance, own.VarianceAcross);
        Assert.Equal(model.Within.Value.Covariance, own.Covariance);
        Assert.True(model.Forecast.WithoutMeasurement);
        var b = model.Between.Value;
        Close.Relative(b.Trace / (b.Trace + own.Trace), model.Forecast.Overall.Share.Value, 1e-12);
        Close.Relative(b.VarianceAcross / (b.VarianceAcross + own.VarianceAcross), model.Forecast.Right.Share.Value, 1e-12);
    }

    [Fact]
    public void Landings_without_a_recorded_error_are_counted_and_the_share_left_as_measured()
    {
        var misses = MadeMisses.Draw(3, Enumerable.Repeat(4, 20), MadeMisses.Typical);
        var model = TwoLevelModel.FitTo(PlaneSample.Of(misses.Select((r, i) => r with { MeasuredSd = i % 5 == 0 ? null : 5 }))).Value!;
        Assert.Equal((64, 80, false), (model.Measurement!.Recorded, model.Measurement.Points, model.Measurement.IsKnown));
        Close.Relative(25, model.Measurement.Variance, 1e-14);
        Assert.True(model.Measurement.Own.Success);
        Assert.False(model.Forecast.WithoutMeasurement);
        var (b, w) = (model.Between.Value.Trace, model.Within.Value.Trace);
        Close.Relative(b / (b + w), model.Forecast.Overall.Share.Value, 1e-12);
        Assert.Contains("recorded for 64 of 80 points", Assert.Single(model.Warnings), StringComparison.Ordinal);
        Assert.Null(TwoLevelModel.FitTo(PlaneSample.Of(misses)).Value!.Measurement);
    }

    [Fact]
    public void Errors_larger_than_the_scatter_itself_are_told_and_nothing_is_taken_off()
    {
        var misses = MadeMisses.Draw(3, Enumerable.Repeat(4, 20), MadeMisses.Typical);
        // 169 m² against some 125 m² along the narrow direction.
        var model = TwoLevelModel.FitTo(PlaneSample.Of(misses.Select(r => r with { MeasuredSd = 13 }))).Value!;
        Assert.False(model.Measurement!.Own.Success);
        Assert.Contains("169 m²", model.Measurement.Own.Reason, StringComparison.Ordinal);
        Assert.Contains(model.Warnings, w => w.StartsWith("the points' own part can't be told", StringComparison.Ordinal));
        Assert.False(model.Forecast.WithoutMeasurement);
    }

    /// <summary>
    /// Errors of 3 to 18 m that differ from landing to landing, in 3,000 missions: own part and the forecast's part come out within 5
    /// standard errors (of six numbers: error probability 3e-6; the seed is fixed), and so does the share.
    /// </summary>
    [Fact]
    public void Unequal_errors_leave_the_true_parts()
    {
        var truth = MadeMisses.Typical;
        var random = SeedStream.For(8, "measuring");
        var measured = MadeMisses.Draw(8, Enumerable.Range(0, 3000).Select(i => 1 + i % 6), truth).Select(r =>
        {
            var sd = random.Next(3) switch { 0 => 3.0, 1 => 8, _ => 18 };
            return r with { Place = new(r.Place!.Value.Along + Normal.Sample(random, 0, sd),
                r.Place.Value.Across + Normal.Sample(random, 0, sd)), MeasuredSd = sd };
        });
        var model = TwoLevelModel.FitTo(PlaneSample.Of(measured)).Value!;
        var (own, errors) = (model.Measurement!.Own.Value!, model.Within.StandardErrors!);
        Close.Absolute(truth.Within.VarianceAlong, own.VarianceAlong, 5 * errors.VarianceAlong);
        Close.Absolute(truth.Within.VarianceAcross, own.VarianceAcross, 5 * errors.VarianceAcross);
        Close.Absolute(truth.Within.Covariance, own.Covariance, 5 * errors.Covariance);
        Close.Absolute(truth.Between.VarianceAlong, model.Between.Value.VarianceAlong, 5 * model.Between.StandardErrors!.VarianceAlong);
        Close.Absolute(truth.Between.VarianceAcross, model.Between.Value.VarianceAcross, 5 * model.Between.StandardErrors.VarianceAcross);
        Close.Absolute(500.0 / 880, model.Forecast.Overall.Share.Value, 5 * model.Forecast.Overall.StandardError!.Value);
        Assert.True(model.Forecast.Overall.StandardError < 0.015);
    }

    private static TwoLevelModel Model((string Mission, double Downwind, double Right)[] misses, double?[] sd) =>
        TwoLevelModel.FitTo(
            PlaneSample.Of(misses.Zip(sd, (m, s) => new PlaneReading(m.Mission, new(m.Downwind, m.Right), MeasuredSd: s)))).Value!;
}
