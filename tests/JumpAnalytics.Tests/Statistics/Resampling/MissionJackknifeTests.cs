using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class ClusterJackknifeTests
{
    private static Func<int[], double?> Mean(params double[] values) => counts =>
        counts.Sum() is var n and > 0 ? counts.Select((c, m) => c * values[m]).Sum() / n : null;

    /// <summary>
    /// Of 2, 4, 6 and 20 the mean is 8; without each it is 10, 28/3, 26/3 and 4, whose mean is 8: the mean has no bias, and its standard
    /// error is the usual one, √(Σ(x − 8)²/(4·3)) = √(200/12).
    /// </summary>
    [Fact]
    public void The_mission_that_drives_a_mean_comes_first_with_its_label()
    {
        var jackknife = ClusterJackknife.Of(4, Mean(2, 4, 6, 20), ["alder", "birch", "cedar", "dogwood"]).Value!;
        Assert.Equal(["dogwood", "alder", "birch", "cedar"], jackknife.Ranked.Select(i => i.Label));
        Assert.Equal([3, 0, 1, 2], jackknife.Ranked.Select(i => i.Cluster));
        Close.Relative(4, jackknife.Ranked[0].ValueWithout, 1e-14);
        Close.Relative(-4, jackknife.Ranked[0].Change, 1e-14);
        Close.Relative(-4 / Math.Sqrt((16 + 4 + 16 / 9.0 + 4 / 9.0) / 4), jackknife.Ranked[0].Standardised, 1e-13);
        Close.Absolute(0, jackknife.Bias, 1e-14);
        Close.Relative(Math.Sqrt(200 / 12.0), jackknife.StandardError, 1e-14);
    }

    // The plug-in variance Σ(x − m)²/n has the bias −s²/n, and the jackknife finds it exactly (Efron and Tibshirani 1993, section 10.5).
    [Fact]
    public void The_bias_of_the_plug_in_variance_is_found_exactly()
    {
        double[] x = [2, 4, 6, 20, 7];
        var mean = x.Average();
        var s2 = x.Sum(v => (v - mean) * (v - mean)) / 4;
        var jackknife = ClusterJackknife.Of(5, counts =>
        {
            var n = counts.Sum();
            var m = counts.Select((c, i) => c * x[i]).Sum() / n;
            return counts.Select((c, i) => c * (x[i] - m) * (x[i] - m)).Sum() / n;
        }).Value!;
        Close.Relative(-s2 / 5, jackknife.Bias, 1e-12);
        Assert.Equal("3", jackknife.Ranked[0].Label);
    }

    [Fact]
    public void No_standardised_influence_passes_its_bound()
    {
        Cases.Each(Gen.Double[-100, 100].Array[3, 12], 300, 1, x =>
        {
            var jackknife = ClusterJackknife.Of(x.Length, Mean(x)).Value!;
            Assert.All(jackknife.Ranked, i => Assert.InRange(Math.Abs(i.Standardised), 0, Math.Sqrt(x.Length - 1) * (1 + 1e-12)));
            Assert.Equal(jackknife.Ranked, jackknife.Ranked.OrderByDescending(i => Math.Abs(i.Standardised)));
        });
    }

    [Fact]
    public void Few_missions_and_figures_that_do_not_move_have_a_reason()
    {
        Assert.Equal("0 clusters; which of them drive a figure can be told from 3 on", Reason(0, _ => 1));
        Assert.StartsWith("1 cluster;", Reason(1, _ => 1), StringComparison.Ordinal);
        Assert.StartsWith("2 clusters;", Reason(2, _ => 1), StringComparison.Ordinal);
        Assert.Equal("leaving out a cluster changes nothing, whichever it is", Reason(3, _ => 7));
        Assert.Equal("leaving out a cluster changes nothing, whichever it is", Reason(6, Mean(.1, .1, .1, .1, .1, .1)));
        Assert.Equal("the figure can't be computed from all clusters", Reason(3, _ => null));
        Assert.Equal("the figure can't be computed from all clusters", Reason(3, _ => double.PositiveInfinity));
        Assert.Equal("without cluster 1 the figure can't be computed", Reason(4, counts => counts[1] == 0 ? null : counts.Sum()));
        Assert.NotNull(ClusterJackknife.Of(3, Mean(1, 2, 4)).Value);

        static string? Reason(int missions, Func<int[], double?> figure) => ClusterJackknife.Of(missions, figure).Reason;
    }

    [Fact]
    public void Arguments_that_can_not_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ClusterJackknife.Of(-1, _ => 1));
        Assert.Contains("2 for 3 clusters",
            Assert.Throws<ArgumentException>(() => ClusterJackknife.Of(3, _ => 1, ["a", "b"])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ClusterBootstrap.Of(-1, _ => 1, new ResampleOptions()));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ResampleOptions { Replicates = 199 });
        var bootstrap = ClusterBootstrap.Of(5, d => d[0], new ResampleOptions()).Value!;
        Assert.Throws<ArgumentOutOfRangeException>(() => bootstrap.Interval(BootstrapMethod.Percentile, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => bootstrap.Quantile(double.NaN));
        Assert.Throws<InvalidOperationException>(() => ClusterBootstrap.Of(1, _ => 1, new ResampleOptions()).Value!.Quantile(0.5));
    }

    /// <summary>Each method, asked of 0 to 3 missions and of a figure that does not move: an interval or a reason, never a NaN.</summary>
    [Fact]
    public void Every_method_answers_few_missions_with_an_interval_or_a_reason()
    {
        foreach (var method in Enum.GetValues<BootstrapMethod>())
        {
            foreach (var choice in Enum.GetValues<ResampleChoice>())
            {
                var options = new ResampleOptions { Choice = choice };
                Assert.Equal("no cluster", ClusterBootstrap.Of(0, _ => 1, options).Reason);
                for (var missions = 1; missions <= 4; missions++)
                {
                    foreach (var confidence in new[] { 0.5, 0.8, 0.95, 0.999 })
                    {
                        var moves = ClusterBootstrap.Of(missions, Mean(3, 1, 4, 1.5), options).Value!.Interval(method, confidence);
                        if (moves.Range is { } range) Assert.True(range.Low < range.High && range.High <= 4 && range.Low >= 1,
                            $"{method} {choice} {missions} {confidence}: {range}");
                        else Assert.NotEmpty(moves.WhyNoRange!);
                        if (missions < 4 && confidence > 0.9) Assert.Null(moves.Range);
                        Assert.Null(ClusterBootstrap.Of(missions, _ => 2, options).Value!.Interval(method, confidence).Range);
                    }
                }
            }
        }
        var sided = ClusterBootstrap.Of(6, d => d[0] > 0 ? 1 : 2, new ResampleOptions()).Value!;
        Assert.Contains("one side", sided.Interval(BootstrapMethod.BiasCorrected, 0.9, TieRule.Strict).WhyNoRange,
            StringComparison.Ordinal);
        // Never moved by leaving out one.
        var flat = ClusterBootstrap.Of(6, d => d[0] > 1 ? 1 : d[1] > 1 ? 2 : 1.5, new ResampleOptions()).Value!;
        Assert.Contains("no acceleration", flat.Interval(BootstrapMethod.BiasCorrected, 0.9).WhyNoRange, StringComparison.Ordinal);
    }
}
