namespace JumpAnalytics.Tests;

/// <summary>Simulated forecasts against closed forms.</summary>
public sealed class ForecastSimulationTests
{
    private static readonly IReadOnlyList<DescentLayer> _layers =
        [.. Enumerable.Range(0, 9).Select(i => new DescentLayer(50 * i, 50 * i + 50, 10, new WindVector(0, 3 + 0.4 * i)))];

    private static ForecastSetting Setting(double runDegrees = 30) => new(_layers, 300, Bearing.FromDegrees(runDegrees), 45, 40);

    private static ForecastErrorSources Only(Func<ForecastErrorSources, ForecastErrorSources> one) => one(ForecastErrorSources.None);

    [Fact]
    public void Nothing_wrong_is_no_miss()
    {
        var simulation = ForecastSimulation.Of(Setting(), ForecastErrorSources.None, 1000);
        Assert.Equal((1.0, 0.0), (simulation.HitChance.Value, simulation.Covariance.Trace));
        Close.Absolute(0, simulation.Mean.Length, 1e-9);
        Close.Relative(90 * (3 + 0.4 * 4), Setting().Drift.North, 1e-12);
    }

    /// <summary>
    /// Each source alone against its variance by hand; of 200,000 descents a variance has a relative standard error of 0.32 %, so 2 % are
    /// six of them: below 1 in 100 million by chance. The descent rate is log-normal, whose square terms add 0.5 %.
    /// </summary>
    [Fact]
    public void Each_source_alone_has_its_variance()
    {
        const double seconds = 90;
        var drift = Setting().Drift.Length;
        void Check(Func<ForecastErrorSources, ForecastErrorSources> one, double downwind, double right, string what)
        {
            var sources = Only(one);
            var simulation = ForecastSimulation.Of(Setting(), sources, 200_000);
            var first = SourceVariances.Of(Setting(), sources).Total;
            if (downwind > 0) Close.Relative(downwind, simulation.Covariance.VarianceAlong, 0.02, what);
            if (right > 0) Close.Relative(right, simulation.Covariance.VarianceAcross, 0.02, what);
            else Close.Absolute(0, simulation.Covariance.VarianceAcross, 1e-9, what);
            Close.Absolute(downwind, first.VarianceAlong, 1e-6 * downwind, what);
            Close.Absolute(right, first.VarianceAcross, 1e-6 * right + 1e-9, what);
        }
        Check(s => s with { WindChange = 0.5, SharedByHeight = 1 }, 0.25 * seconds * seconds, 0.25 * seconds * seconds, "wind");
        Check(s => s with { WindChange = 0.5, SharedByHeight = 0, LayerDepth = 1e9 }, 0.25 * seconds * seconds,
            0.25 * seconds * seconds, "wind of layers that go together");
        Check(s => s with { WindChange = 0.5, SharedByHeight = 0, LayerDepth = 1e-3 }, 0.25 * 9 * 100,
            0.25 * 9 * 100, "wind of layers on their own");
        Check(s => s with { ReadingShare = 0.1 }, 0.01 * drift * drift, 0, "reading");
        Check(s => s with { ReadingAngle = 0.1, ReadingFloor = 5 }, 25, 25 + 0.01 * drift * drift, "reading of the direction");
        Check(s => s with { DescentRate = 0.05 }, 0.0025 * drift * drift, 0, "descent rate");
        Check(s => s with { JumperOwn = 12 }, 144, 144, "jumper");
        var (sin, cos) = Math.SinCos(double.DegreesToRadians(30)); // the drift goes north, the run 30° to the right of it
        Check(s => s with { ExitTiming = 0.6, ExitAcross = 9 }, Math.Pow(27 * cos, 2) + Math.Pow(9 * sin, 2),
            Math.Pow(27 * sin, 2) + Math.Pow(9 * cos, 2), "exit");
        Check(s => s with { WindChange = 0.5, SharedByHeight = 1, SteeringLeaves = 0.2 }, 0.04 * 0.25 * seconds * seconds,
            0.04 * 0.25 * seconds * seconds, "steered");
    }

