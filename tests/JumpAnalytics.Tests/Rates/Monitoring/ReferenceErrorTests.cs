namespace JumpAnalytics.Tests.Monitoring;

/// <summary>What the error of a reference does to a chance, against moments and by hand.</summary>
public sealed class ReferenceErrorTests
{
    /// <summary>Squared length of the error of a mean of n: 1/n for one axis, 2/n for two; fourth power 3/n² and 8/n².</summary>
    [Theory]
    [InlineData(1, 1, 3)]
    [InlineData(2, 2, 8)]
    public void Errors_of_the_mean_have_their_moments(int axes, double second, double fourth)
    {
        Close.Relative(1, ReferenceError.Mean(50, axes, (_, _) => 1), 1e-9);
        Close.Relative(second / 50, ReferenceError.Mean(50, axes, (shift, _) => shift * shift), 1e-9);
        Close.Relative(fourth / 2500, ReferenceError.Mean(50, axes, (shift, _) => Math.Pow(shift, 4)), 1e-9);
        Assert.Equal(0, ReferenceError.Mean(50, axes, (shift, _) => shift < 0 ? 1 : 0));
    }

    /// <summary>The estimated variance over the true one is chi-square over f = axes · (missions − 1): mean 1, variance 2/f.</summary>
    [Theory]
    [InlineData(10, 1, 9)]
    [InlineData(50, 1, 49)]
    [InlineData(50, 2, 98)]
    public void Errors_of_the_spread_are_those_of_a_variance(int missions, int axes, double freedom)
    {
        Close.Relative(1, ReferenceError.Mean(missions, axes, (_, spread) => Math.Pow(spread, -2)), 1e-4);
        Close.Relative(2 / freedom, ReferenceError.Mean(missions, axes, (_, spread) => Math.Pow(Math.Pow(spread, -2) - 1, 2)), 0.003);
    }

    [Fact]
    public void Errors_of_a_level_are_normal()
    {
        Close.Absolute(0, ReferenceError.Mean(0.3, e => e), 1e-12);
        Close.Relative(0.09, ReferenceError.Mean(0.3, e => e * e), 1e-9);
        Close.Relative(3 * 0.0081, ReferenceError.Mean(0.3, e => Math.Pow(e, 4)), 1e-9);
    }

    /// <summary>
    /// A chart that looks at each of 20 missions alone, limit 3, reference of 30: of 200,000 drawn references and seasons a share
    /// signals, simulation error 0.0007; four of these are allowed.
    /// </summary>
    [Fact]
    public void The_chance_of_a_signal_is_that_of_drawn_references()
    {
        var random = SeedStream.For(4, "references");
        var signalled = 0;
        const int draws = 200_000;
        for (var i = 0; i < draws; i++)
        {
            var (sum, squares) = (0.0, 0.0);
            for (var m = 0; m < 30; m++)
            {
                var x = StandardNormal.Pair(random).First;
                (sum, squares) = (sum + x, squares + x * x);
            }
            var (mean, sd) = (sum / 30, Math.Sqrt((squares - sum * sum / 30) / 29));
            for (var m = 0; m < 20; m++)
            {
                if (!(Math.Abs(StandardNormal.Pair(random).First - mean) > 3 * sd)) continue;
                signalled++;
                break;
            }
        }
        var stated = ReferenceError.Mean(30, 1, (shift, spread) => EwmaRunLength.Law(1, 3 / spread, shift).ProbabilityWithin(20));
        Close.Absolute((double)signalled / draws, stated, 0.0028);
    }

    private static ChartValue Value(double first, bool restart = false) => new(new MissionInTime("m", default, []), 1, first, 0, restart);

    private static (string, string) Nothing(IReadOnlyList<ChartValue> changed, bool above) => ("", "");

    /// <summary>By hand, k ½, h 2: sums of falls 1, 2.5 (a signal, not set back), 4; a restart; then rises of 1.5.</summary>
    [Fact]
    public void The_farthest_share_of_a_limit_goes_on_after_a_signal_and_ends_at_a_restart()
    {
        var rule = ChartRules.Sums(0.5, 2, Nothing);
        ChartValue[] values = [Value(-1.5), Value(-2), Value(-2), Value(2, true)];
        Close.Relative(2, ChartWalk.Greatest(values, rule), 1e-12);
        Close.Relative(0.75, ChartWalk.Greatest(values[3..], rule), 1e-12);
        Close.Relative(0.5, ChartWalk.Greatest([Value(-1.5), Value(1.5, true)], rule), 1e-12);
        // Weight 0.1: the average of one score of 2 is 0.2, its square over 0.1/1.9 is 0.76, a tenth of the limit.
        Close.Relative(0.1, ChartWalk.Greatest([Value(2)], ChartRules.Plane(0.1, 7.6, Nothing)), 1e-12);
    }

    /// <summary>A statistic at the limit is no signal; the first above it is, and the next mission starts from nothing.</summary>
    [Fact]
    public void A_point_at_the_limit_does_not_signal()
    {
        var (points, signals) = ChartWalk.Along([Value(2.5), Value(0.5), Value(0.75), Value(2.5)], ChartRules.Sums(0.5, 2, Nothing));
        Assert.Equal((double[])[2, 2, 2.25, 2], points.Select(p => p.Upper));
        Assert.Equal(3, Assert.Single(signals).At.Number);
        var steps = ChartWalk.Along([Value(7), Value(1)], ChartRules.Steps(0.02, 7, Nothing));
        Assert.Equal((double[])[0.14, 0.16], steps.Points.Select(p => Math.Round(p.Upper, 12)));
        Assert.Equal(2, Assert.Single(steps.Signals).At.Number);
        var low = ChartWalk.Along([Value(-3.5)], ChartRules.Sums(0.5, 2, (_, above) => (above ? "up" : "down", "")));
        Assert.Equal(("down", 1), (low.Signals[0].Direction, low.Signals[0].MissionsSinceStart));
    }
}
