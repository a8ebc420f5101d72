namespace JumpAnalytics.Tests;

/// <summary>Winds by height: known levels, laws beyond them, exact means.</summary>
public sealed class WindProfileTests
{
    private static readonly double _foot = MeasureUnit.Distance("ft").Si;

    [Fact]
    public void It_is_linear_between_levels_by_components()
    {
        var profile = WindProfile.Through([new(300, new WindVector(0, 6)), new(100, new WindVector(4, 0))]);
        Close.Absolute(new LocalVector(2, 3), profile.At(200).Over(1), 1e-12);
        Close.Absolute(new LocalVector(4, 0), profile.At(10).Over(1), 1e-12);
        Close.Absolute(new LocalVector(0, 6), profile.At(900).Over(1), 1e-12);
        Close.Absolute(new LocalVector(2, 3), profile.Mean(100, 300).Over(1), 1e-12);
        // 0 to 400: 100 m at (4,0), 200 m with mean (2,3), 100 m at (0,6)
        Close.Absolute(new LocalVector(2, 3), profile.Mean(0, 400).Over(1), 1e-12);
        Assert.Equal("Known: 2 winds, from 100 to 300 m above ground, linear between. Filled in: below held constant, above held constant.", profile.Account);
    }

    /// <summary>
    /// Seventh-root law (AMS Glossary), computed by hand: 20 ft to 1,500 ft × 1.85, mean of the layer × 1.62; to 3,000 ft × 2.05, mean
    /// × 1.79. The mean over height h is (h/20 ft)^(1/7)/(8/7).
    /// </summary>
    [Theory]
    [InlineData(1500, 1.85, 1.62)]
    [InlineData(3000, 2.05, 1.79)]
    public void The_seventh_root_law_gives_its_ratios(double feet, double ratio, double mean)
    {
        var profile = WindProfile.Through([new(20 * _foot, new WindVector(1, 0))], new WindFill(WindLaw.Power), new WindFill(WindLaw.Power));
        Close.Absolute(ratio, profile.At(feet * _foot).East, 0.006);
        Close.Absolute(mean, profile.Mean(0, feet * _foot).East, 0.006);
        Close.Relative(Math.Pow(feet / 20, 1 / 7.0) * 7 / 8, profile.Mean(0, feet * _foot).East, 1e-12);
    }

    /// <summary>Mean of ln((z−d)/z0) from d + z0 to h, times that stretch: (h−d)·(ln((h−d)/z0) − 1) + z0.</summary>
    [Theory]
    [InlineData(0.03, 0)]
    [InlineData(1, 12)]
    public void The_logarithmic_law_has_its_closed_integral(double roughness, double displacement)
    {
        var fill = new WindFill(WindLaw.Logarithmic, Roughness: roughness, Displacement: displacement);
        var profile = WindProfile.Through([new(30, new WindVector(0, 5))], fill, fill);
        var (h, reference) = (100 - displacement, Math.Log((30 - displacement) / roughness));
        Close.Relative(5 / reference * (h * (Math.Log(h / roughness) - 1) + roughness), 100 * profile.Mean(0, 100).North, 1e-10);
        Assert.Equal(0, profile.At(displacement).North);
    }

    [Fact]
    public void A_mean_is_kept_whatever_the_shape()
    {
        var mean = new WindVector(3, -2);
        foreach (var shape in new[] { WindFill.Constant, new WindFill(WindLaw.Power), new WindFill(WindLaw.Power, 0.3), new WindFill(WindLaw.Logarithmic, Roughness: 0.5, Displacement: 3) })
        {
            var profile = WindProfile.WithMean(mean, 457, shape);
            Close.Absolute(mean.Over(1), profile.Mean(0, 457).Over(1), 1e-10, shape.Words);
            Assert.Contains(shape.Words, profile.Account, StringComparison.Ordinal);
        }
    }

    /// <summary>Two streamers sets from 150 and 450 m in a wind that is (2,0) below 150 m and (6,3) above: the upper layer's mean comes out by difference, whatever the rates of fall.</summary>
    [Fact]
    public void Sets_from_two_heights_tell_two_layers()
    {
        static StreamerSet Set(double height, double rate, LocalVector drift) => new(height, new CanopyDescent(rate), drift, 10);
        double Seconds(double bottom, double top, double rate) => new CanopyDescent(rate).Seconds(bottom, top, 0);
        var low = Set(150, 5, new WindVector(2, 0).Over(Seconds(0, 150, 5)));
        var high = Set(450, 6, new WindVector(2, 0).Over(Seconds(0, 150, 6)) + new WindVector(6, 3).Over(Seconds(150, 450, 6)));
        var profile = StreamerSet.Profile([high, low], WindFill.Constant);
        Assert.Equal([75.0, 300.0], profile.Levels.Select(l => l.Height));
        // means that count heights by the time spent there, as a fall does: what a canopy drifts in each layer over how long it takes
        var layers = DriftModel.Drift(profile, new CanopyDescent(4), 450).Layers;
        LocalVector Mean(Func<DescentLayer, bool> of) => 1 / layers.Where(of).Sum(l => l.Seconds) * layers.Where(of).Select(l => l.Wind.Over(l.Seconds)).Aggregate((a, b) => a + b);
        Close.Absolute(new LocalVector(2, 0), Mean(l => l.Top <= 150), 1e-9);
        Close.Absolute(new LocalVector(6, 3), Mean(l => l.Bottom >= 150), 1e-9);
        Assert.StartsWith("Known: the mean winds from the ground to 150 and 450 m.", profile.Account, StringComparison.Ordinal);
        Assert.Equal(2, StreamerSet.Profile([low, low with { Drift = default }], WindFill.Constant).At(10).East * 2, 9); // two sets at one height: their mean
    }

