namespace JumpAnalytics.Tests.Monitoring;

/// <summary>A chart of cumulative sums of any series.</summary>
public sealed class CusumChartTests
{
    /// <summary>
    /// NIST/SEMATECH e-Handbook 6.3.2.3: target 325, k 0.3175 and h 4.1959 in the data's unit; its columns of sums are printed with two
    /// decimals. The handbook goes on after the signal at the 14th value; this chart starts anew.
    /// </summary>
    [Fact]
    public void The_handbooks_sums()
    {
        double[] x = [324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625, 325.150, 328.325,
            327.250, 327.825, 328.500, 326.675];
        double[] up = [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 2.51, 5.69, 1.36];
        double[] down = [0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0];
        var chart = CusumChart.Of(x, 325, 1, 0.3175, 4.1959);
        foreach (var (point, i) in chart.Points.Select((p, i) => (p, i)))
        {
            Assert.Equal((i + 1, x[i]), (point.Number, point.Value));
            Close.Absolute(up[i], point.Upper, 0.0051);
            Close.Absolute(down[i], point.Lower, 0.0051);
        }
        Assert.Equal(((int, int)[])[(14, 1), (16, 1)], chart.Signals.Select(p => (p.Number, p.Signal)));
    }

    /// <summary>xcusum.arl of spc 0.6.7, R 4.2.2, both sides.</summary>
    [Fact]
    public void Run_lengths_in_and_out_of_control()
    {
        var chart = CusumChart.Of([1.0], 0, 1);
        Close.Relative(368.56139446998, chart.InControlRunLength, 1e-9);
        Close.Relative(9.9170424641322, chart.RunLength(1).Average, 1e-9);
        Close.Relative(9.9170424641322, chart.RunLength(-1).Average, 1e-9);
        Close.Relative(148.69564999062, CusumChart.Of([1.0], 0, 1, 0.5, 4, 2).InControlRunLength, 1e-9);
    }

    /// <summary>
    /// By hand, target 10, deviation 2, k ½, h 2, head start 1: −1, −1 takes the sum of falls to 1.5 and to 2, which does not pass the
    /// limit; −1 more to 2.5, a signal; then both sums start at 1 again, and +3 takes the sum of rises to 3.5.
    /// </summary>
    [Fact]
    public void A_sum_at_the_limit_does_not_signal_and_a_head_start_comes_again()
    {
        var chart = CusumChart.Of([8, 8, 8, 16], 10, 2, 0.5, 2, 1);
        Assert.Equal((double[])[1.5, 2, 2.5, 0], chart.Points.Select(p => p.Lower));
        Assert.Equal((double[])[0, 0, 0, 3.5], chart.Points.Select(p => p.Upper));
        Assert.Equal((int[])[0, 0, -1, 1], chart.Points.Select(p => p.Signal));
        Assert.Equal((0.5, 2.0, 1.0), (chart.ReferenceValue, chart.Limit, chart.HeadStart));
    }

    [Fact]
    public void What_can_not_be_is_named()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1, double.NaN], 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 1, -0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 1, 0.5, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 1, 0.5, 4, 2.6));
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 1, 0.5, 60).InControlRunLength);
        Assert.Empty(CusumChart.Of([], 0, 1).Points);
    }

    /// <summary>The line of the guide as printed there; by hand the sum of rises is 0.25, 1.25 and 3.25, and passes no limit.</summary>
    [Fact]
    public void The_guides_line_runs()
    {
        Assert.Contains("`var chart = CusumChart.Of([12, 9, 14, 17, 21], 11, 4, 0.5, 4.77)`", Docs.Documents.Text("notebooks/README.md"),
            StringComparison.Ordinal);
        var chart = CusumChart.Of([12, 9, 14, 17, 21], 11, 4, 0.5, 4.77);
        Assert.Equal((double[])[0, 0, 0.25, 1.25, 3.25], chart.Points.Select(p => p.Upper));
        Assert.Empty(chart.Signals);
        Assert.InRange(chart.InControlRunLength, 368, 369);
        Assert.InRange(chart.RunLength(1).Average, 9.91, 9.92);
    }
}