    /// <summary>
    /// The sum over layers is drawn at once; here it is drawn layer by layer, each change keeping part of the one below. The variance of
    /// 200,000 sums has a relative standard error of 0.32 %, so 2 % are six.
    /// </summary>
    [Fact]
    public void The_change_of_the_wind_over_layers_is_what_a_chain_of_layers_gives()
    {
        var setting = Setting();
        var sources = new ForecastErrorSources { WindChange = 0.6, SharedByHeight = 0.4, LayerDepth = 250 };
        var (random, sum) = (new Random(5), 0.0);
        var windSd = sources.WindSd(setting.Age);
        const int Draws = 200_000;
        for (var d = 0; d < Draws; d++)
        {
            var (shared, _) = StandardNormal.Pair(random);
            var (blown, change) = (Math.Sqrt(sources.SharedByHeight) * windSd * shared * setting.Layers.Sum(l => l.Seconds), 0.0);
            for (var k = 0; k < setting.Layers.Count; k++)
            {
                var apart = k == 0
                    ? 0 : (setting.Layers[k].Bottom + setting.Layers[k].Top - setting.Layers[k - 1].Bottom - setting.Layers[k - 1].Top) / 2;
                var keep = k == 0 ? 0 : Math.Exp(-apart / sources.LayerDepth);
                change = keep * change + Math.Sqrt(1 - keep * keep) * StandardNormal.Pair(random).First;
                blown += Math.Sqrt(1 - sources.SharedByHeight) * windSd * setting.Layers[k].Seconds * change;
            }
            sum += blown * blown;
        }
        Close.Relative(sum / Draws, SourceVariances.Blown(setting, sources), 0.02);
    }

    /// <summary>
    /// Normal errors only: the chance inside is that of a normal in a circle (the library's own kernel, itself checked against published
    /// tables), to four standard errors of 200,000 descents: 1 in 16,000.
    /// </summary>
    [Fact]
    public void With_normal_errors_the_chance_is_that_of_a_normal_in_a_circle()
    {
        var sources = new ForecastErrorSources { DescentRate = 0 };
        var simulation = ForecastSimulation.Of(Setting(), sources, 200_000);
        var c = SourceVariances.Of(Setting(), sources).Total;
        var exact = DiscProbability.Inside(40, 0, 0, c.VarianceAlong, c.VarianceAcross, c.Covariance);
        Close.Absolute(exact, simulation.HitChance.Value, 4 * Math.Sqrt(exact * (1 - exact) / 200_000));
        var nine = DiscProbability.Radius(0.9, 0, 0, c.VarianceAlong, c.VarianceAcross, c.Covariance);
        Assert.InRange(nine, simulation.NineInTen.Range!.Value.Low * 0.99, simulation.NineInTen.Range.Value.High * 1.01);
    }

    /// <summary>
    /// Without a run, or without a drift that it could be told from, the exit's errors count in every direction alike:
    /// half of 27² + 9² either way.
    /// </summary>
    [Fact]
    public void An_exit_without_a_direction_counts_every_way()
    {
        var sources = Only(s => s with { ExitTiming = 0.6, ExitAcross = 9 });
        foreach (var setting in new[] { Setting() with { Run = null },
            Setting() with { Layers = [new DescentLayer(0, 400, 90, default)] } })
        {
            var simulation = ForecastSimulation.Of(setting, sources, 200_000);
            foreach (var c in new[] { simulation.Covariance, SourceVariances.Of(setting, sources).Total })
            {
                Close.Relative((27 * 27 + 81) / 2.0, c.VarianceAlong, 0.02);
                Close.Relative((27 * 27 + 81) / 2.0, c.VarianceAcross, 0.02);
                Close.Absolute(0, c.Covariance, 8); // six standard errors of a covariance of 200,000
            }
        }
    }

    [Fact]
    public void The_wind_grows_with_the_third_root_of_the_age()
    {
        var sources = new ForecastErrorSources();
        Close.Relative(2, sources.WindSd(8 * 300) / sources.WindSd(300), 1e-12);
        Assert.Equal(0, sources.WindSd(0));
    }

    [Fact]
    public void The_same_seed_gives_the_same_numbers_and_another_others()
    {
        double Half(int seed) => ForecastSimulation.Of(Setting(), new ForecastErrorSources(), 20_000, seed).Half.Value;
        Assert.Equal(Half(1), Half(1));
        Assert.NotEqual(Half(1), Half(2));
    }

    [Fact]
    public void A_calm_forecast_has_no_setting_and_nothing_is_no_forecast()
    {
        Assert.Equal("a calm forecast tells no time aloft", ForecastSetting.Of(Made.Drop(windSpeed: 0)).Reason);
        Assert.Throws<ArgumentException>(() => ForecastSimulation.Of(Setting() with { Layers = [] }, new ForecastErrorSources()));
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastSimulation.Of(Setting(), new ForecastErrorSources(), 10));
        Close.Relative(75, ForecastSetting.Of(Made.Drop(windSpeed: 4)).Value!.Layers[0].Seconds, 1e-12); // 300 m of drift at 4 m/s
    }
}