    /// <summary>
    /// What was measured comes out again: streamers that fall through the profile drift as their set did, whatever the wind and the shape, and from the highest release a canopy of the same
    /// rate drifts with the error of that one set, since the lower sets' errors cancel. Sets are flown in three winds, one of which turns.
    /// </summary>
    [Theory]
    [InlineData(new[] { 457.0 })]
    [InlineData(new[] { 150.0, 450 })]
    [InlineData(new[] { 120.0, 300, 450, 900 })]
    public void Streamers_through_their_own_profile_drift_as_they_did(double[] tops)
    {
        var rate = new CanopyDescent(5);
        var truths = new[]
        {
            WindProfile.Uniform(new WindVector(3, -4)), WindProfile.Through([new(6, new WindVector(3, 0))], new WindFill(WindLaw.Power, 0.25), new WindFill(WindLaw.Power, 0.25)),
            WindProfile.Through([new(1, default), new(300, new WindVector(6, 0)), new(900, new WindVector(0, 9))]),
        };
        foreach (var (truth, shape) in truths.SelectMany(_ => new[] { WindFill.Constant, new WindFill(WindLaw.Power), new WindFill(WindLaw.Logarithmic, Roughness: 0.5, Displacement: 8) }, (t, s) => (t, s)))
        {
            var sets = tops.Select((t, i) => new StreamerSet(t, rate, DriftModel.Drift(truth, rate, t, 1200).Drift, 20 + i)).ToList();
            var profile = StreamerSet.Profile(sets, shape, 1200);
            foreach (var set in sets)
            {
                var back = DriftModel.Drift(profile, rate, set.ReleaseHeight, 1200);
                Close.Absolute(set.Drift, back.Drift, 1e-7);
                Close.Relative(set.DriftSd, back.Error!.Value.AxisSds.Longest, 1e-9, $"{shape.Words}, {set.ReleaseHeight} m");
            }
        }
    }

    /// <summary>The error of a drift from above the sets, against what moving each reading by a metre does to it: the drift is linear in the readings, so that its variance is the sum of their squares.</summary>
    [Fact]
    public void Errors_of_sets_pass_into_a_higher_drift()
    {
        var rate = new CanopyDescent(5);
        DriftPath From(double low, double high) => DriftModel.Drift(
            StreamerSet.Profile([new(150, rate, new LocalVector(60 + low, 0), 20), new(450, rate, new LocalVector(300 + high, 0), 30)], new WindFill(WindLaw.Power)), rate, 900);
        var (none, low, high) = (From(0, 0), From(1, 0), From(0, 1));
        double Effect(DriftPath moved) => moved.Drift.East - none.Drift.East;
        Assert.True(Effect(low) < 0 && Effect(high) > 1); // more of the drift low down leaves less of it for the layer that goes on above
        Close.Relative(Math.Pow(20 * Effect(low), 2) + Math.Pow(30 * Effect(high), 2), none.Error!.Value.East, 1e-8);
        Close.Relative(none.Error.Value.East, none.Error.Value.North, 1e-12);
    }

    [Fact]
    public void Winds_aloft_stand_above_sea_level_and_come_from()
    {
        var level = WindLevel.Aloft(2743.2, 1500, 10, Bearing.FromDegrees(270), 1.5);
        Close.Absolute(1243.2, level.Height, 1e-9);
        Close.Absolute(new LocalVector(10, 0), level.Wind.Over(1), 1e-12);
        Assert.Equal(2.25, level.Error!.Value.North);
        Assert.Throws<ArgumentOutOfRangeException>(() => WindLevel.Aloft(1400, 1500, 10, Bearing.FromDegrees(270)));
    }

    [Fact]
    public void What_makes_no_profile_is_refused_with_what_to_do()
    {
        Assert.Contains("at least one", Assert.Throws<ArgumentException>(() => WindProfile.Through([])).Message, StringComparison.Ordinal);
        Assert.Contains("one height, 50.0 m", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(50, default), new(50, default)])).Message, StringComparison.Ordinal);
        Assert.Contains("above zero", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(0, default)])).Message, StringComparison.Ordinal);
        Assert.Contains("displacement", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(5, default)], new WindFill(WindLaw.Logarithmic, Displacement: 8))).Message, StringComparison.Ordinal);
        Assert.Contains("5.0 m", Assert.Throws<ArgumentException>(() => WindProfile.WithMean(default, 5, new WindFill(WindLaw.Logarithmic, Displacement: 8))).Message, StringComparison.Ordinal);
        Assert.Contains("roughness above zero", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(10, default)], above: new WindFill(WindLaw.Logarithmic, Roughness: 0))).Message, StringComparison.Ordinal);
        Assert.Contains("0 to 1; found -1", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(10, default)], new WindFill(WindLaw.Power, -1))).Message, StringComparison.Ordinal);
        foreach (var odd in new WindLevel[] { new(10, new WindVector(double.NaN, 0)), new(double.PositiveInfinity, default) })
            Assert.Contains("finite", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(5, default), odd])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => WindProfile.Uniform(default).Mean(50, 50));
        Assert.Throws<ArgumentException>(() => StreamerSet.Profile([new(400, new CanopyDescent(5), new LocalVector(double.NaN, 0))], WindFill.Constant));
        Assert.Throws<ArgumentException>(() => StreamerSet.Profile([], WindFill.Constant));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindProfile.WithMean(default, 0, WindFill.Constant));
    }
}
