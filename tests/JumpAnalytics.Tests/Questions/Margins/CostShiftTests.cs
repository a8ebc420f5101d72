using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class CostShiftTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 400 };

    private static List<Landing> Normals(Random random, int missions, double sd) =>
        [.. Enumerable.Range(0, missions)
            .Select(m => Made.Landing(Made.Drop($"d{m}", $"m{m}"), Normal.Sample(random, 0, sd), Normal.Sample(random, 0, sd)))];

    /// <summary>
    /// Arrow, Harris and Marschak (1951): the shift is minus the quantile at 1/(1 + ratio). Of a normal of 20 m and 2,000 missions that
    /// quantile has a standard error below 0.7 m: within 2.5 m with probability above 0.999, smoothing (width below 4 m) included.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    public void Without_a_side_to_keep_out_of_the_shift_is_the_newsvendor_s(double ratio)
    {
        var shift = CostShift.Of(Normals(new Random(7), 2000, 20), _options, new LandingCost { LongOverShort = ratio });
        var expected = -Normal.InvCDF(0, 20, 1 / (1 + ratio)) * -1; // long costs more: move upwind
        Assert.Equal(Normal.InvCDF(0, 20, 1 / (1 + ratio)), expected, 12);
        Assert.Equal(expected, shift.Along.Value!.Best.Value, 2.5);
        Assert.True(shift.Along.Value.Best.Range!.Value.Contains(expected));
        Assert.Equal(0, shift.Across.Value!.Best.Value, 2.5);
        var flat = shift.Along.Value;
        Assert.True(flat.WithinFive.Low <= flat.WithinOne.Low && flat.WithinOne.Low <= flat.Best.Value + 0.3
            && flat.Best.Value - 0.3 <= flat.WithinOne.High && flat.WithinOne.High <= flat.WithinFive.High);
        Assert.True(flat.CostAtBest <= flat.CostAtNone);
        if (ratio == 1) Assert.True(flat.WithinOne.Contains(0));
    }

    /// <summary>Least cost by a plain search over the exact normal expectation, 1,000 missions; tolerance as above.</summary>
    [Fact]
    public void A_side_to_keep_out_of_pushes_the_exit_the_other_way()
    {
        const double Sd = 20, From = 25, Extra = 60;
        double Expected(double s)
        {
            var z = s / Sd;
            var walk = 2 * (s * Normal.CDF(0, 1, z) + Sd * Normal.PDF(0, 1, z)) - s;
            return walk + Extra * (1 - Normal.CDF(0, Sd, From - s));
        }
        var best = Enumerable.Range(-600, 1200).Select(i => i / 10.0).MinBy(Expected);
        var shift = CostShift.Of(Normals(new Random(8), 2000, Sd), _options,
            new LandingCost { KeepOut = DriftSide.Long, KeepOutFrom = From, KeepOutCost = Extra });
        Assert.True(best < -3);
        Assert.Equal(best, shift.Along.Value!.Best.Value, 3.5);
        Assert.Equal(Expected(0), shift.Along.Value.CostAtNone, 2.0);

        var left = CostShift.Of(Normals(new Random(8), 2000, Sd), _options,
            new LandingCost { KeepOut = DriftSide.Left, KeepOutFrom = From, KeepOutCost = Extra });
        Assert.Equal(-best, left.Across.Value!.Best.Value, 3.5);
        Assert.Equal(0, left.Along.Value!.Best.Value, 2.5);
    }

    [Fact]
    public void Settings_are_read_and_refused()
    {
        var cost = LandingCost.Of(ReportUnits.FireLine, 2, "Long", 50, 100);
        Assert.Equal((2, DriftSide.Long), (cost.LongOverShort, cost.KeepOut));
        Assert.Equal(45.72, cost.KeepOutFrom, 9);
        Assert.Null(LandingCost.Of(ReportUnits.FireLine, 1, "none", 50, 100).KeepOut);
        Assert.Contains("no side to keep out of; there are none, long, short, left and right",
            Assert.Throws<ArgumentException>(() => LandingCost.Of(ReportUnits.FireLine, 1, "up", 1, 1)).Message);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LandingCost { LongOverShort = 0 });
        Assert.StartsWith("No shift of least cost can be given: 5 missions with a known miss",
            CostShift.Of(Normals(new Random(1), 5, 10), _options, new LandingCost()).Reading);
    }
}
