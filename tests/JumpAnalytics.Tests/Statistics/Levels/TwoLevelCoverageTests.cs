namespace JumpAnalytics.Tests;

/// <summary>How often the intervals hold the truth, in samples like a season's.</summary>
public sealed class TwoLevelCoverageTests
{
    private static readonly PlaneCovariance _within = new(220, 160, 60);

    public static TheoryData<int, double, double> Seasons => new()
    {
        { 12, 300, 200 }, { 30, 300, 200 }, { 30, 30, 20 }, { 30, 0, 0 }, { 30, 400, 0 }, { 100, 300, 200 },
    };

    /// <summary>
    /// 95 % intervals of 400 samples: at least 364 (91 %) hold the truth. With a coverage of 95 % fewer do with probability 4e-4
    /// (binomial), in one of 6 × 4 counts 1e-2 before the fixed seeds were seen. Where there is nothing between missions
    /// intervals hold it more often.
    /// </summary>
    [Theory]
    [MemberData(nameof(Seasons))]
    [Trait("Category", "Long")]
    public void Intervals_of_bias_and_share_hold_the_truth(int missions, double downwind, double right)
    {
        var truth = new MadeMisses(new(6, -3), new(downwind, right, 0), _within);
        int bias = 0, overall = 0, along = 0, across = 0;
        const int Samples = 400;
        for (var seed = 0; seed < Samples; seed++)
        {
            var random = SeedStream.For(seed, "sticks");
            var model = TwoLevelModel.FitTo(PlaneSample.Of(
                MadeMisses.Draw(seed, Enumerable.Range(0, missions).Select(_ => 1 + random.Next(6)).ToList(), truth))).Value!;
            if (model.BiasAlong.Range!.Value.Contains(6)) bias++;
            if (model.Forecast.Overall.Share.Range!.Value.Contains((downwind + right) / (downwind + right + _within.Trace))) overall++;
            if (model.Forecast.Along.Share.Range!.Value.Contains(downwind / (downwind + _within.VarianceAlong))) along++;
            if (model.Forecast.Right.Share.Range!.Value.Contains(right / (right + _within.VarianceAcross))) across++;
        }
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"of {Samples}: bias {bias}, share overall {overall}, downwind {along}, right {across}");
        Assert.InRange(bias, 364, Samples);
        Assert.InRange(overall, 364, Samples);
        Assert.InRange(along, 364, Samples);
        Assert.InRange(across, 364, Samples);
    }

    /// <summary>
    /// 300 samples of 60 missions: each estimate over its standard error has a spread of one. The mean of 300 squares of about normal
    /// numbers has the spread 0.082; covariances are a little skewed. Limits of 0.65 and 1.35 are four such spreads: error probability
    /// below 1e-3 for eight numbers.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void Standard_errors_are_the_spread_of_the_estimates()
    {
        var truth = MadeMisses.Typical;
        var squares = new double[8];
        const int Samples = 300;
        for (var seed = 0; seed < Samples; seed++)
        {
            var model = TwoLevelModel.FitTo(
                PlaneSample.Of(MadeMisses.Draw(seed, Enumerable.Range(0, 60).Select(i => 1 + i % 6), truth))).Value!;
            double[] standard =
            [
                (model.Bias.Along - truth.Bias.Along) / Math.Sqrt(model.BiasErrors.VarianceAlong),
                (model.Bias.Across - truth.Bias.Across) / Math.Sqrt(model.BiasErrors.VarianceAcross),
                (model.Between.Value.VarianceAlong - truth.Between.VarianceAlong) / model.Between.StandardErrors!.VarianceAlong,
                (model.Between.Value.VarianceAcross - truth.Between.VarianceAcross) / model.Between.StandardErrors.VarianceAcross,
                (model.Between.Value.Covariance - truth.Between.Covariance) / model.Between.StandardErrors.Covariance,
                (model.Within.Value.VarianceAlong - truth.Within.VarianceAlong) / model.Within.StandardErrors!.VarianceAlong,
                (model.Within.Value.VarianceAcross - truth.Within.VarianceAcross) / model.Within.StandardErrors.VarianceAcross,
                (model.Within.Value.Covariance - truth.Within.Covariance) / model.Within.StandardErrors.Covariance,
            ];
            for (var i = 0; i < squares.Length; i++) squares[i] += standard[i] * standard[i] / Samples;
        }
        TestContext.Current.TestOutputHelper!.WriteLine(
            string.Join(" ", squares.Select(s => s.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))));
        Assert.All(squares, s => Assert.InRange(s, 0.65, 1.35));
    }
}
