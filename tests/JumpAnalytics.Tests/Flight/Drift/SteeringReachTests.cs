namespace JumpAnalytics.Tests;

/// <summary>Where a canopy can still be steered to.</summary>
public sealed class SteeringReachTests
{
    private static readonly CanopyDescent _canopy = new(5);

    [Fact]
    public void Reach_is_glide_times_height_about_the_drifted_place()
    {
        var reach = SteeringReach.At(450, WindProfile.Uniform(new WindVector(0, 3)), _canopy, 4);
        Close.Relative(4.0 / 5 * 450, reach.Radius, 1e-12);
        Close.Relative(3 * reach.Seconds, reach.Drift.North, 1e-12);
        Assert.True(reach.HoldsSpot(new LocalVector(0, -3 * reach.Seconds - 359)));
        Assert.False(reach.HoldsSpot(new LocalVector(0, -3 * reach.Seconds - 361)));
        Close.Absolute(1, reach.Beyond(new LocalVector(361, -3 * reach.Seconds)), 1e-9);
        Close.Relative(0.75 * reach.Radius, SteeringReach.At(450, WindProfile.Uniform(new WindVector(0, 3)), _canopy, 4, usable: 0.75).Radius, 1e-12);
    }

    /// <summary>Thin air makes a canopy faster forward and downward alike: the still-air circle is the same at 2,500 m, the drift is not.</summary>
    [Fact]
    public void Still_air_reach_does_not_depend_on_elevation()
    {
        var (low, high) = (SteeringReach.At(450, WindProfile.Uniform(new WindVector(3, 0)), _canopy, 4), SteeringReach.At(450, WindProfile.Uniform(new WindVector(3, 0)), _canopy, 4, 2500));
        Assert.Equal(low.Radius, high.Radius);
        Close.Relative(Math.Sqrt(StandardAtmosphere.DensityRatio(2500 + 225) / StandardAtmosphere.DensityRatio(225)), high.Drift.East / low.Drift.East, 1e-4);
    }

    /// <summary>
    /// Reach is speed times time: 9 mph for 95 s is about 420 yd; 20 mph for 160 s about 1,560 yd. The speeds are those of a fire aviation
    /// trade article of 3 May 2017, the times are common practice, no source.
    /// </summary>
    [Theory]
    [InlineData(9, 95, 420)]
    [InlineData(20, 160, 1560)]
    public void Reach_is_speed_times_time(double mph, double seconds, double yards)
    {
        var rate = 500 / seconds;
        var reach = SteeringReach.At(500, WindProfile.Uniform(default), new CanopyDescent(rate), MeasureUnit.Speed("mph").ToSi(mph));
        Close.Absolute(yards, reach.Radius / MeasureUnit.Distance("yd").Si, 5);
    }

    /// <summary>Holding into a wind of its own speed a canopy makes no way over the ground: from straight above the spot it can just hold the spot.</summary>
    [Fact]
    public void Holding_into_a_wind_of_its_own_speed_makes_no_way()
    {
        var canopy = new CanopyDescent(5, altitude: 200);
        var reach = SteeringReach.At(400, WindProfile.Uniform(new WindVector(0, 4)), canopy, 4);
        // drift and reach are the same length but for the density, which changes by 2 % either side of where the rate is told
        Close.Relative(reach.Radius, reach.Drift.Length * canopy.RateAt(0) / 5 / 1.0, 0.02);
    }

    /// <summary>The window at each height: within the radius about its middle the spot is in reach, beyond it is not, and its middle lies upwind by the drift below.</summary>
    [Fact]
    public void The_window_lies_upwind_and_widens_with_height()
    {
        var wind = WindProfile.Through([new(6.096, new WindVector(3, 0))], new WindFill(WindLaw.Power), new WindFill(WindLaw.Power));
        var windows = new[] { 100.0, 200, 400 }.Select(h => SteeringReach.At(h, wind, _canopy, 4)).ToList();
        foreach (var w in windows)
        {
            Close.Absolute(-DriftModel.Drift(wind, _canopy, w.Height).Drift, w.WindowCentre, 1e-9);
            foreach (var degrees in new[] { 0.0, 90, 200 })
            {
                Assert.True(w.HoldsSpot(w.WindowCentre + LocalVector.FromPolar(w.Radius - 0.01, Bearing.FromDegrees(degrees))));
                Assert.False(w.HoldsSpot(w.WindowCentre + LocalVector.FromPolar(w.Radius + 0.01, Bearing.FromDegrees(degrees))));
            }
        }
        Assert.True(windows.Zip(windows.Skip(1)).All(p => p.Second.Radius > p.First.Radius && p.Second.WindowCentre.East < p.First.WindowCentre.East));
    }

    [Fact]
    public void On_the_ground_nothing_is_left_and_what_can_not_be_is_refused()
    {
        Assert.Equal(new SteeringReach(0, 0, default, 0), SteeringReach.At(0, WindProfile.Uniform(default), _canopy, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => SteeringReach.At(-1, WindProfile.Uniform(default), _canopy, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => SteeringReach.At(10, WindProfile.Uniform(default), _canopy, 4, usable: 1.2));
    }

    [Fact]
    public void Every_figure_names_its_source()
    {
        Assert.All(CanopyFigure.Collected, f => Assert.True(f.Low <= f.High && f.Low > 0 && f.Source.Length > 8, f.Item));
        Assert.Equal(CanopyFigure.Collected.Count, CanopyFigure.Collected.Select(f => (f.Item, f.Quantity, f.Low)).Distinct().Count());
        Assert.Contains(CanopyFigure.Collected, f => f.Source == "common practice, no source" && f.Quantity == "time of a full turn");
    }

    /// <summary>
    /// K = 51.44 / rate (100 ft, knots, metres), computed: K = 3.0 means 17.1 ft/s and overstates the drift at 22 to 24 ft/s by 28 to 40 %.
    /// </summary>
    [Fact]
    public void Figures_that_follow_from_others_do()
    {
        var foot = MeasureUnit.Distance("ft").Si;
        var implied = Assert.Single(CanopyFigure.Collected, f => f.Item.Contains("K = 3.0", StringComparison.Ordinal));
        Close.Absolute(3.0, 51.44 / (implied.Low / foot), 0.01);
        var older = Assert.Single(CanopyFigure.Collected, f => f.Item == "military round canopy, older");
        Close.Absolute(1.28, 3.0 / (51.44 / (older.Low / foot)), 0.005);
        Close.Absolute(1.40, 3.0 / (51.44 / (older.High / foot)), 0.005);
        // 20 mph forward and 6 to 8 mph down, as the same chapter has it, is a glide of 2.5 to 3.3
        var (square, glide) = (Assert.Single(CanopyFigure.Collected, f => f.Item == "square canopy, full glide"), Assert.Single(CanopyFigure.Collected, f => f.Quantity == "glide ratio"));
        Assert.InRange(glide.Low, MeasureUnit.Speed("mph").ToSi(20) / square.High, MeasureUnit.Speed("mph").ToSi(20) / square.Low);
    }
}
